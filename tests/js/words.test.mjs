// What a row says about where its set is.

import assert from "node:assert/strict";
import { test } from "node:test";
import { syncWords } from "../../static/logbook/rows.js";

const row = (op) => ({ deleted: false, op });

test("a set is not said to be on the phone before it is written there, whatever is known of the connection", () => {
  for (const delivery of ["idle", "sending", "offline", "later", "sign-in"]) {
    assert.equal(syncWords(row({ kept: false, problem: null }), delivery), "saving…");
    assert.match(syncWords(row({ kept: true, problem: null }), delivery), /^on this phone/);
  }
});

test("a refused set says why", () => {
  const problem = { title: "No.", errors: { reps: ["At most 8."] } };
  assert.equal(syncWords(row({ kept: true, problem }), "idle"), "not saved: At most 8.");
});

test("a set that the server has says so", () => {
  assert.equal(syncWords(row(null), "offline"), "saved");
});
