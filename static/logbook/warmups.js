// Warm-up sets from the working load: the same rules as logbook/warm_ups.py, which explains them.

import { inUnit, toKg } from "./loads.js";
import { live, suggestion } from "./next.js";
import { gettext, loadWords } from "./words.js";

const STEPS = [[0.4, 8], [0.6, 5], [0.8, 3]];
const SAME_KG = 0.005;

export function warmUpSets({ exercise }, settings, workingKg) {
  if (!workingKg || exercise.load_kind !== "external" || exercise.rep_unit !== "reps") return [];
  const found = [];
  for (const [share, reps] of STEPS) {
    const load = settings.findLast((kg) => kg <= share * workingKg + SAME_KG);
    if (load && (!found.length || load > found.at(-1).load_kg)) found.push({ load_kg: load, reps });
  }
  return found;
}

/** Show those that come next as buttons that fill the form; nothing once a working set is logged. */
export function renderWarmUps(place, entry, ladder, unit, fill) {
  if (!place) return;
  const ask = suggestion(entry, unit);
  const kg = ask.load === null ? null : toKg(ask.load, ask.unit);
  const steps = live(entry).length ? [] : warmUpSets(entry, ladder?.settings ?? [], kg);
  const done = live(entry, true).length;
  place.hidden = done >= steps.length;
  place.querySelector("[data-warm-up-list]").replaceChildren(
    ...steps.slice(done).map(({ load_kg: load, reps }) => {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "button second num";
      button.textContent = `${loadWords(inUnit(load, unit), unit, entry.exercise)} × ${reps}`;
      button.setAttribute("aria-label", `${gettext("Warm-up set")}: ${button.textContent}`);
      button.addEventListener("click", () => fill({ load: inUnit(load, unit), unit, reps }));
      return button;
    }),
  );
}
