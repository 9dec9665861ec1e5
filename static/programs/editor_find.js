// The search field for exercises: a combobox with a list under it. The server finds and writes the options.
const WAIT_MS = 120;
let timer, abort, loading;

const listOf = (input) => document.getElementById(input.getAttribute("aria-controls"));
const optionsOf = (list) => [...list.querySelectorAll("[role=option][data-do]")];

export function enhanceFinders(root) {
  for (const input of root.querySelectorAll("[data-find]")) {
    const list = input.parentElement.querySelector("[role=listbox]");
    input.setAttribute("role", "combobox");
    input.setAttribute("aria-autocomplete", "list");
    input.setAttribute("aria-expanded", "false");
    input.setAttribute("aria-controls", list.id);
  }
}

function close(input) {
  clearTimeout(timer);
  abort?.abort();
  loading = false;
  listOf(input).hidden = true;
  input.setAttribute("aria-expanded", "false");
  input.removeAttribute("aria-activedescendant");
}

function mark(input, option) {
  for (const one of optionsOf(listOf(input))) one.setAttribute("aria-selected", String(one === option));
  if (!option) return input.removeAttribute("aria-activedescendant");
  input.setAttribute("aria-activedescendant", option.id);
  option.scrollIntoView({ block: "nearest" });
}

async function load(input) {
  abort?.abort();
  abort = new AbortController();
  const query = new URLSearchParams(input.dataset.find);
  query.set("q", input.value);
  const list = listOf(input);
  try {
    const reply = await fetch(`${input.form.action}?${query}`, { headers: { "HX-Request": "true" }, signal: abort.signal });
    if (!reply.ok) return close(input);
    list.innerHTML = await reply.text();
  } catch {
    return;
  }
  loading = false;
  list.hidden = false;
  input.setAttribute("aria-expanded", "true");
  mark(input, input.value.trim() ? optionsOf(list)[0] : null);
  if (input.dataset.enter) {
    delete input.dataset.enter;
    optionsOf(list)[0]?.click();
  }
}

function soon(input) {
  clearTimeout(timer);
  loading = true;
  timer = setTimeout(() => load(input), WAIT_MS);
}

function step(input, by) {
  const options = optionsOf(listOf(input));
  const at = options.findIndex((one) => one.getAttribute("aria-selected") === "true");
  const next = at < 0 ? (by > 0 ? 0 : options.length - 1) : (at + by + options.length) % options.length;
  mark(input, options[next]);
}

function onKey(event, input) {
  const list = listOf(input);
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.key === "ArrowDown" || event.key === "ArrowUp") {
    event.preventDefault();
    if (list.hidden) return load(input);
    step(input, event.key === "ArrowDown" ? 1 : -1);
  } else if (event.key === "Enter") {
    event.preventDefault();
    const chosen = list.querySelector("[aria-selected=true][data-do]");
    if (loading) input.dataset.enter = "yes";
    else if (!list.hidden && chosen) chosen.click();
  } else if (event.key === "Escape" && !list.hidden) {
    event.preventDefault();
    close(input);
  }
}

export function wireFinders(add) {
  const inputOf = (event) => event.target.closest?.("#editor [data-find]");
  document.addEventListener("input", (event) => inputOf(event) && soon(event.target));
  document.addEventListener("keydown", (event) => inputOf(event) && onKey(event, event.target));
  document.addEventListener("focusin", (event) => {
    // A swap begins with the substitutes; a new exercise with a word.
    if (inputOf(event)?.dataset.find.startsWith("slot=")) soon(event.target);
  });
  document.addEventListener("focusout", (event) => inputOf(event) && close(event.target));
  // Without this, pressing the mouse would take the focus, close the list, and lose the click.
  document.addEventListener("mousedown", (event) => event.target.closest?.("#editor .options") && event.preventDefault());
  document.addEventListener("click", (event) => {
    const option = event.target.closest?.("#editor [role=option][data-do]");
    if (!option) return;
    const input = document.querySelector(`[aria-controls="${option.parentElement.id}"]`);
    const swapped = input.dataset.find.startsWith("slot=") && input.dataset.find.slice(5);
    close(input);
    add({ do: option.dataset.do, whole: true, clear: input.id, focusNew: !swapped, focus: swapped ? `text-${swapped}` : input.id });
  });
}
