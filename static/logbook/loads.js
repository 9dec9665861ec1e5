// Loads that the equipment can make: stepping along them, and which plates they are. All lists are in kilograms.

import { shown } from "./numbers.js";

const KG_PER_LB = 0.45359237;
// Loads within 5 g are the same load (periodization/loads/steps.py).
const SAME_KG = 0.005;
// Steps where the equipment's loads are not known, or are passed.
const PLAIN_STEP = { kg: 2.5, lb: 5 };

export const toKg = (load, unit) => (unit === "lb" ? load * KG_PER_LB : load);

/** Return kg as shown and typed in `unit`: pounds to a tenth, kilograms to a hundredth. */
export function inUnit(kg, unit) {
  return unit === "lb" ? Math.round((kg / KG_PER_LB) * 10) / 10 : Math.round(kg * 100) / 100;
}

/** Return the next load up (direction 1) or down (-1) in `unit`; from nothing, the lightest; never below zero. */
export function step(ladder, load, unit, direction) {
  const settings = ladder?.settings ?? [];
  if (load === null || Number.isNaN(load)) return inUnit(settings[0] ?? 0, unit);
  const kg = toKg(load, unit);
  // A typed load was rounded to be shown: pounds to a tenth are up to 23 g off.
  const near = unit === "lb" ? 0.03 : SAME_KG;
  const found =
    direction > 0
      ? settings.find((setting) => setting > kg + near)
      : settings.findLast((setting) => setting < kg - near);
  if (found !== undefined) return inUnit(found, unit);
  if (direction < 0) return settings.length ? load : Math.max(0, load - PLAIN_STEP[unit]);
  return load + PLAIN_STEP[unit];
}

/** Return the plates for one side, null when the equipment has none or cannot make the load. */
export function platesFor(ladder, load, unit) {
  if (!ladder?.plates || load === null || Number.isNaN(load)) return null;
  const kg = toKg(load, unit);
  const near = unit === "lb" ? 0.03 : SAME_KG;
  const at = ladder.settings.findIndex((setting) => Math.abs(setting - kg) <= near);
  return at < 0 ? null : ladder.plates[at];
}

/** Return the two loads around one that cannot be made, in `unit`: [below, above], each null where there is none. */
export function around(ladder, load, unit) {
  const kg = toKg(load, unit);
  const settings = ladder?.settings ?? [];
  const below = settings.findLast((setting) => setting <= kg);
  const above = settings.find((setting) => setting >= kg);
  return [below, above].map((setting) => (setting === undefined ? null : inUnit(setting, unit)));
}

export const canMake = (ladder, load, unit) => {
  const kg = toKg(load, unit);
  const near = unit === "lb" ? 0.03 : SAME_KG;
  return (ladder?.settings ?? []).some((setting) => Math.abs(setting - kg) <= near);
};

/** Name plates as they are marked. */
export const plateWords = (plates, unit) => plates.map((kg) => shown(inUnit(kg, unit))).join(" + ");
