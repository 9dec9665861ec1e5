/* A button that copies a field. It is hidden until this runs: without it, the field can be selected by hand. */
for (const button of document.querySelectorAll("button[data-copies]")) {
  const field = document.getElementById(button.dataset.copies);
  button.hidden = !navigator.clipboard;
  button.addEventListener("click", async () => {
    try {
      await navigator.clipboard.writeText(field.value);
      button.textContent = button.dataset.done;
    } catch {
      field.select();
    }
  });
}
