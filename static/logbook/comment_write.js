// A comment typed on the phone is kept there first, like a set: without a network it waits and is sent later.

import { operation } from "./operation.js";
import { opened } from "./phone.js";
import { reasonOf } from "./rows.js";
import { fill, gettext } from "./words.js";

const HELD = new Set(["offline", "later", "sign-in"]);
const form = document.querySelector("[data-comment-form]");

function say(text, className = "notice") {
  let line = form.querySelector("[data-said]");
  if (!line) {
    line = document.createElement("p");
    line.dataset.said = "";
    line.setAttribute("role", "status");
    form.append(line);
  }
  line.className = className;
  line.textContent = text;
}

function write() {
  const field = form.elements.text;
  const text = field.value.trim();
  if (!text) {
    say(gettext("Write something first."), "wrong");
    return;
  }
  const data = { comment: form.elements.comment.value, session: form.dataset.session ?? null, text };
  const op = operation("comment.write", data);
  form.elements.comment.value = operation("", {}).id;
  opened.heard.set(op.id, (word, detail) => {
    if (word === "saved") location.reload();
    else if (word === "refused") {
      field.value ||= text;
      field.dispatchEvent(new Event("input", { bubbles: true }));
      say(fill(gettext("not saved: %(reason)s"), { reason: reasonOf(detail) }), "wrong");
    } else if (HELD.has(word)) say(gettext("It is on this phone only, and is sent when there is a connection."));
  });
  field.value = "";
  say(gettext("saving…"), "quiet");
  opened.delivery.add(op);
  form.dispatchEvent(new CustomEvent("kept-sent", { bubbles: true }));
}

if (opened && form) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    write();
  });
  document.body.dataset.ready = "yes";
}
