// Keeps what is written in `form[data-kept]`, whose value says what it is about, on whichever page. A script that sends a
// form by itself tells so with the event "kept-sent" once what was written is safe elsewhere.

import { forget, Written } from "./written.js";

const person = Number(document.querySelector("meta[name=person]")?.content) || null;

// Called by its bare name, or scripts/messages would not find what is said; some pages load no catalogue.
const gettext = globalThis.gettext ?? ((text) => text);
const keyOf = (field) => `${field.form.dataset.kept}.${field.name}`;

function say(field) {
  const line = document.createElement("p");
  line.className = "small quiet";
  line.setAttribute("role", "status");
  line.textContent = gettext("Kept from before. It is not sent yet.");
  field.after(line);
  field.addEventListener("input", () => line.remove(), { once: true });
  field.form.addEventListener("submit", () => line.remove(), { once: true });
}

function restore(written, field) {
  const text = written.read(keyOf(field), field.defaultValue);
  // A browser may have restored the field by itself.
  if (text === null || (field.value !== field.defaultValue && field.value !== text)) return;
  field.value = text;
  field.closest("details")?.setAttribute("open", "");
  say(field);
}

const fieldsOf = (form) => form.querySelectorAll("textarea[name]");

function begin() {
  const written = new Written(person);
  const shown = Boolean(document.querySelector("#messages .notice"));
  written.confirm((id) => (id ? Boolean(document.getElementById(`comment-${id}`)) : shown));
  for (const form of document.querySelectorAll("form[data-kept]")) {
    for (const field of fieldsOf(form)) restore(written, field);
  }
  document.addEventListener("input", ({ target }) => {
    if (target.matches("form[data-kept] textarea[name]")) written.keep(keyOf(target), target.defaultValue, target.value);
  });
  document.addEventListener("kept-sent", ({ target }) => {
    for (const field of fieldsOf(target)) written.drop(keyOf(field));
  });
  document.addEventListener("submit", ({ target, defaultPrevented }) => {
    if (!defaultPrevented && target.matches("form[data-kept]")) {
      for (const field of fieldsOf(target)) written.sent(keyOf(field), target.elements.comment?.value ?? null);
    }
  });
}

addEventListener("submit", ({ target }) => {
  if (target.matches("form[data-sign-out]")) forget();
});
if (person) {
  forget(person);
  begin();
}
