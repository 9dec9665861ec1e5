// A half-typed set waits for its session to be opened again.

import assert from "node:assert/strict";
import { test } from "node:test";
import { HalfTyped } from "../../static/logbook/half_typed.js";

const FIELDS = { load: "37,", reps: "8" };

function place() {
  const kept = new Map();
  return { getItem: (key) => kept.get(key) ?? null, setItem: (key, text) => kept.set(key, text), removeItem: (key) => kept.delete(key), kept };
}

test("what was typed comes back just as it stood, until a set was logged", () => {
  const phone = place();
  new HalfTyped(1, "s", phone).keep("slot-1", 0, FIELDS);
  const again = new HalfTyped(1, "s", phone);
  assert.deepEqual(again.read("slot-1", 0), FIELDS);
  assert.equal(again.read("slot-1", 1), null);
  assert.equal(again.read("slot-2", 0), null);
  again.drop("slot-1");
  assert.equal(phone.kept.size, 0);
});

test("another person and another session see nothing of it", () => {
  const phone = place();
  new HalfTyped(1, "s", phone).keep("slot-1", 0, FIELDS);
  assert.equal(new HalfTyped(2, "s", phone).read("slot-1", 0), null);
  assert.equal(new HalfTyped(1, "other", phone).read("slot-1", 0), null);
});

test("a phone that keeps nothing does not stop the typing", () => {
  const full = { getItem: () => null, setItem: () => { throw new Error("quota"); }, removeItem: () => {} };
  for (const phone of [null, full]) {
    const typed = new HalfTyped(1, "s", phone);
    typed.keep("slot-1", 0, FIELDS);
    assert.equal(typed.read("slot-1", 0), null);
  }
});
