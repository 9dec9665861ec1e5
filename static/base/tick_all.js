// One press ticks every box of a name in its form, or takes all of these ticks away again: <button data-ticks="name" hidden>.
for (const button of document.querySelectorAll("button[data-ticks]")) {
  button.hidden = false;
  button.addEventListener("click", () => {
    const boxes = [...button.form.querySelectorAll(`input[type=checkbox][name="${button.dataset.ticks}"]`)];
    const ticked = !boxes.every((box) => box.checked);
    for (const box of boxes) box.checked = ticked;
  });
}
