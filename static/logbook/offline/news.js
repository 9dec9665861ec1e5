// What the coach changed in the plan since this phone saw it, in words, until the person has read it.

import { changesFor, setChanges } from "./keep.js";
import { fill, gettext } from "../words.js";

const span = (low, high) => (low === high ? String(low) : `${low}–${high}`);
const dose = ({ sets_min: fewest, sets, reps_min: low, reps_max: high, rir_min: least, rir_max: most }) =>
  `${span(fewest ?? sets, sets)} × ${span(low, high)} @ ${span(least, most)} RIR`;
const dayWords = (iso) => {
  const lang = globalThis.document?.documentElement.lang ?? "en";
  const place = lang === "en" ? "en-GB" : lang;
  return new Date(`${iso}T12:00`).toLocaleDateString(place, { day: "numeric", month: "short" });
};

/** Say one change of one session. */
export function changeWords(change) {
  const { kind, name, before, after } = change;
  if (kind === "gone") return gettext("no longer in your plan. What you logged stays.");
  if (kind === "added") return fill(gettext("%(name)s added"), { name });
  if (kind === "removed") return fill(gettext("%(name)s taken out"), { name });
  if (kind === "moved") {
    return fill(gettext("moved from %(before)s to %(after)s"), { before: dayWords(before), after: dayWords(after) });
  }
  if (dose(before) === dose(after)) return fill(gettext("%(name)s: load, rest, tempo, sides or note changed"), { name });
  return fill(gettext("%(name)s: %(before)s is now %(after)s"), { name, before: dose(before), after: dose(after) });
}

/** Fill `[data-news]`: on a session's page only what concerns it, elsewhere everything. */
export async function showChanges(person, place = document.querySelector("[data-news]")) {
  if (!place) return;
  const all = await changesFor(person);
  const here = place.dataset.news ? all.filter(({ session }) => session === place.dataset.news) : all;
  place.hidden = !here.length;
  const list = place.querySelector("ul");
  list.replaceChildren();
  for (const { day, name, said } of here) {
    const item = document.createElement("li");
    item.textContent = `${name}, ${day}: ${said.map(changeWords).join("; ")}`;
    list.append(item);
  }
  place.querySelector("button").onclick = async () => {
    const left = await changesFor(person);
    await setChanges(person, left.filter((one) => !here.some(({ session }) => session === one.session)));
    place.hidden = true;
  };
}
