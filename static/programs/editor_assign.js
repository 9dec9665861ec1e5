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
