// The sets of one exercise that are logged, each with its state in words.

import { fill, gettext, setWords, sideWords } from "./words.js";

// Where an entry stays on the phone for longer than a moment, the words need a line of their own.
const HELD = new Set(["offline", "sign-in", "later"]);

const span = (className, text) => {
  const element = document.createElement("span");
  element.className = className;
  element.textContent = text;
  return element;
};

/** Say where a set is: saved, on its way, or refused with the reason. */
export function syncWords(row, delivery) {
  if (row.op?.problem) return fill(gettext("not saved: %(reason)s"), { reason: reasonOf(row.op.problem) });
  if (row.op) {
    // Not a word of the phone before the phone has written it down: the battery may be flat the next moment.
    if (!row.op.kept) return gettext("saving…");
    if (delivery === "offline") return gettext("on this phone only: no connection");
    if (delivery === "sign-in") return gettext("on this phone only: sign in again");
    if (delivery === "later") return gettext("on this phone only: trying again");
    return gettext("on this phone, sending…");
  }
  if (row.overruled) return gettext("a later edit stands");
  return row.deleted ? gettext("deleted") : gettext("saved");
}

/** Return the first reason beside a field, else the title. */
export function reasonOf(problem) {
  const first = Object.values(problem.errors ?? {})[0];
  return (Array.isArray(first) ? first[0] : first) || problem.title;
}

/** Say which set: a warm-up set, and each side, has a count of its own. */
function whichWords({ number, side, warm_up: warmUp }) {
  const words = fill(warmUp ? gettext("warm-up set %(number)s") : gettext("set %(number)s"), { number });
  return side === "both" ? words : `${words}, ${sideWords(side)}`;
}

/** Say of a set where it is, for the ear: "set 2, 60 kg × 8, RIR 2: saved". */
export function told(entry, id, delivery) {
  const row = entry.sets.find((set) => set.id === id);
  return row ? `${whichWords(row)}, ${setWords(row, entry.exercise)}: ${syncWords(row, delivery)}` : "";
}

function fillRow(item, row, exercise, delivery) {
  item.dataset.set = row.id;
  item.classList.toggle("out", row.deleted);
  item.dataset.sync = row.op?.problem ? "refused" : row.op ? (HELD.has(delivery) ? "held" : "waiting") : "saved";
  const number = item.querySelector(".n");
  number.replaceChildren(row.warm_up ? gettext("warm-up") : String(row.number));
  if (row.side !== "both") number.append(" ", span("side", sideWords(row.side)));
  const words = setWords(row, exercise);
  const what = item.querySelector(".what");
  if (row.deleted) {
    const struck = document.createElement("s");
    struck.textContent = words;
    what.replaceChildren(struck);
  } else what.textContent = words;
  item.querySelector(".sync").textContent = syncWords(row, delivery);
  const edit = item.querySelector("[data-edit]");
  edit.href = `/train/set/${row.id}/`;
  edit.replaceChildren(row.deleted ? gettext("Bring back") : gettext("Edit"));
  edit.append(span("sr-only", ` ${whichWords(row)}`));
  for (const old of item.querySelectorAll(".sub")) old.remove();
  if (row.corrected_by) item.append(span("sub", fill(gettext("corrected by %(name)s"), { name: row.corrected_by })));
  if (row.note) item.append(span("sub", row.note));
  for (const earlier of row.deleted ? [] : (row.history ?? [])) {
    if (earlier.values.deleted) continue;
    const label = earlier.won ? gettext("before:") : gettext("came late, not used:");
    item.append(span("sub", `${label} ${setWords(earlier.values, exercise)}`));
  }
}

const filled = new WeakMap();

/** Bring the list in line with the entry; rows keep their element, so that focus and announcements survive. */
export function renderRows(list, entry, delivery) {
  const known = new Map([...list.children].map((item) => [item.dataset.set, item]));
  for (const row of entry.sets) {
    let item = known.get(row.id);
    if (!item) {
      item = document.getElementById("row-template").content.firstElementChild.cloneNode(true);
      list.append(item);
    }
    known.delete(row.id);
    // A tap changes one row: the others are not touched, or a long session would grow slow.
    const content = JSON.stringify([row, delivery]);
    if (filled.get(item) !== content) fillRow(item, row, entry.exercise, delivery);
    filled.set(item, content);
  }
  for (const gone of known.values()) gone.remove();
}
