// Move through the board by keyboard. Enter needs no code: the focus is on a link.
import { typing } from "./keys.js";

const rows = [...document.querySelectorAll("[data-row]")];
const search = document.querySelector("form[role=search] input[name=q]");

function move(step) {
  const at = rows.indexOf(rowOf(document.activeElement));
  const next = at === -1 ? (step > 0 ? 0 : rows.length - 1) : Math.min(Math.max(at + step, 0), rows.length - 1);
  rows[next]?.focus();
  rows[next]?.closest("tr").scrollIntoView({ block: "nearest" });
}

/** Return the link that stands for the row which `element` is in, or under. */
export function rowOf(element) {
  const line = element?.closest("table.board > tbody > tr");
  return (line?.matches(".under") ? line.previousElementSibling : line)?.querySelector("[data-row]");
}

document.addEventListener("keydown", (event) => {
  if (typing(event)) return;
  const onRow = rows.includes(document.activeElement);
  if (event.key === "j" || (onRow && event.key === "ArrowDown")) move(1);
  else if (event.key === "k" || (onRow && event.key === "ArrowUp")) move(-1);
  else if (event.key === "/" && search) search.focus();
  else return;
  event.preventDefault();
});
