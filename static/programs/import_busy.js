// A long file, or a program for many clients, takes some seconds: say so, and keep a second press from sending it twice.
const FORMS = ".import-choose, .import-mend, [data-takes-long]";
for (const form of document.querySelectorAll(FORMS)) {
  const busy = form.querySelector("[data-busy]");
  form.addEventListener("submit", (event) => {
    if (form.dataset.sent) {
      event.preventDefault();
      return;
    }
    form.dataset.sent = "1";
    if (busy) busy.hidden = false;
  });
}
// Back from the next page, out of the browser's memory: the form can be sent again.
addEventListener("pageshow", (event) => {
  if (!event.persisted) return;
  for (const form of document.querySelectorAll(FORMS)) {
    delete form.dataset.sent;
    const busy = form.querySelector("[data-busy]");
    if (busy) busy.hidden = true;
  }
});
