// Sets and loads in words, as logbook/wording.py says them on the server.

import { shown } from "./numbers.js";

const catalog = globalThis;

/** Translate, when the catalog is loaded (/jsi18n/). */
export const gettext = (text) => (catalog.gettext ? catalog.gettext(text) : text);
export const ngettext = (one, many, n) =>
  catalog.ngettext ? catalog.ngettext(one, many, n) : n === 1 ? one : many;

/** Fill %(name)s in a translated text. */
export const fill = (text, values) => text.replace(/%\((\w+)\)s/g, (_, name) => values[name]);

export function loadWords(load, unit, exercise) {
  const text = `${shown(load)}\u00a0${unit}`;
  if (exercise.load_kind === "body_plus") {
    return load ? fill(gettext("body weight + %(load)s"), { load: text }) : gettext("body weight");
  }
  if (exercise.load_kind === "assisted") {
    return load ? fill(gettext("%(load)s assistance"), { load: text }) : gettext("no assistance");
  }
  return !load && exercise.equipment.kind === "none" ? "" : text;
}

export function repsWords(reps, exercise) {
  if (exercise.rep_unit === "seconds") return fill(gettext("%(count)s\u00a0s"), { count: reps });
  if (exercise.rep_unit === "steps") {
    return fill(ngettext("%(count)s step", "%(count)s steps", reps), { count: reps });
  }
  return String(reps);
}

/** Say an amount of what the exercise counts: "2 repetitions", "5 s". */
export const amountWords = (count, exercise) =>
  exercise.rep_unit === "reps"
    ? fill(ngettext("%(count)s repetition", "%(count)s repetitions", count), { count })
    : repsWords(count, exercise);

export const rirWords = (rir) =>
  rir === null ? gettext("RIR unknown") : fill(gettext("RIR %(rir)s"), { rir: shown(rir) });

/** Say a set: "42.5 kg × 10, RIR 1". */
export function setWords(row, exercise) {
  const load = loadWords(row.load, row.unit, exercise);
  const work = load ? `${load} × ${repsWords(row.reps, exercise)}` : amountWords(row.reps, exercise);
  return `${work}, ${rirWords(row.rir)}`;
}

export const sideWords = (side) =>
  ({ left: gettext("left"), right: gettext("right") })[side] ?? "";

/** Say a time: "1:05". */
export const clockWords = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
