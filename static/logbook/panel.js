// One exercise on the page: its rows, the form of its next set, and what follows when it is done.

import { Fields } from "./fields.js";
import { isDone, lastMatch, live, nextEntry, nextStep, suggestion } from "./next.js";
import { renderRows } from "./rows.js";
import { oneSided, sideDifference } from "./sides.js";
import { renderWarmUps } from "./warmups.js";
import { fill, gettext, setWords, sideWords } from "./words.js";

export class Panel {
  /** `app` has the sheet and carries out: log(panel, values), edit(panel, row, values), remove(panel, row). */
  constructor(section, app) {
    this.section = section;
    this.app = app;
    this.key = section.dataset.key;
    this.entry = app.sheet.entry(this.key);
    this.form = section.querySelector("[data-set-form]");
    this.editing = null;
    this.fields = new Fields(this.form, this.entry, app.sheet.ladders[this.entry.ladder], () => this.#label());
    this.form.addEventListener("submit", (event) => this.#submit(event));
    section.addEventListener("click", (event) => this.#clicked(event));
    this.form.elements.warm_up.addEventListener("change", () => this.#title());
    this.form.addEventListener("input", () => this.#keepTyped());
    const left = app.halfTyped.read(this.key, this.entry.sets.length);
    if (left) this.fields.restore(left);
    this.#title();
    this.#label();
    this.#warmUps();
  }

  get step() {
    return nextStep(this.entry, this.form.elements.warm_up.checked);
  }

  /** Show what changed in the sheet; the fields only when `next` says that a new set begins. */
  render({ next = false } = {}) {
    renderRows(this.section.querySelector("[data-rows]"), this.entry, this.app.delivery);
    if (next) this.#begin();
    this.#sides();
    this.#warmUps();
    this.#renderDone(next);
  }

  /** One tap fills in a warm-up set, a second logs it. */
  #warmUps() {
    const { ladders, unit } = this.app.sheet;
    const place = this.form.querySelector("[data-warm-ups]");
    const side = nextStep(this.entry, true).side;
    renderWarmUps(place, this.entry, ladders[this.entry.ladder], unit, (set) => {
      this.fields.fill({ ...set, rir: undefined, side, warm_up: true });
      this.#title();
      this.form.querySelector("[data-log]").focus({ preventScroll: true });
    });
  }

  #keepTyped() {
    if (!this.editing) this.app.halfTyped.keep(this.key, this.entry.sets.length, this.fields.raw());
  }

  #sides() {
    const place = this.section.querySelector("[data-sides]");
    if (!place) return;
    const words = sideDifference(live(this.entry), this.entry.exercise, this.app.sheet.unit);
    place.hidden = !words;
    place.querySelector("[data-sides-words]").textContent = words;
  }

  #begin() {
    this.editing = this.fields.editing = null;
    this.app.halfTyped.drop(this.key);
    const ask = suggestion(this.entry, this.app.sheet.unit);
    const rir = ask.rir === null ? undefined : ask.rir;
    this.fields.fill({ ...ask, rir, side: nextStep(this.entry).side });
    this.form.querySelector("[data-edit-acts]").hidden = true;
    this.#title();
    this.#last();
  }

  /** Leave the edit, and bring the row that was edited back into view. */
  finishEdit(row) {
    this.render({ next: true });
    const item = this.section.querySelector(`[data-set="${row.id}"]`);
    item?.scrollIntoView({ block: "center" });
    item?.querySelector("[data-edit]").focus({ preventScroll: true });
  }

  #edit(row) {
    this.editing = this.fields.editing = row;
    this.fields.fill({ ...row, rir: row.rir });
    this.form.querySelector("[data-edit-acts]").hidden = false;
    this.form.querySelector("[data-delete]").hidden = row.deleted;
    this.form.closest("details").open = true;
    this.#title();
    this.#renderDone(false);
    this.form.scrollIntoView({ block: "nearest" });
    this.form.querySelector("[name=load]:not([type=hidden]), [name=reps]").focus({ preventScroll: true });
  }

