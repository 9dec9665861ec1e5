/* Nobody stands in for themselves: whoever is away is no choice below. Without JavaScript the form says so afterwards. */
const away = document.querySelector("select[name=away]");
const by = document.querySelector("select[name=by]");

function leaveOut() {
  for (const option of by.options) {
    option.disabled = option.hidden = Boolean(option.value) && option.value === away.value;
  }
  if (by.selectedOptions[0]?.disabled) by.value = "";
}

if (away && by) {
  away.addEventListener("change", leaveOut);
  leaveOut();
}
