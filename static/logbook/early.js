// Runs before the page is drawn. A tap on "Log" before the page's script is there would post the form: without a
// connection what was typed would be gone, and with a slow one a second tap would log the set twice. So it waits.

(() => {
  // A script that has not come by then will not come: the plain form does it.
  const PATIENCE_MS = 8_000;
  const ready = () => document.body.dataset.ready === "yes";
  let waiting = null; // {form, button}: of several taps the last

  const go = (submit) => {
    const asked = waiting;
    waiting = null;
    observer.disconnect();
    if (asked) submit(asked);
  };
  const observer = new MutationObserver(() => {
    if (ready()) go(({ form, button }) => form.requestSubmit(button));
  });

  document.addEventListener(
    "submit",
    (event) => {
      if (ready() || event.target.method !== "post") return;
      event.preventDefault();
      event.stopImmediatePropagation();
      const first = !waiting;
      waiting = { form: event.target, button: event.submitter };
      if (!first) return;
      observer.observe(document.body, { attributes: true, attributeFilter: ["data-ready"] });
      setTimeout(() => go(({ form }) => form.submit()), PATIENCE_MS);
    },
    true,
  );
})();
