// The session's other forms: skip, pain, note, body mass, finish. Each becomes one operation.

import { parse } from "./numbers.js";
import { uuid } from "./operation.js";
import { reasonOf } from "./rows.js";
import { fill, gettext } from "./words.js";

const STOP_OVER = 5;
const MOST_MINUTES = 600;

export class Acts {
  /** `app.write(kind, data, heard)` queues one operation; `heard(status, detail)` gets its answer. */
  constructor(app) {
    this.app = app;
    this.#on("[data-swap-form]", (form, button) => this.#swap(form, button));
    this.#on("[data-skip-form]", (form) => this.#skip(Number(form.elements.slot.value), true, form.elements.reason.value));
    this.#on("[data-unskip-form]", (form) => this.#skip(Number(form.elements.slot.value), false, "other"));
    this.#on("[data-pain-form]", (form) => this.#pain(form));
    this.#on("[data-note-form]", (form) => this.#note(form));
    this.#on("[data-mass-form]", (form) => this.#mass(form));
    this.#on("[data-finish-form]", (form) => this.#finish(form));
  }

  #on(selector, act) {
    // On the document, since a substitute brings its forms later.
    document.addEventListener("submit", (event) => {
      if (!event.target.matches(selector)) return;
      event.preventDefault();
      act(event.target, event.submitter);
    });
  }

  /** Point skip and pain at the exercise that is shown. */
  show(entry) {
    this.#showSwaps(entry);
    const skip = document.querySelector("[data-skip]");
    if (skip) {
      skip.hidden = !entry.slot || Boolean(entry.instead_of) || Boolean(entry.skip?.skipped);
      const form = skip.querySelector("form");
      form.elements.slot.value = entry.slot ?? "";
      form.querySelector("button").textContent = fill(gettext("Skip %(name)s"), { name: entry.exercise.name });
    }
    document.querySelector("[data-pain-form]").elements.exercise.value = entry.exercise.id;
  }

  #showSwaps(entry) {
    const fold = document.querySelector("[data-swap]");
    if (!fold) return;
    const { swaps, entries } = this.app.sheet;
    const there = new Set(entries.map((one) => one.exercise.id));
    const offered = new Set(swaps.filter((one) => !there.has(one.exercise.id)).map((one) => one.key));
    let any = false;
    for (const item of fold.querySelectorAll("[data-slot]")) {
      const fits = item.dataset.slot === String(entry.slot) && offered.has(item.querySelector("button").value);
      item.hidden = !fits;
      any ||= fits;
    }
    fold.hidden = !any;
    const pain = fold.querySelector("[data-swap-pain]");
    const form = fold.querySelector("form");
    form.onchange = () => {
      pain.hidden = form.elements.reason.value !== "pain";
    };
  }

  #swap(form, button) {
    if (!button) return;
    const slot = Number(button.closest("[data-slot]").dataset.slot);
    this.app.write("slot.skip", { slot, skipped: true, reason: form.elements.reason.value });
    form.closest("details").open = false;
    this.app.swapped(button.value);
  }

  #skip(slot, skipped, reason) {
    this.app.write("slot.skip", { slot, skipped, reason });
    document.querySelector("[data-skip]")?.removeAttribute("open");
    this.app.skipped(slot);
  }

  #pain(form) {
    const { elements } = form;
    const wrong = form.querySelector("[data-wrong]");
    wrong.hidden = Boolean(elements.score.value);
    wrong.textContent = gettext("Choose a number from 0 to 10.");
    if (!elements.score.value) {
      elements.score[0].focus();
      return;
    }
    const score = Number(elements.score.value);
    const exercise = Number(elements.exercise.value) || null;
    const data = { report: uuid(), exercise, score, site: elements.site.value, side: elements.side.value };
    data.note = elements.note.value.trim();
    this.app.write("pain.report", data, (status, detail) => {
      if (status === "refused") {
        wrong.hidden = false;
        wrong.textContent = fill(gettext("not saved: %(reason)s"), { reason: reasonOf(detail) });
      }
    });
    // The caution does not wait for the network.
    const panel = document.querySelector(".exercise:not([hidden]) [data-pain]");
    if (panel && score > STOP_OVER) panel.hidden = false;
    form.reset();
    form.closest("details").open = false;
    this.app.backToExercise();
    this.app.say(
      score > STOP_OVER
        ? gettext("Pain over 5: stop this exercise, and seek the advice of a licensed clinician before you do it again.")
        : gettext("Pain report kept. Your coach can see it."),
      score > STOP_OVER ? "caution" : "notice",
    );
    if (panel && score > STOP_OVER) panel.scrollIntoView({ block: "center" });
  }

  #note(form) {
    const sync = form.querySelector("[data-sync]");
    sync.textContent = gettext("saving…");
    this.app.write("session.note", { note: form.elements.note.value.trim() }, (status, detail) => {
      sync.textContent =
        status === "saved" ? gettext("saved") : fill(gettext("not saved: %(reason)s"), { reason: reasonOf(detail) });
    });
    form.dispatchEvent(new CustomEvent("kept-sent", { bubbles: true }));
    const finish = document.getElementById("finish-note");
    if (finish) finish.value = form.elements.note.value;
  }

  #mass(form) {
    const mass = parse(form.elements.mass.value);
    const wrong = form.querySelector("[data-wrong]");
    wrong.hidden = mass !== null && !Number.isNaN(mass);
    wrong.textContent = gettext("This must be a number.");
    if (!wrong.hidden) {
      form.elements.mass.focus();
      return;
    }
    const asked = (still) => {
      for (const other of document.querySelectorAll("[data-mass-form]")) other.hidden = !still;
    };
    this.app.write("bodymass.record", { mass, unit: form.elements.unit.value }, (status, detail) => {
      asked(status === "refused");
      wrong.hidden = status !== "refused";
      if (status === "refused") wrong.textContent = fill(gettext("not saved: %(reason)s"), { reason: reasonOf(detail) });
      this.app.say(wrong.hidden ? gettext("Body mass saved.") : wrong.textContent, wrong.hidden ? "notice" : "caution");
    });
    // As with a set, the person does not wait for the network.
    asked(false);
    this.app.say(gettext("Body mass kept."), "notice");
    this.app.backToExercise();
  }

  #finish(form) {
    const { elements } = form;
    const minutes = parse(elements.minutes.value);
    const wrong = form.querySelector("[data-wrong]");
    const fits = minutes === null || (Number.isInteger(minutes) && minutes >= 1 && minutes <= MOST_MINUTES);
    wrong.textContent = fits ? "" : gettext("Minutes are a whole number from 1 to 600.");
    if (!fits) {
      elements.minutes.focus();
      return;
    }
    const sync = form.querySelector("[data-sync]");
    sync.textContent = gettext("saving…");
    const rpe = elements.session_rpe.value;
    const data = { session_rpe: rpe === "" ? null : Number(rpe), minutes, note: elements.note.value.trim() };
    form.dispatchEvent(new CustomEvent("kept-sent", { bubbles: true }));
    this.app.write("session.finish", data, (status, detail) => {
      if (status === "saved") {
        sync.textContent = gettext("saved");
        this.app.left = true;
        location.assign(form.dataset.doneUrl);
      } else sync.textContent = fill(gettext("not saved: %(reason)s"), { reason: reasonOf(detail) });
    });
    this.finishing = sync;
    this.app.rest.stop();
  }

  /** The end of the session does not wait for the network either. */
  delivered(word) {
    if (!this.finishing || !["offline", "later", "sign-in"].includes(word)) return;
    this.finishing.textContent = gettext("Finished. It is on this phone only, and is sent with the rest. You can go home.");
  }
}
