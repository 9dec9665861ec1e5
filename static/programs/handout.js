/* Print, and the PDF with a word on how long it takes. Without this, the link is an ordinary download. */
const print = document.getElementById("print");
if (print) {
  print.hidden = false;
  print.addEventListener("click", () => window.print());
}

const link = document.getElementById("pdf");
const status = document.getElementById("pdf-status");
let running = false;

async function fetched() {
  const answer = await fetch(link.href, { headers: { Accept: "application/pdf" } });
  if (!answer.ok || answer.headers.get("Content-Type") !== "application/pdf") throw new Error(String(answer.status));
  const name = /filename="([^"]+)"/.exec(answer.headers.get("Content-Disposition") ?? "");
  return { blob: await answer.blob(), name: name ? name[1] : "program.pdf" };
}

function save({ blob, name }) {
  const address = URL.createObjectURL(blob);
  const anchor = document.createElement("a");
  anchor.href = address;
  anchor.download = name;
  anchor.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

link?.addEventListener("click", async (event) => {
  event.preventDefault();
  if (running) return;
  running = true;
  link.setAttribute("aria-disabled", "true");
  const bar = document.createElement("progress");
  status.replaceChildren(`${link.dataset.busy} `, bar);
  bar.setAttribute("aria-label", link.dataset.busy);
  try {
    save(await fetched());
    status.textContent = link.dataset.done;
  } catch {
    status.textContent = link.dataset.failed;
  }
  link.removeAttribute("aria-disabled");
  running = false;
});
