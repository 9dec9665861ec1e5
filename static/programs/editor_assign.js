// Narrow the list of clients while typing; what is ticked always stays in sight. The Find button asks the server, which
// also knows the clients that are not listed here.
const form = document.getElementById("assign");
const search = form.elements.q;

search.addEventListener("input", () => {
  const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
  for (const row of form.querySelectorAll("[data-client]")) {
    const name = row.querySelector("label").textContent.toLowerCase();
    row.hidden = !row.querySelector("input").checked && !words.every((word) => name.includes(word));
  }
});

// One press ticks everybody in sight, or takes all of these ticks away again.
const all = document.getElementById("tick-all");
all.hidden = false;
all.addEventListener("click", () => {
  const ticks = [...form.querySelectorAll("[data-client]:not([hidden]) input")];
  const ticked = !ticks.every((one) => one.checked);
  for (const one of ticks) one.checked = ticked;
  form.dispatchEvent(new Event("change", { bubbles: true }));
});

// The dates, and who is busy, follow what is chosen. (The button "Show the dates" does it without this file.)
let abort;
form.addEventListener("change", async (event) => {
  if (event.target === search) return;
  abort?.abort();
  abort = new AbortController();
  try {
    const chosen = new FormData(form);
    // A token has no place in an address.
    chosen.delete("csrfmiddlewaretoken");
    const reply = await fetch(`?${new URLSearchParams(chosen)}`, { signal: abort.signal });
    if (!reply.ok || reply.redirected) return;
    const page = new DOMParser().parseFromString(await reply.text(), "text/html");
    for (const id of ["assign-busy", "assign-dates"]) {
      document.getElementById(id).replaceChildren(...page.getElementById(id).childNodes);
    }
  } catch (error) {
    if (error.name !== "AbortError") throw error;
  }
});
