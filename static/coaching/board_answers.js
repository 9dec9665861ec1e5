// Answer questions under their rows: what opens takes the focus, what is answered gives it back to the row.
import { rowOf } from "./board.js";
import { typing } from "./keys.js";

const said = document.querySelector("[data-said]");
const holderOf = (link) => document.getElementById(link.getAttribute("aria-controls"));
const linkOf = (holder) => document.querySelector(`[data-ask][aria-controls="${holder.id}"]`);
const OPEN = "[data-question]:not(.answered)";

function close(link) {
  holderOf(link).replaceChildren();
  link.setAttribute("aria-expanded", "false");
  link.focus();
}

/** Return the links to the questions of the row that has the focus, and what is open under it. */
function focused() {
  const row = rowOf(document.activeElement);
  const links = row ? [...row.closest("tr").querySelectorAll("[data-ask]")] : [];
  return { row, links, under: links.map(holderOf) };
}

/** Return the links of the row that has the focus and of all below it; of the whole page where no row has it. */
function fromHere(row) {
  const lines = [...document.querySelectorAll("table.board > tbody > tr")];
  return lines.slice(row ? lines.indexOf(row.closest("tr")) : 0).flatMap((line) => [...line.querySelectorAll("[data-ask]")]);
}

const KEYS = {
  o({ row, links }) {
    const next = fromHere(row).find((link) => !holderOf(link).querySelector(`${OPEN}, [data-undo]`));
    const open = links.map((link) => holderOf(link).querySelector(OPEN)).find(Boolean);
    if (open && !open.contains(document.activeElement)) open.focus();
    else if (next) next.click();
    else said.textContent = gettext("No open question below.");
  },
  a({ under }) {
    here(under, "[data-accept]")?.click();
  },
  r({ under }) {
    here(under, "[name=refuse-reason]")?.focus();
  },
  u({ under }) {
    under.findLast((one) => one.querySelector("[data-undo]"))?.querySelector("[data-undo]").click();
  },
  Escape({ links }) {
    const link = links.find((one) => holderOf(one).contains(document.activeElement));
    if (link?.matches("[aria-expanded=true]")) close(link);
  },
};

/** Find a control in the question that has the focus, else in the first that is open. */
function here(under, what) {
  const open = under.filter((one) => one.querySelector(OPEN));
  const holder = open.find((one) => one.contains(document.activeElement)) ?? open[0];
  return holder?.querySelector(what);
}

document.addEventListener("keydown", (event) => {
  if (!Object.hasOwn(KEYS, event.key) || (typing(event) && event.key !== "Escape")) return;
  const at = focused();
  if ((!at.links.length && event.key !== "o") || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  KEYS[event.key](at);
});

for (const link of document.querySelectorAll("[data-ask]")) link.setAttribute("aria-expanded", "false");

/** Say how many of each kind are chosen, and offer only what something is chosen for. */
function count() {
  for (const button of document.querySelectorAll("#many button[name=kind]")) {
    const chosen = document.querySelectorAll(`input[form=many][data-kind=${button.value}]:checked`).length;
    button.querySelector("[data-count]").textContent = chosen || "";
    button.disabled = !chosen;
  }
}
document.addEventListener("change", (event) => event.target.matches("input[form=many]") && count());
count();

document.addEventListener("htmx:beforeRequest", (event) => {
  const link = event.detail.elt;
  if (!link.matches("[data-ask]") || !holderOf(link).querySelector(OPEN)) return;
  event.preventDefault();
  close(link);
});

document.addEventListener("htmx:afterSettle", (event) => {
  const holder = event.target.closest("[data-holder]");
  const question = holder?.querySelector("[data-question]");
  if (!question) return;
  const link = linkOf(holder);
  const answered = question.matches(".answered");
  link.setAttribute("aria-expanded", String(!answered));
  const box = link.parentElement.querySelector("input[type=checkbox]");
  box.disabled = answered && Boolean(question.querySelector("[data-undo]"));
  if (box.disabled && box.checked) box.click();
  if (answered) {
    said.textContent = question.querySelector("[data-outcome]").textContent;
    rowOf(holder).focus();
  } else {
    question.focus();
  }
});
