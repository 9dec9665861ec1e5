// Comments that were looked at are read: the form that says so is sent without leaving the page.

const LOOKED_MS = 1_500;

for (const form of document.querySelectorAll("[data-seen]")) {
  if (!form.elements.comment) continue;
  const send = async () => {
    try {
      const reply = await fetch(form.action, { method: "POST", body: new FormData(form), redirect: "manual" });
      // The answer leads back to this page; anything else means that it was not taken, and the button stays.
      if (reply.type === "opaqueredirect") form.classList.add("sent");
    } catch {
      // No network: they stay new, and the button stays.
    }
  };
  const seen = new IntersectionObserver((entries) => {
    if (!entries.some((entry) => entry.isIntersecting)) return;
    seen.disconnect();
    setTimeout(send, LOOKED_MS);
  });
  seen.observe(form.parentElement.querySelector(".comment.new") ?? form);
}
