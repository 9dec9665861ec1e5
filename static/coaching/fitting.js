// Move through the decisions and the clients by keyboard. Enter needs no code: the focus is on a summary or a link.
import { typing } from "./keys.js";

/** Return the lines in sight: what is folded away is passed over. */
function lines() {
  return [...document.querySelectorAll("[data-row]")].filter((one) => one.checkVisibility());
}

/** Return the line that stands for where the focus is. */
function lineOf(element) {
  if (element?.matches("[data-row]")) return element;
  return (
    element?.closest("tr")?.querySelector("[data-row]") ?? element?.closest("details")?.querySelector("summary[data-row]")
  );
}

function move(step) {
  const all = lines();
  const at = all.indexOf(lineOf(document.activeElement));
  const next = at === -1 ? (step > 0 ? 0 : all.length - 1) : Math.min(Math.max(at + step, 0), all.length - 1);
  all[next]?.focus();
  all[next]?.scrollIntoView({ block: "nearest" });
}

function unfold(element) {
  const fold = element?.closest("tr")?.querySelector("details[data-unfold]");
  if (fold) fold.open = !fold.open;
}

function close(element) {
  const shut = element?.closest("form.choose")?.querySelector("[data-close]");
  if (shut) {
    shut.click();
    return;
  }
  const row = element?.closest("tr")?.querySelector("details[data-unfold][open]");
  const open = row ?? element?.closest("details[open]");
  if (!open) return;
  open.open = false;
  (row ? lineOf(element) : open.querySelector("summary"))?.focus();
}

const KEYS = { j: () => move(1), k: () => move(-1), o: unfold, Escape: close };

document.addEventListener("keydown", (event) => {
  if (!Object.hasOwn(KEYS, event.key) || (typing(event) && event.key !== "Escape")) return;
  event.preventDefault();
  KEYS[event.key](document.activeElement);
});

// A form takes its row's place: to leave it as it was, the row comes back. On a page of its own the link is followed.
const kept = new Map();
document.addEventListener("htmx:beforeSwap", (event) => {
  const row = event.detail.target;
  if (row.matches("tr[id]")) kept.set(row.id, row.cloneNode(true));
});
document.addEventListener("click", (event) => {
  const row = event.target.closest("[data-close]")?.closest("tr");
  const before = row && kept.get(row.id);
  if (!before) return;
  event.preventDefault();
  row.replaceWith(before);
  window.htmx.process(before);
  before.querySelector("[data-row]").focus();
});

// Back from a decision: where it was made has the focus again. An open form has it before that. Once the page is there:
// until then a browser takes the focus away when it goes to the place that the address names.
function focusPlace() {
  const place = decodeURIComponent(location.hash.slice(1));
  const line = document.querySelector(`[data-place="${CSS.escape(place)}"]`) ?? document.getElementById(place);
  const target = document.querySelector("form[autofocus]") ?? (line && (line.querySelector("[data-row]") ?? line));
  if (!target) return;
  line?.parentElement.closest("details")?.setAttribute("open", "");
  target.focus();
  target.scrollIntoView({ block: "center" });
}
addEventListener("load", () => setTimeout(focusPlace));
