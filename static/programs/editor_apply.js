// Bring the page up to date with the server's answer without disturbing the one who writes: what is being typed, the
// place of the cursor, and what is folded open stay.
const byId = (id) => document.getElementById(id);

function parse(html) {
  return new DOMParser().parseFromString(html, "text/html").getElementById("editor");
}

function sayStatus(next) {
  // The same element stays, or a screen reader would not speak its new text.
  byId("editor-status").innerHTML = next.querySelector("#editor-status").innerHTML;
  byId("editor-problem").hidden = true;
}

// After a field was saved: only numbers and words beside it change. Of the slots the answer holds those that did.
export function applyQuietly(html, change) {
  const next = parse(html);
  const editor = byId("editor");
  editor.dataset.version = next.dataset.version;
  editor.dataset.trial = next.dataset.trial;
  const focus = remember();
  for (const part of next.querySelectorAll("#editor-followed, #editor-side, #editor-weeks, #week-hand, [id^=hand-], [id^=facts-], [id^=rest-], [id^=remark-]")) {
    byId(part.id)?.replaceWith(part);
  }
  for (const id of ["undo", "redo"]) byId(id).disabled = next.querySelector(`#${id}`).disabled;
  for (const hidden of editor.querySelectorAll("[name=base_version]")) hidden.value = next.dataset.version;
  for (const hidden of editor.querySelectorAll("[name=trial]")) hidden.value = next.dataset.trial;
  for (const input of next.querySelectorAll("[data-save]")) {
    const mine = byId(input.id);
    if (!mine) continue;
    const untouched = mine.value === mine.defaultValue || (mine.id === change.field && mine.value === change.sent);
    mine.defaultValue = input.defaultValue;
    if (untouched) mine.value = input.defaultValue;
  }
  sayStatus(next);
  sayRefused();
  recall(focus);
}

function refusals(editor) {
  return [...editor.querySelectorAll("[data-error]:not([hidden])")].map((place) => {
    const [key, field] = place.dataset.error.split(":");
    const input = place.parentElement.querySelector("[aria-invalid=true]");
    return { key, field, message: place.textContent, input: input?.id };
  });
}

// "Saved" alone would be half the truth while a field holds something that was refused.
function sayRefused() {
  const left = document.querySelectorAll("#editor [data-save][aria-invalid=true]").length;
  if (!left) return;
  const words = ngettext("%s field is not saved.", "%s fields are not saved.", left);
  const mark = document.createElement("strong");
  mark.textContent = ` ${interpolate(words, [left])}`;
  byId("editor-status").append(mark);
}

// After a change of the plan's shape: all of the editor is new.
export function applyWhole(html, change) {
  const next = parse(html);
  const editor = byId("editor");
  const focus = remember();
  const open = [...editor.querySelectorAll("details[open][id]")].map((one) => one.id);
  const typed = [...editor.querySelectorAll("input[id]:not([type=hidden])")]
    .filter((one) => one.value !== one.defaultValue && one.id !== change.clear && one.id !== change.field)
    .map((one) => [one.id, one.value]);
  const refused = refusals(editor).filter((one) => typed.some(([id]) => id === one.input));
  const scroll = editor.querySelector(".days")?.scrollLeft;
  sayStatus(next);
  next.querySelector("#editor-status").replaceWith(byId("editor-status"));
  editor.replaceWith(next);
  for (const id of open) byId(id)?.setAttribute("open", "");
  for (const [id, value] of typed) if (byId(id)) byId(id).value = value;
  // A refused field that still holds what was typed keeps saying why: it is not saved.
  for (const one of refused) if (byId(one.input)) showProblem(one);
  sayRefused();
  if (scroll) next.querySelector(".days").scrollLeft = scroll;
  const wanted = change.focusNew && next.dataset.newSlot ? byId(`text-${next.dataset.newSlot}`) : byId(change.focus);
  if (wanted) {
    wanted.focus();
    wanted.select?.();
  } else {
    recall(focus);
  }
}

export function showProblem({ key, field, message }) {
  const place = document.querySelector(`[data-error="${CSS.escape(key)}:${CSS.escape(field)}"]`) || byId(`${key}-error`);
  const general = byId("editor-problem");
  general.hidden = Boolean(place);
  general.textContent = place ? "" : message;
  if (!place) return;
  place.textContent = message;
  place.hidden = false;
  place.closest("details")?.setAttribute("open", "");
  const input = place.parentElement.querySelector("input:not([type=hidden])");
  input?.setAttribute("aria-invalid", "true");
  if (input) {
    place.id ||= `error-${input.id}`;
    input.setAttribute("aria-describedby", place.id);
  }
}

export function clearProblem(input) {
  input.removeAttribute("aria-invalid");
  const [, key] = input.dataset.save.match(/=([^;]+)/);
  const place = document.querySelector(`[data-error="${CSS.escape(key)}:${CSS.escape(input.name)}"]`);
  if (place) place.hidden = true;
}

// Where the cursor is: by id, or (a button) by its words inside the nearest part with an id.
function remember() {
  const at = document.activeElement;
  if (!at || at === document.body) return null;
  const selection = at.matches("input") ? [at.selectionStart, at.selectionEnd] : null;
  if (at.id) return { id: at.id, selection };
  return { home: at.closest("[id]")?.id, words: at.textContent.trim() };
}

function recall(place) {
  if (!place) return;
  const home = byId(place.home);
  const button = home && [...home.querySelectorAll("button, a, summary")].find((one) => one.textContent.trim() === place.words);
  const at = byId(place.id) || button || home?.querySelector("summary, a, button:not([tabindex='-1'])");
  if (!at || at === document.activeElement) return;
  at.focus();
  if (place.selection?.[0] != null) at.setSelectionRange(...place.selection);
}
