// The check-in and the body mass, kept on the phone first, so that they need no network either.

import { parse } from "./numbers.js";
import { operation } from "./operation.js";
import { opened } from "./phone.js";
import { reasonOf } from "./rows.js";
import { fill, gettext } from "./words.js";

const ITEMS = ["fatigue", "sleep", "soreness", "stress", "mood"];
const HELD = new Set(["offline", "later", "sign-in"]);
const form = document.querySelector("[data-check-in-form]");
const massForm = document.querySelector("[data-mass-form]");

function say(place, text, className = "notice") {
  let line = place.querySelector("[data-said]");
  if (!line) {
    line = document.createElement("p");
    line.dataset.said = "";
    line.setAttribute("role", "status");
    place.append(line);
  }
  line.className = className;
  line.textContent = text;
}

function write(place, kind, data, then) {
  const op = operation(kind, data);
  opened.heard.set(op.id, (word, detail) => {
    if (word === "saved") then();
    else if (word === "refused") say(place, fill(gettext("not saved: %(reason)s"), { reason: reasonOf(detail) }), "wrong");
    else if (HELD.has(word)) say(place, gettext("It is on this phone only, and is sent when there is a connection."));
  });
  say(place, gettext("saving…"), "quiet");
  opened.delivery.add(op);
}

function checkIn() {
  const data = { note: form.elements.note.value.trim() };
  for (const name of ITEMS) data[name] = Number(form.elements[name].value);
  if (ITEMS.some((name) => !data[name])) {
    say(form, gettext("Please answer all five."), "wrong");
    return;
  }
  data.sore_groups = [...form.querySelectorAll("[name=sore_groups]:checked")].map((box) => box.value);
  write(form, "checkin.record", data, () => location.assign("/train/"));
}

function bodyMass() {
  const mass = parse(massForm.elements.mass.value);
  if (mass === null || Number.isNaN(mass)) {
    say(massForm, gettext("This must be a number."), "wrong");
    return;
  }
  write(massForm, "bodymass.record", { mass, unit: massForm.elements.unit.value }, () =>
    say(massForm, gettext("Body mass saved.")),
  );
}

if (opened && form) {
  for (const [one, act] of [[form, checkIn], [massForm, bodyMass]]) {
    one.addEventListener("submit", (event) => {
      event.preventDefault();
      act();
    });
  }
  const day = document.querySelector("[data-day]");
  // A copy from the phone may be of another day.
  if (document.documentElement.dataset.kept) {
    const { lang } = document.documentElement;
    day.textContent = new Date().toLocaleDateString(lang === "en" ? "en-GB" : lang, {
      weekday: "short", day: "numeric", month: "short",
    });
  }
  document.body.dataset.ready = "yes";
}
