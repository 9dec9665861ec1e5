// Entries noted down before the database has them: two tabs share the place and must not undo each other's.

import assert from "node:assert/strict";
import { beforeEach, test } from "node:test";
import { jot, jotted, strike } from "../../static/logbook/offline/jots.js";

class Place {
  getItem(key) {
    return Object.hasOwn(this, key) ? this[key] : null;
  }
  setItem(key, text) {
    this[key] = text;
  }
  removeItem(key) {
    delete this[key];
  }
}

const row = (id, at) => ({ op: { id, at }, refused: null });
const ids = (person) => jotted(person).flatMap(({ rows }) => rows.map(({ op }) => op.id));

beforeEach(() => {
  globalThis.localStorage = new Place();
});

test("what two tabs note down at once stays, oldest first", () => {
  jot(1, [row("b", "2024-05-15T16:01:00Z")]);
  jot(1, [row("a1", "2024-05-15T16:00:00Z"), row("a2", "2024-05-15T16:00:00Z")]);
  assert.deepEqual(ids(1), ["a1", "a2", "b"]);
  strike(1, [row("a1")]);
  assert.deepEqual(ids(1), ["b"]);
});

test("another person's notes are not read, also where one number begins like the other", () => {
  jot(1, [row("a", "2024-05-15T16:00:00Z")]);
  jot(11, [row("b", "2024-05-15T16:00:00Z")]);
  assert.deepEqual([ids(1), ids(11)], [["a"], ["b"]]);
});

test("the list of a release before the database is read, and struck when it is brought over", () => {
  localStorage.setItem("sinewright.outbox.1", JSON.stringify([row("a", "2024-05-15T16:00:00Z")]));
  jot(1, [row("b", "2024-05-15T16:01:00Z")]);
  assert.deepEqual(ids(1), ["a", "b"]);
  for (const note of jotted(1)) note.strike();
  assert.deepEqual(Object.keys(localStorage), []);
});

test("a note that cannot be read stays, and holds up no other", () => {
  localStorage.setItem("sinewright.outbox.1.x", "{");
  jot(1, [row("a", "2024-05-15T16:00:00Z")]);
  assert.deepEqual(ids(1), ["a"]);
  assert.equal(localStorage.getItem("sinewright.outbox.1.x"), "{");
});
