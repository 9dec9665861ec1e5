// The editor's wiring. Every button is a form that also works without this file; here its change is sent in the
// background, one after the other, and the page is brought up to date.
import { applyWhole, applyQuietly, showProblem, clearProblem } from "./editor_apply.js";
import { enhanceFinders, wireFinders } from "./editor_find.js";
import { wireKeys } from "./editor_keys.js";
import { enhanceDrag } from "./editor_drag.js";
import { Queue } from "./editor_queue.js";

const editor = () => document.getElementById("editor");
const status = (text) => {
  document.getElementById("editor-status").textContent = text;
};

function enhance() {
  enhanceFinders(editor());
  enhanceDrag(editor(), (change) => queue.add(change));
}

function onSaved(html, change) {
  document.getElementById("editor-conflict").replaceChildren();
  if (change.whole) {
    applyWhole(html, change);
    enhance();
    history.replaceState(null, "", editor().dataset.address);
  } else {
    applyQuietly(html, change);
  }
}

function onConflict(html) {
  const place = document.getElementById("editor-conflict");
  place.innerHTML = html;
  place.querySelector("h3").focus();
  status(gettext("Not saved yet: saved from another window in between."));
}

async function onRefused(problem, change) {
  if (change.whole) {
    // What was dragged or pressed shows a state that was not saved: show what is.
    const reply = await fetch(editor().dataset.address, { headers: { "HX-Request": "true" } });
    if (reply.ok) {
      applyWhole(await reply.text(), {});
      enhance();
    }
  }
  showProblem(problem);
  status(gettext("Not saved."));
}

const queue = new Queue({ editor, onSaved, onConflict, onRefused, status });

function save(field) {
  const refused = field.getAttribute("aria-invalid") === "true";
  clearProblem(field);
  if (field.value === field.defaultValue) {
    if (refused) status(gettext("As it was saved."));
    return;
  }
  const change = { do: field.dataset.save, fields: { [field.name]: field.value }, field: field.id, sent: field.value };
  if (queue.holds(change)) queue.run();
  else queue.add(change);
}

// What was typed and not saved goes; what was refused, and the words about it, too.
function restore(field) {
  field.value = field.defaultValue;
  save(field);
}

document.addEventListener("change", (event) => {
  if (event.target.matches("#editor [data-save]")) save(event.target);
  if (event.target.matches("#editor [data-outlook]")) {
    const form = event.target.form;
    queue.add({ url: form.action, fields: Object.fromEntries(new FormData(form)), whole: true });
  }
});

document.addEventListener("submit", (event) => {
  if (event.target.id === "again") {
    event.preventDefault();
    queue.again(event.target.elements.base_version.value, event.target.elements.do?.value);
    return;
  }
  const form = event.target.closest("#editor form[method=post]");
  if (!form || !event.submitter) return;
  event.preventDefault();
  const { value } = event.submitter;
  const field = form.querySelector("[data-save]");
  if (field && field.dataset.save === value) return save(field);
  const select = event.submitter.closest(".with-select")?.querySelector("select");
  queue.add({ do: value, fields: select ? { [select.name]: select.value } : {}, whole: true });
});

document.documentElement.classList.add("scripted");
wireFinders((change) => queue.add(change));
wireKeys({ save, restore, add: (change) => queue.add(change) });
enhance();
