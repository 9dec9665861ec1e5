// Exercises done one side at a time: the same rules as logbook/sides.py, which explains them.

import { inUnit, toKg } from "./loads.js";
import { amountWords, fill, gettext, loadWords, sideWords } from "./words.js";

const SAME_KG = 0.05;
const LOAD_A_REP = 1 / 30;
const PLAIN = { load_kind: "external", equipment: { kind: "plates" } };

export const oneSided = (entry) => entry.exercise.laterality === "single";

export function sidesOf(entry) {
  if (!oneSided(entry)) return ["both"];
  const rightFirst = entry.prescription?.weaker_first && weakerSide(entry.last?.sets ?? [], entry.exercise) === "right";
  return rightFirst ? ["right", "left"] : ["left", "right"];
}

function weakerSide(rows, exercise) {
  const best = (side) => rows.filter((row) => row.side === side).map((row) => worth(row, exercise)).sort(compare).at(-1);
  const [left, right] = [best("left"), best("right")];
  const order = left && right ? compare(left, right) : 0;
  return order === 0 ? null : order < 0 ? "left" : "right";
}

function worth({ load, unit, reps, rir }, exercise) {
  const all = reps + (rir ?? 0);
  const kg = toKg(load, unit);
  return [exercise.load_kind === "assisted" ? -kg : kg * (1 + all * LOAD_A_REP), all];
}

const compare = (a, b) => a[0] - b[0] || a[1] - b[1];

export function sideDifference(sets, exercise, unit) {
  const of = (side) => new Map(sets.filter((row) => row.side === side).map((row) => [row.number, row]));
  const [lefts, rights] = [of("left"), of("right")];
  const both = [...lefts.keys()].filter((number) => rights.has(number));
  if (!both.length) return "";
  const assisted = exercise.load_kind === "assisted";
  const top = (rows) => Math[assisted ? "min" : "max"](...both.map((number) => toKg(rows.get(number).load, rows.get(number).unit)));
  const change = top(lefts) - top(rights);
  if (Math.abs(change) > SAME_KG) {
    const amount = loadWords(inUnit(Math.abs(change), unit), unit, PLAIN);
    const side = sideWords(change > 0 === assisted ? "left" : "right");
    return fill(assisted ? gettext("%(side)s %(amount)s more assistance") : gettext("%(side)s %(amount)s less"), { side, amount });
  }
  const count = (rows) => both.reduce((sum, number) => sum + rows.get(number).reps, 0);
  const reps = count(lefts) - count(rights);
  if (!reps) return gettext("no difference");
  const said = { side: sideWords(reps < 0 ? "left" : "right"), amount: amountWords(Math.abs(reps), exercise) };
  return fill(gettext("%(side)s %(amount)s less"), said);
}
