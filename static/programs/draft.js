// Small helps on the pages of a draft; all of it works without them.

// In a search field Enter goes to what was found; it does not begin the draft.
document.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || !event.target.matches?.("[data-pick]")) return;
  event.preventDefault();
  event.target.closest("fieldset").querySelector("input[type=checkbox]:not(:checked)")?.focus();
});

// A number applies the relaxation that carries it.
document.addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.target.matches?.("input, select, textarea")) return;
  if (/^[1-9]$/.test(event.key)) document.querySelector(`[data-key="${event.key}"]`)?.click();
});

// The list of equipment opens when it is asked for.
document.addEventListener("change", (event) => {
  if (event.target.name === "equipment_choice" && event.target.value === "these") {
    event.target.closest("fieldset").querySelector("details").open = true;
  }
  if (event.target.name === "equipment" && event.target.checked) {
    document.querySelector("input[name=equipment_choice][value=these]").checked = true;
  }
});
