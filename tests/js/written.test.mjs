// A half-written comment waits in the browser of the person who wrote it, until a page shows that it was sent.

import assert from "node:assert/strict";
import { test } from "node:test";
import { forget, Written } from "../../static/base/written.js";

/** A Storage: its keys are its own properties. */
function place() {
  const kept = {};
  const hide = (name, value) => Object.defineProperty(kept, name, { value });
  hide("getItem", (key) => kept[key] ?? null);
  hide("setItem", (key, text) => { kept[key] = text; });
  hide("removeItem", (key) => { delete kept[key]; });
  return kept;
}

test("what was written comes back, each in its place, until it is dropped or emptied", () => {
  const browser = place();
  const written = new Written(1, browser);
  written.keep("a", "", "The bar was");
  written.keep("b", "", "Next week");
  const again = new Written(1, browser);
  assert.equal(again.read("a", ""), "The bar was");
  assert.equal(again.read("c", ""), null);
  again.drop("a");
  again.keep("b", "", "  ");
  assert.deepEqual(Object.keys(browser), []);
});

test("a text that was changed meanwhile is not written over, and an unchanged one is not kept", () => {
  const written = new Written(1, place());
  written.keep("note", "As saved.", "As saved. And");
  assert.equal(written.read("note", "As saved."), "As saved. And");
  assert.equal(written.read("note", "Saved elsewhere."), null);
  written.keep("note", "As saved.", "As saved.");
  assert.equal(written.read("note", "As saved."), null);
});

test("what was sent is kept until a page shows that it came", () => {
  const browser = place();
  const written = new Written(1, browser);
  for (const [key, id] of [["a", "id-1"], ["b", "id-2"], ["c", "id-3"]]) {
    written.keep(key, "", key);
    written.sent(key, id);
  }
  written.keep("d", "", "not sent");
  written.confirm((id) => id === "id-1");
  assert.equal(written.read("a", ""), null);
  for (const key of ["b", "c", "d"]) assert.notEqual(written.read(key, ""), null);
  written.keep("b", "", "b, written on");
  written.confirm(() => true);
  assert.deepEqual(["b", "c", "d"].map((key) => written.read(key, "")), ["b, written on", null, "not sent"]);
});

test("a note that did not come is not taken for sent by the good news of a later page", () => {
  const written = new Written(1, place());
  for (const key of ["came", "lost"]) {
    written.keep(key, "", key);
    written.sent(key);
    written.confirm(() => key === "came");
  }
  written.confirm(() => true);
  assert.deepEqual(["came", "lost"].map((key) => written.read(key, "")), [null, "lost"]);
});

test("nobody else reads it: another person's signing in removes it, and signing out removes all", () => {
  const browser = place();
  browser.setItem("other", "of the app");
  new Written(1, browser).keep("a", "", "mine");
  assert.equal(new Written(2, browser).read("a", ""), null);
  forget(1, browser);
  assert.equal(new Written(1, browser).read("a", ""), "mine");
  forget(2, browser);
  assert.deepEqual(Object.keys(browser), ["other"]);
  new Written(1, browser).keep("a", "", "mine");
  forget(null, browser);
  assert.deepEqual(Object.keys(browser), ["other"]);
});

test("it is forgotten after two weeks, and the oldest of many", () => {
  let now = 0;
  const written = new Written(1, place(), () => now);
  written.keep("old", "", "x");
  now = 13 * 24 * 3600 * 1000;
  assert.equal(written.read("old", ""), "x");
  now = 15 * 24 * 3600 * 1000;
  assert.equal(written.read("old", ""), null);
  for (let n = 0; n < 50; n += 1) {
    now += 1;
    written.keep(`k${n}`, "", "x");
  }
  assert.equal(written.read("k0", ""), null);
  assert.equal(written.read("k49", ""), "x");
});

test("a browser that keeps nothing does not stop the writing", () => {
  const full = { getItem: () => "{", setItem: () => { throw new Error("quota"); }, removeItem: () => {} };
  for (const browser of [null, full]) {
    const written = new Written(1, browser);
    written.keep("a", "", "x");
    written.sent("a");
    written.confirm(() => true);
    assert.equal(written.read("a", ""), null);
    forget(null, browser);
  }
});
