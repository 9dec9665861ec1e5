// Entries in words, for the list of what is on this phone.

import { fill, gettext, rirWords } from "../words.js";
import { shown } from "../numbers.js";

const KINDS = {
  "session.start": () => gettext("Session begun"),
  "session.finish": () => gettext("Session finished"),
  "session.note": ({ note }) => fill(gettext("Note: %(note)s"), { note }),
  "slot.skip": ({ skipped }) => (skipped ? gettext("Exercise skipped") : gettext("Exercise not skipped after all")),
  "set.record": (data) => fill(gettext("Set: %(set)s"), { set: values(data) }),
  "set.edit": (data) => fill(gettext("Set changed: %(set)s"), { set: values(data) }),
  "set.delete": () => gettext("Set deleted"),
  "checkin.record": () => gettext("Check-in"),
  "comment.write": ({ text }) => fill(gettext("Comment: %(text)s"), { text }),
  "bodymass.record": ({ mass, unit }) => fill(gettext("Body mass: %(mass)s"), { mass: `${shown(mass)} ${unit}` }),
  "pain.report": ({ score }) => fill(gettext("Pain report: %(score)s of 10"), { score }),
};

const values = ({ load, unit, reps, rir }) => `${shown(load)} ${unit} × ${reps}, ${rirWords(rir)}`;

/** Say an operation; one of a kind that this release does not know is named by its kind. */
export const entryWords = ({ kind, data }) => KINDS[kind]?.(data) ?? kind;

/** Say a time as the pages from the server do: day before month, 24 hours. */
export function momentWords(at) {
  const { lang } = document.documentElement;
  return new Date(at).toLocaleString(lang === "en" ? "en-GB" : lang, {
    day: "numeric", month: "short", hour: "2-digit", minute: "2-digit",
  });
}

/** Return entries as a file that can be read again: the operations as they would have been sent, with reasons. */
export const asFile = (rows) =>
  new Blob([JSON.stringify({ format: 1, entries: rows.map(({ op, refused }) => ({ op, refused })) }, null, 2)], {
    type: "application/json",
  });
