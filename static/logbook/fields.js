// The fields of a set: read them, check them, fill them, and the two steppers.

import { earlierLoads, farFrom } from "./far.js";
import { around, canMake, inUnit, platesFor, plateWords, step, toKg } from "./loads.js";
import { parse, shown } from "./numbers.js";
import { fill, gettext } from "./words.js";

const MOST_KG = 1000;
// From here on a load is asked about: nobody means 1000 of either unit without thinking. The server asks from 600 kg on.
// One far from those before is asked about too, and only here: what is confirmed is saved, now or when the phone is back.
const surely = (load, unit) => (unit === "lb" ? load < 1000 : load <= 600);
const really = (unit) =>
  unit === "lb"
    ? gettext("Really? 1000 lb or more: say once more that this load is right.")
    : gettext("Really? Over 600 kg: say once more that this load is right.");
const MOST = { reps: 100, seconds: 600, steps: 400 };
const FIRST_REPS = 8;
const RAW = ["load", "unit", "reps", "rir", "rir_more", "note"];

export class Fields {
  /** `entry` gives exercise and prescription, `ladder` the loads of its equipment. */
  constructor(form, entry, ladder, changed) {
    Object.assign(this, { form, entry, ladder, changed, editing: null });
    for (const button of form.querySelectorAll("[data-step]")) {
      button.hidden = false;
      button.addEventListener("click", () => this.#step(button));
    }
    form.addEventListener("input", () => this.refresh());
    for (const unit of form.querySelectorAll("input[type=radio][name=unit]")) {
      unit.addEventListener("change", () => this.#switchUnit(unit.value));
    }
    this.unit = this.#value("unit");
    this.refresh();
  }

  fill({ load, unit, reps, rir, side, warm_up: warmUp = false, note = "" }) {
    const { elements } = this.form;
    elements.load.value = load === null ? "" : shown(load);
    elements.reps.value = reps === null ? "" : shown(reps);
    elements.unit.value = unit;
    this.unit = unit;
    const choice = rir === undefined || rir === null ? "unknown" : [0, 1, 2, 3, 4].includes(rir) ? String(rir) : "more";
    for (const radio of elements.rir) radio.checked = radio.value === choice && rir !== undefined;
    elements.rir_more.value = choice === "more" ? shown(rir) : "";
    if (side) elements.side.value = side;
    elements.warm_up.checked = warmUp;
    elements.note.value = note;
    const confirmed = this.form.querySelector("[data-confirm]");
    if (confirmed) {
      confirmed.hidden = true;
      elements.confirmed.checked = false;
    }
    this.wrong({});
    this.refresh();
  }

  /** Return the fields just as they stand, right or wrong, to be put back by `restore`. */
  raw() {
    const { elements } = this.form;
    const typed = Object.fromEntries(RAW.map((name) => [name, elements[name].value]));
    return { ...typed, warm_up: elements.warm_up.checked };
  }

  restore({ warm_up: warmUp, ...typed }) {
    const { elements } = this.form;
    for (const [name, text] of Object.entries(typed)) elements[name].value = text;
    elements.warm_up.checked = warmUp;
    this.unit = typed.unit;
    this.refresh();
  }

  /** Return what the fields say: {values, errors by field}. An empty `errors` means that it can be logged. */
  read() {
    const errors = {};
    const { elements } = this.form;
    const unit = this.#value("unit");
    const load = parse(elements.load.value);
    const kg = load === null ? null : toKg(load, unit);
    if (load === null) errors.load = gettext("Type the load first.");
    else if (Number.isNaN(load)) errors.load = gettext("This must be a number.");
    else if (load < 0) errors.load = gettext("A load is 0 or more.");
    else if (kg > MOST_KG) errors.load = gettext("Over 1000 kg: this load cannot be saved.");
    else if (this.#doubt(load) && !elements.confirmed?.checked) {
      errors.load = this.#doubt(load);
      const place = this.form.querySelector("[data-confirm]");
      if (place) place.hidden = false;
      else delete errors.load;
    }
    const reps = parse(elements.reps.value);
    const most = MOST[this.entry.exercise.rep_unit];
    if (reps === null) errors.reps = gettext("Type how many.");
    else if (!Number.isInteger(reps) || reps < 0) errors.reps = gettext("This must be a whole number.");
    else if (reps > most) errors.reps = fill(gettext("At most %(most)s."), { most });
    const rir = this.#rir(errors);
    const values = { load, unit, reps, rir, side: this.#value("side"), warm_up: elements.warm_up.checked };
    values.note = elements.note.value.trim();
    if (load !== null && (this.#said(load) || (this.#doubt(load) && elements.confirmed?.checked))) values.confirmed = true;
    return { values, errors };
  }

  /** Show the reasons beside their fields. */
  wrong(errors) {
    for (const place of this.form.querySelectorAll("[data-wrong]")) {
      const text = errors[place.dataset.wrong];
      place.textContent = text ?? "";
      const field = this.form.elements[place.dataset.wrong];
      if (field instanceof HTMLInputElement) field.toggleAttribute("aria-invalid", false);
      if (text && field instanceof HTMLInputElement) field.setAttribute("aria-invalid", "true");
    }
    const first = Object.keys(errors)[0];
    if (first) (this.form.elements[first === "rir" ? "rir_more" : first] ?? this.form).focus();
  }

  refresh() {
    const more = this.form.querySelector("[data-rir-more]");
    more.hidden = this.#value("rir") !== "more";
    this.#sayPlates();
    this.#askToConfirm();
    this.changed?.();
  }

  /** Return what is asked about a load, in words; "" where there is nothing to ask. */
  #doubt(load) {
    const unit = this.#value("unit");
    if (Number.isNaN(load) || this.#said(load)) return "";
    if (!surely(load, unit)) return really(unit);
    const { exercise } = this.entry;
    const warmUp = this.form.elements.warm_up.checked;
    const earlier = earlierLoads(this.entry, this.editing?.id);
    const far = farFrom(toKg(load, unit), earlier, exercise.load_kind, warmUp);
    if (far === null) return "";
    const said = { last: shown(inUnit(far, unit)), unit };
    return fill(gettext("Really? Before it was %(last)s %(unit)s: say once more that this load is right."), said);
  }

  /** A set that is edited keeps what was said of its load: it is not asked about again. */
  #said(load) {
    const row = this.editing;
    return Boolean(row?.confirmed) && toKg(row.load, row.unit) === toKg(load, this.#value("unit"));
  }

  /** The question stands only while the load gives cause for it. */
  #askToConfirm() {
    const place = this.form.querySelector("[data-confirm]");
    const load = parse(this.form.elements.load.value);
    if (!place || (load !== null && this.#doubt(load))) return;
    place.hidden = true;
    this.form.elements.confirmed.checked = false;
  }

  #rir(errors) {
    const choice = this.#value("rir");
    if (choice !== "more") return choice === "" || choice === "unknown" ? null : Number(choice);
    const more = parse(this.form.elements.rir_more.value) ?? 5;
    if (Number.isNaN(more) || (more * 2) % 1 || more < 0 || more > 10) {
      errors.rir = gettext("RIR is 0 to 10, in whole or half steps.");
    }
    return more;
  }

  #value(name) {
    return this.form.elements[name]?.value ?? "";
  }

  #step(button) {
    const direction = Number(button.dataset.step);
    const name = button.closest("[data-quantity]").dataset.quantity;
    const field = this.form.elements[name];
    const now = parse(field.value);
    if (name === "load") field.value = shown(step(this.ladder, now, this.unit, direction));
    else if (now === null || Number.isNaN(now)) field.value = this.entry.prescription?.reps_min ?? FIRST_REPS;
    else field.value = Math.max(0, Math.floor(now) + direction);
    this.refresh();
  }

  /** Convert what stands in the field, so that a slip on the switch does not change the load. */
  #switchUnit(unit) {
    const load = parse(this.form.elements.load.value);
    if (load !== null && !Number.isNaN(load) && unit !== this.unit) {
      this.form.elements.load.value = shown(inUnit(toKg(load, this.unit), unit));
    }
    this.unit = unit;
    this.refresh();
  }

  #sayPlates() {
    const place = this.form.querySelector("[data-plates]");
    if (!place) return;
    const load = parse(this.form.elements.load.value);
    place.textContent = load === null || Number.isNaN(load) ? "" : this.#plateText(load);
  }

  #plateText(load) {
    if (!this.ladder?.settings.length) return "";
    const plates = platesFor(this.ladder, load, this.unit);
    if (plates) {
      if (!plates.length) return gettext("No plates.");
      return fill(gettext("Each side: %(plates)s %(unit)s"), {
        plates: plateWords(plates, this.ladder.unit),
        unit: this.ladder.unit,
      });
    }
    if (canMake(this.ladder, load, this.unit)) return "";
    const [below, above] = around(this.ladder, load, this.unit);
    const said = { below: shown(below ?? 0), above: shown(above ?? 0), unit: this.unit };
    if (above === null) return fill(gettext("The equipment ends at %(below)s %(unit)s."), said);
    if (below === null) return fill(gettext("The equipment begins at %(above)s %(unit)s."), said);
    return fill(gettext("The equipment makes %(below)s or %(above)s %(unit)s."), said);
  }
}
