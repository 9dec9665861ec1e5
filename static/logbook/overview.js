// The list of all exercises, the progress line, and the word on what is on this phone only.

import { isDone, live, wantedSets } from "./next.js";
import { fill, gettext, ngettext } from "./words.js";

const ON_THIS_PHONE = "/train/phone/";

const done = (entry) => new Set(live(entry).map((row) => row.number)).size;

export function renderOverview(sheet, current) {
  for (const entry of sheet.entries) {
    const item = document.querySelector(`[data-item="${entry.key}"]`);
    if (!item) continue;
    const link = item.querySelector("a");
    if (entry.key === current) link.setAttribute("aria-current", "step");
    else link.removeAttribute("aria-current");
    const state = item.querySelector(".state");
    const skipped = Boolean(entry.skip?.skipped);
    state.dataset.state = skipped ? "off" : isDone(entry) ? "ok" : "";
    state.textContent = stateWords(entry, skipped);
  }
  const wanted = wantedSets(sheet.entries);
  const all = sheet.entries.reduce((sum, entry) => sum + done(entry), 0);
  document.querySelector("[data-progress]").textContent = wanted
    ? fill(ngettext("%(done)s of %(wanted)s set", "%(done)s of %(wanted)s sets", wanted), { done: all, wanted })
    : fill(ngettext("%(done)s set", "%(done)s sets", all), { done: all });
}

function stateWords(entry, skipped) {
  if (skipped) return gettext("skipped");
  if (isDone(entry)) return gettext("done");
  const count = done(entry);
  if (entry.prescription) {
    return fill(gettext("%(done)s of %(wanted)s"), { done: count, wanted: entry.prescription.sets });
  }
  return fill(ngettext("%(count)s set", "%(count)s sets", count), { count });
}

/** Say in words what the server does not have yet; a moment of sending needs no words. */
export function renderDelivery(place, store, state) {
  if (!place) return;
  const waiting = store.waiting().length;
  const parked = store.parked().length;
  // Once it is there it stays until all is sent: a line that comes and goes moves what a thumb is about to touch.
  place.hidden = !parked && (!waiting || (place.hidden && (state === "sending" || state === "idle")));
  if (place.hidden) {
    delete place.dataset.now;
    return;
  }
  const said = [];
  if (waiting) said.push(countWords(waiting), whyWords(state));
  if (waiting && store.volatile) said.push(gettext("This browser keeps nothing: leave this page open until it is sent."));
  if (parked) {
    const words = ngettext("%(count)s entry was refused.", "%(count)s entries were refused.", parked);
    const refused = document.createElement("span");
    refused.className = "wrong";
    refused.textContent = fill(words, { count: parked });
    said.push(refused);
  }
  // Only a change is written: the same words again would be read out again.
  const now = JSON.stringify([said.map((part) => part?.textContent ?? part), state]);
  if (place.dataset.now === now) return;
  place.dataset.now = now;
  place.replaceChildren(...said.filter(Boolean).flatMap((part) => [part, " "]));
  if (state === "sign-in") place.append(" ", link(`/account/login/?next=${encodeURIComponent(location.pathname)}`, gettext("Sign in")));
  if (location.pathname !== ON_THIS_PHONE) place.append(" ", link(ON_THIS_PHONE, gettext("See them")));
}

const countWords = (waiting) =>
  fill(ngettext("%(count)s entry is on this phone only.", "%(count)s entries are on this phone only.", waiting), {
    count: waiting,
  });

const whyWords = (state) =>
  ({
    sending: gettext("Sending…"),
    offline: gettext("No connection; it is sent as soon as there is one."),
    later: gettext("The server cannot take it now; it is sent again in a moment."),
    "sign-in": gettext("You are signed out. Sign in again; nothing is lost."),
  })[state];

function link(href, text) {
  const element = document.createElement("a");
  element.href = href;
  element.textContent = text;
  return element;
}
