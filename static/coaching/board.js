// Move through the board by keyboard. Enter needs no code: the focus is on a link.
const rows = [...document.querySelectorAll("[data-row]")];
const search = document.querySelector("form[role=search] input[name=q]");

function move(step) {
  const at = rows.indexOf(document.activeElement);
  const next = at === -1 ? (step > 0 ? 0 : rows.length - 1) : Math.min(Math.max(at + step, 0), rows.length - 1);
  rows[next]?.focus();
  rows[next]?.closest("tr").scrollIntoView({ block: "nearest" });
}

document.addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.target.closest("input, select, textarea, button, summary, [contenteditable]")) return;
  const onRow = rows.includes(document.activeElement);
  if (event.key === "j" || (onRow && event.key === "ArrowDown")) move(1);
  else if (event.key === "k" || (onRow && event.key === "ArrowUp")) move(-1);
  else if (event.key === "/" && search) search.focus();
  else return;
  event.preventDefault();
});
