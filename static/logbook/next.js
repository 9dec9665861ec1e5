// Which set comes next, and what logging it as prescribed means: the same rules as logbook/next_set.py, which explains
// them. tests/logbook/next_cases.json is run against both.

import { inUnit } from "./loads.js";
import { sidesOf } from "./sides.js";

export const live = (entry, warmUp = false) =>
  (entry.sets ?? []).filter((row) => !row.deleted && row.warm_up === warmUp);

export function nextStep(entry, warmUp = false) {
  const done = new Map();
  for (const row of live(entry, warmUp)) {
    done.set(row.number, (done.get(row.number) ?? new Set()).add(row.side));
  }
  const sides = sidesOf(entry);
  const whole = (has) => sides.length === 1 || sides.every((side) => has.has(side));
  let number = 1;
  while (done.has(number) && whole(done.get(number))) number += 1;
  const has = done.get(number) ?? new Set();
  return { number, side: sides.find((side) => !has.has(side)) };
}

export function isDone(entry) {
  if (entry.skip?.skipped) return true;
  return entry.prescription !== null && nextStep(entry).number > entry.prescription.sets;
}

export function wantedSets(entries) {
  const swapped = new Set(entries.filter((entry) => entry.instead_of).map((entry) => entry.slot));
  const left = (entry) => entry.skip?.skipped && swapped.has(entry.slot) && !entry.instead_of;
  return entries.reduce((sum, entry) => sum + (left(entry) ? 0 : (entry.prescription?.sets ?? 0)), 0);
}

export function suggestion(entry, unit) {
  const step = nextStep(entry);
  const { prescription, target } = entry;
  if (target?.action === "stop") return { load: null, unit, reps: null, rir: null, from: "stop" };
  const before = bestMatch(live(entry), step);
  const last = bestMatch(entry.last?.sets ?? [], step);
  let reps = null;
  let rir = null;
  if (prescription) {
    const { reps_min: low, reps_max: high } = prescription;
    reps = last ? Math.min(Math.max(last.reps, low), high) : low;
    rir = prescription.rir_min;
  } else if (before ?? last) reps = (before ?? last).reps; // outside the plan nothing else says how many
  if (target && target.reps !== null) reps = target.reps;
  return { ...loadOf(entry, unit, before, last), reps, rir };
}

function loadOf(entry, unit, before, last) {
  const { target, exercise } = entry;
  if (before) return { load: before.load, unit: before.unit, from: "session" };
  if (target && target.load_kg !== null) return { load: inUnit(target.load_kg, unit), unit, from: "target" };
  if (last) return { load: last.load, unit: last.unit, from: "last" };
  if (exercise.load_kind === "body_plus" || exercise.equipment.kind === "none") return { load: 0, unit, from: "body" };
  return { load: null, unit, from: "none" };
}

function bestMatch(rows, step) {
  const sameSide = rows.filter((row) => row.side === step.side);
  const same = sameSide.length ? sameSide : rows;
  const upTo = same.filter((row) => row.number <= step.number);
  if (upTo.length) return upTo.reduce((best, row) => (row.number > best.number ? row : best));
  return same.at(-1) ?? null;
}

/** Return last time's sets of the number that comes next, both sides. */
export function lastMatch(entry, number) {
  const rows = entry.last?.sets ?? [];
  const upTo = rows.map((row) => row.number).filter((n) => n <= number);
  const wanted = Math.max(...upTo);
  return rows.filter((row) => row.number === wanted);
}

const rounds = (entry) => nextStep(entry).number - 1;

export function nextEntry(entries, current) {
  const at = entries.findIndex((entry) => entry.key === current);
  const here = entries[at];
  if (here.pair) {
    const block = entries.filter((entry) => entry.pair[0] === here.pair[0] && !isDone(entry));
    block.sort((a, b) => rounds(a) - rounds(b) || (a.pair < b.pair ? -1 : 1));
    if (block.length) return block[0].key;
  } else if (!isDone(here)) return current;
  const after = [...entries.slice(at + 1), ...entries.slice(0, at)];
  return after.find((entry) => !isDone(entry))?.key ?? null;
}
