// Is a typed load far from those before it? The same rules as logbook/far_load.py, which explains them.
// tests/logbook/far_cases.json is run against both.

import { live } from "./next.js";

const TIMES = 2;
const LEAST_KG = 5;
const WITH_BODY_KG = 25;

/** Return what a load is compared with, in kg; `leaveOut` is the id of the set that is edited. */
export function earlierLoads(entry, leaveOut = null) {
  const rows = [...(entry.last?.sets ?? []), ...live(entry)].filter((row) => row.id !== leaveOut);
  const target = entry.target?.load_kg ?? null;
  return [...rows.map((row) => row.load_kg), ...(target === null ? [] : [target])];
}

/** Return the load in kg that `kg` lies far from, null when it does not. */
export function farFrom(kg, earlier, loadKind, warmUp) {
  if (!earlier.length) return null;
  const [least, most] = [Math.min(...earlier), Math.max(...earlier)];
  const external = loadKind === "external";
  const over = external ? kg > TIMES * most && kg - most > LEAST_KG : kg - most > WITH_BODY_KG;
  const under = external ? kg < least / TIMES && least - kg > LEAST_KG : least - kg > WITH_BODY_KG;
  if (over) return most;
  return under && !warmUp ? least : null;
}
