// What a set's fields send: a yes goes along where it was asked for and given, and is not asked for twice.

import assert from "node:assert/strict";
import { test } from "node:test";

globalThis.gettext ??= (text) => text;
globalThis.HTMLInputElement ??= class {};
const { Fields } = await import("../../static/logbook/fields.js");

const ENTRY = {
  exercise: { rep_unit: "reps", load_kind: "external" },
  prescription: null,
  target: null,
  last: { sets: [{ id: "a", load_kg: 40 }] },
  sets: [],
};

function bench(load, { confirmed = false, place = { hidden: true } } = {}) {
  const elements = {
    load: { value: load },
    unit: { value: "kg" },
    reps: { value: "8" },
    rir: { value: "2" },
    rir_more: { value: "" },
    side: { value: "both" },
    warm_up: { checked: false },
    note: { value: "" },
    ...(place ? { confirmed: { checked: confirmed } } : {}),
  };
  const form = {
    elements,
    querySelectorAll: () => [],
    querySelector: (what) => ({ "[data-confirm]": place, "[data-rir-more]": {} })[what] ?? null,
    addEventListener: () => {},
  };
  return { elements, place, fields: new Fields(form, ENTRY, null, null) };
}

test("a load that is far off waits for a yes, and takes it along", () => {
  const b = bench("400");
  assert.match(b.fields.read().errors.load, /Really/);
  assert.equal(b.place.hidden, false);
  b.elements.confirmed.checked = true;
  const { values, errors } = b.fields.read();
  assert.deepEqual([errors, values.confirmed], [{}, true]);
});

test("a load like those before takes no yes along", () => {
  assert.equal("confirmed" in bench("42.5", { confirmed: true }).fields.read().values, false);
});

test("nothing is said for a load that nobody could see", () => {
  assert.equal("confirmed" in bench("0", { place: null }).fields.read().values, false);
});

test("a set whose load was said to be right is edited without being asked again", () => {
  const b = bench("400");
  b.fields.editing = { id: "x", load: 400, unit: "kg", confirmed: true };
  const { values, errors } = b.fields.read();
  assert.deepEqual([errors, values.confirmed], [{}, true]);
  b.elements.load.value = "4";
  assert.match(b.fields.read().errors.load, /Really/);
});
