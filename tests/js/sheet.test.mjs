// A session's page that was kept on the phone may be older than what was logged since: what shows then.

import assert from "node:assert/strict";
import { test } from "node:test";
import { Sheet } from "../../static/logbook/sheet.js";

const AT = "2024-05-15T16:00:00.000Z";
const LATER = "2024-05-15T16:05:00.000Z";
const VALUES = { load: 40, unit: "kg", reps: 10, rir: 1, side: "both", warm_up: false, number: 1, note: "" };

const sheet = (sets = [], session = {}) =>
  new Sheet({
    session: { id: "s", started_at: null, note: "", ...session },
    exercises: [{ key: "slot-1", slot: 1, exercise: { id: 7 }, sets, skip: null }],
  });
const record = (at = AT, more = {}) => ({
  op: { id: "o1", kind: "set.record", at, data: { session: "s", set: "x", slot: 1, exercise: 7, ...VALUES, ...more } },
  refused: null,
  sent: null,
});
const known = (at = AT, more = {}) => ({ id: "x", ...VALUES, deleted: false, edited_at: at, performed_at: at, history: [], ...more });
const sent = (row) => ({ ...row, sent: { at: 1 } });

test("a set that waits shows as on this phone", () => {
  const page = sheet();
  page.overlay(record());
  assert.equal(page.entries[0].sets.length, 1);
  assert.equal(page.entries[0].sets[0].op.kept, true);
});

test("a set the server took after the page was kept shows as saved", () => {
  const page = sheet();
  page.overlay(sent(record()));
  assert.equal(page.entries[0].sets.length, 1);
  assert.equal(page.entries[0].sets[0].op, null);
});

test("a set that the page has already is not doubled, nor given a history", () => {
  const page = sheet([known()]);
  page.overlay(sent(record()));
  page.overlay(record());
  assert.equal(page.entries[0].sets.length, 1);
  assert.deepEqual(page.entries[0].sets[0].history, []);
});

test("a later edit, made elsewhere and known to the page, stands against an older one sent from here", () => {
  const page = sheet([known(LATER, { reps: 8 })]);
  const edit = { op: { id: "o2", kind: "set.edit", at: AT, data: { set: "x", ...VALUES, reps: 12 } }, refused: null };
  page.overlay(sent(edit));
  assert.equal(page.entries[0].sets[0].reps, 8);
});

test("an edit sent from here after the page was kept stands", () => {
  const page = sheet([known(AT)]);
  const edit = { op: { id: "o2", kind: "set.edit", at: LATER, data: { set: "x", ...VALUES, reps: 12 } }, refused: null };
  page.overlay(sent(edit));
  assert.equal(page.entries[0].sets[0].reps, 12);
});

test("what the client says after a coach's correction is no longer the coach's", () => {
  const page = sheet([known(AT, { corrected_by: "Carla" })]);
  page.overlay(record(AT));
  assert.equal(page.entries[0].sets[0].corrected_by, "Carla");
  page.apply({ id: "o2", kind: "set.edit", at: LATER, data: { set: "x", ...VALUES, reps: 12 } });
  assert.equal(page.entries[0].sets[0].corrected_by, "");
});

test("an operation of another session is none of this page's business", () => {
  const page = sheet();
  const other = record();
  other.op.data.session = "another";
  page.overlay(other);
  assert.deepEqual(page.entries[0].sets, []);
});

const edit = (data, at = LATER) => ({ op: { id: "o3", kind: "set.edit", at, data: { set: "x", ...VALUES, ...data } }, refused: null });

test("a yes to a load is kept with the set, on the phone too", () => {
  const page = sheet();
  page.overlay(record(AT, { load: 400, confirmed: true }));
  assert.equal(page.entries[0].sets[0].confirmed, true);
  page.overlay(edit({ load: 400, reps: 8 }));
  assert.equal(page.entries[0].sets[0].confirmed, true);
});

test("another load, or the same number in another unit, takes the yes back", () => {
  for (const other of [{ load: 401 }, { load: 400, unit: "lb" }]) {
    const page = sheet([known(AT, { load: 400, confirmed: true })]);
    page.overlay(edit(other));
    assert.equal(page.entries[0].sets[0].confirmed, false);
  }
});

test("where a later edit stands, its yes stands with it", () => {
  const page = sheet([known(AT, { load: 40 })]);
  page.overlay(edit({ load: 4 }));
  page.settle("o3", "saved", { won: false, set: { ...VALUES, load: 400, confirmed: true, deleted: false } });
  assert.deepEqual([page.entries[0].sets[0].load, page.entries[0].sets[0].confirmed], [400, true]);
});
