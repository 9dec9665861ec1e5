// Puts a substitute that came into the session on the page: its panel out of its template, and its line in the list.

/** Mount every entry that the page does not show yet, in the sheet's order; return the new sections. */
export function mountEntries(sheet) {
  const made = [];
  for (const [at, entry] of sheet.entries.entries()) {
    if (document.querySelector(`[data-key="${entry.key}"]`)) continue;
    const template = document.querySelector(`template[data-swap-panel="${entry.key}"]`);
    if (!template) continue;
    const section = template.content.firstElementChild;
    section.hidden = true;
    const before = sheet.entries[at - 1].key;
    document.querySelector(`[data-key="${before}"]`).after(section);
    document.querySelector(`[data-item="${before}"]`).after(listItem(entry));
    made.push(section);
  }
  return made;
}

function listItem({ key, pair, exercise }) {
  const item = document.getElementById("item-template").content.firstElementChild.cloneNode(true);
  item.dataset.item = key;
  const link = item.querySelector("a");
  link.href = `?at=${key}`;
  link.dataset.go = key;
  const name = item.querySelector(".name");
  if (pair) {
    const letter = document.createElement("span");
    letter.className = "pair";
    letter.textContent = pair;
    name.append(letter, " ");
  }
  name.append(exercise.name);
  return item;
}