  #title() {
    const title = this.form.querySelector("[data-set-title]");
    const { number, side } = this.editing ?? this.step;
    const wanted = this.entry.prescription?.sets;
    const warmUp = this.form.elements.warm_up.checked;
    let text = fill(gettext("Set %(number)s"), { number });
    if (this.editing) text = fill(gettext("Edit set %(number)s"), { number });
    else if (warmUp) text = fill(gettext("Warm-up set %(number)s"), { number });
    else if (wanted && number <= wanted) text = fill(gettext("Set %(number)s of %(wanted)s"), { number, wanted });
    title.textContent = side === "both" ? text : `${text}, ${sideWords(side)}`;
    this.#name();
  }

  /** Out of its place the button is known by the set as well: "Log 60 kg × 8, RIR 2: Set 2 of 3". */
  #name() {
    const button = this.form.querySelector("[data-log]");
    const title = this.form.querySelector("[data-set-title]").textContent;
    button.setAttribute("aria-label", `${button.textContent}: ${title}`);
  }

  #last() {
    const place = this.form.querySelector("[data-last]");
    const rows = lastMatch(this.entry, this.step.number);
    if (!rows.length) return;
    const said = rows.map((row) => `${sideWords(row.side)} ${setWords(row, this.entry.exercise)}`.trim());
    place.textContent = `${fill(gettext("Last time (%(date)s):"), { date: this.entry.last.day })} ${said.join("; ")}`;
  }

  /** The button says exactly what a tap saves. */
  #label() {
    const button = this.form.querySelector("[data-log]");
    const { values, errors } = this.fields?.read() ?? { errors: { load: true } };
    const said = errors.load || errors.reps || errors.rir ? "" : setWords(values, this.entry.exercise);
    if (!said) button.textContent = this.editing ? gettext("Save") : gettext("Log");
    else button.textContent = fill(this.editing ? gettext("Save %(set)s") : gettext("Log %(set)s"), { set: said });
    this.#name();
  }

  #submit(event) {
    event.preventDefault();
    const { values, errors } = this.fields.read();
    this.fields.wrong(errors);
    if (Object.keys(errors).length) return;
    if (this.editing) this.app.edit(this, this.editing, values);
    else this.app.log(this, { ...values, number: this.#numberFor(values) });
  }

  /** The side may have been changed by hand: the number goes with the side that is logged. */
  #numberFor({ warm_up: warmUp, side }) {
    if (!oneSided(this.entry)) return nextStep(this.entry, warmUp).number;
    const taken = this.entry.sets.filter((row) => !row.deleted && row.warm_up === warmUp && row.side === side);
    const numbers = new Set(taken.map((row) => row.number));
    let number = 1;
    while (numbers.has(number)) number += 1;
    return number;
  }

  #clicked(event) {
    const edit = event.target.closest("[data-edit]");
    if (event.target.closest("[data-step]")) this.#keepTyped();
    else if (edit) {
      event.preventDefault();
      this.#edit(this.entry.sets.find((row) => row.id === edit.closest("[data-set]").dataset.set));
    } else if (event.target.closest("[data-cancel]")) this.finishEdit(this.editing);
    else if (event.target.closest("[data-delete]")) this.app.remove(this, this.editing);
  }

  #renderDone(begun) {
    const done = isDone(this.entry);
    const skipped = Boolean(this.entry.skip?.skipped);
    this.section.querySelector("[data-entry]").dataset.done = this.editing ? "editing" : done ? "yes" : "no";
    const finished = this.section.querySelector("[data-finished]");
    if (begun || finished.hidden === done) this.form.closest("details").open = !done || Boolean(this.editing);
    finished.hidden = !done;
    finished.querySelector("[data-finished-words]").textContent = skipped
      ? gettext("Skipped.")
      : gettext("All sets of this exercise are done.");
    const unskip = finished.querySelector("[data-unskip-form]");
    if (unskip) unskip.hidden = !skipped;
    const go = finished.querySelector("[data-go]");
    const next = done ? nextEntry(this.app.sheet.entries, this.key) : null;
    this.#leadOn(go, next);
    if (done && begun && !this.editing) this.#bringIntoReach(finished, go);
  }

  #leadOn(go, next) {
    const { sheet, doneUrl } = this.app;
    const [where, href, words] = next
      ? [next, `?at=${next}`, fill(gettext("Next: %(name)s"), { name: sheet.entry(next).exercise.name })]
      : sheet.finishedThere
        ? ["summary", doneUrl, gettext("To its summary")]
        : sheet.session.finished_at
          ? ["today", "/train/", gettext("Finished. Back to today")]
          : ["finish", "#finish", gettext("Finish session")];
    go.dataset.go = where;
    go.href = href;
    go.textContent = words;
  }

  /** The last set closes the form, and with it what had the focus and the place under the thumb: hand both on. */
  #bringIntoReach(finished, go) {
    if (this.section.hidden) return;
    go.focus({ preventScroll: true });
    const { top, bottom } = finished.getBoundingClientRect();
    if (top < 0 || bottom > innerHeight) finished.scrollIntoView({ block: "end" });
  }
}
