// What changed since last time, exercise by exercise: the same rules as logbook/compare.py, which explains them.

import { inUnit, toKg } from "./loads.js";
import { live } from "./next.js";
import { shown } from "./numbers.js";
import { fill, gettext, ngettext } from "./words.js";

const SAME_KG = 0.05;

export function sinceLastTime(sets, last, exercise, unit) {
  if (!sets.length) return gettext("no working set");
  if (!last.length) return gettext("first time");
  const [n, m] = [count(sets), count(last)];
  const second =
    n === m
      ? repsChange(sets, last)
      : fill(ngettext("%(n)s set (%(m)s last time)", "%(n)s sets (%(m)s last time)", n), { n, m });
  return [loadChange(sets, last, exercise, unit), second].filter(Boolean).join(", ") || gettext("no change");
}

function loadChange(sets, last, exercise, unit) {
  const change = top(sets, exercise) - top(last, exercise);
  if (Math.abs(change) <= SAME_KG) return "";
  const amount = `${shown(Math.abs(inUnit(change, unit)))}\u00a0${unit}`;
  if (exercise.load_kind === "assisted") {
    return fill(change > 0 ? gettext("%(amount)s more assistance") : gettext("%(amount)s less assistance"), { amount });
  }
  return fill(change > 0 ? gettext("top load %(amount)s more") : gettext("top load %(amount)s less"), { amount });
}

function repsChange(sets, last) {
  const all = (rows) => rows.reduce((sum, row) => sum + row.reps, 0);
  const change = all(sets) - all(last);
  const n = Math.abs(change);
  if (change > 0) return fill(ngettext("%(n)s repetition more in all", "%(n)s repetitions more in all", n), { n });
  if (change < 0) return fill(ngettext("%(n)s repetition fewer in all", "%(n)s repetitions fewer in all", n), { n });
  return "";
}

function top(rows, exercise) {
  const loads = rows.map(({ load, unit }) => toKg(load, unit));
  return exercise.load_kind === "assisted" ? Math.min(...loads) : Math.max(...loads);
}

const count = (rows) => new Set(rows.map(({ number }) => number)).size;

/** Fill `place` with a line for each exercise of the finished session in which something was logged. */
export function renderSummary(place, sheet) {
  if (!place) return;
  place.hidden = !sheet.session.finished_at;
  if (place.hidden) return;
  place.querySelector("ul").replaceChildren(
    ...sheet.entries.filter((entry) => entry.sets.length).map((entry) => {
      const item = document.createElement("li");
      const name = document.createElement("b");
      name.textContent = entry.exercise.name;
      const words = sinceLastTime(live(entry), entry.last?.sets ?? [], entry.exercise, sheet.unit);
      item.append(name, ": ", words);
      return item;
    }),
  );
}
