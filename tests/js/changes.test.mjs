// What a coach changed while the phone had no connection, in words.

import assert from "node:assert/strict";
import { test } from "node:test";
import { planChanges } from "../../static/logbook/offline/changes.js";
import { changeWords } from "../../static/logbook/offline/news.js";

const DOSE = { sets: 3, reps_min: 8, reps_max: 12, rir_min: 1, rir_max: 2, rest_s: 90, tempo: "", note: "" };
const slot = (number, id, name, dose = {}, target = null) => ({
  slot: number, exercise: { id, name }, prescription: { ...DOSE, ...dose }, target,
});
const data = (...exercises) => ({ session: { planned_date: "2024-05-15" }, exercises });
const said = (before, after) => planChanges(before, after).map(changeWords);

test("the same plan says nothing, and a new target is no news", () => {
  assert.deepEqual(said(data(slot(1, 7, "Curl")), data(slot(1, 7, "Curl", {}, { load_kg: 42.5 }))), []);
});

test("fewer sets are named before and after", () => {
  const words = said(data(slot(1, 7, "Curl")), data(slot(1, 7, "Curl", { sets: 2 })));
  assert.deepEqual(words, ["Curl: 3 × 8–12 @ 1–2 RIR is now 2 × 8–12 @ 1–2 RIR"]);
});

test("a range of sets that became one number is named too", () => {
  const words = said(data(slot(1, 7, "Curl", { sets_min: 2 })), data(slot(1, 7, "Curl", { sets_min: null })));
  assert.deepEqual(words, ["Curl: 2–3 × 8–12 @ 1–2 RIR is now 3 × 8–12 @ 1–2 RIR"]);
});

test("an exercise added, taken out, or put in another's place is named", () => {
  assert.deepEqual(said(data(slot(1, 7, "Curl")), data(slot(1, 8, "Row"), slot(2, 9, "Dip"))), [
    "Curl taken out", "Row added", "Dip added",
  ]);
  assert.deepEqual(said(data(slot(1, 7, "Curl"), slot(2, 9, "Dip")), data(slot(1, 7, "Curl"))), ["Dip taken out"]);
});

test("a longer rest and another day are told", () => {
  const after = data(slot(1, 7, "Curl", { rest_s: 120 }));
  after.session.planned_date = "2024-05-16";
  const words = said(data(slot(1, 7, "Curl")), after);
  assert.equal(words[0], "Curl: load, rest, tempo, sides or note changed");
  assert.equal(words.length, 2);
});

test("another load of the block is told, and a session kept from before there was one is the same", () => {
  const first = data(slot(1, 7, "Curl"));
  assert.deepEqual(said(first, data(slot(1, 7, "Curl", { load_pct: 0 }))), []);
  assert.deepEqual(said(first, data(slot(1, 7, "Curl", { load_pct: 105 }))), [
    "Curl: load, rest, tempo, sides or note changed",
  ]);
});

test("an exercise that only this session added is not the coach's doing", () => {
  const extra = { slot: null, exercise: { id: 5, name: "Plank" }, prescription: null };
  assert.deepEqual(said(data(slot(1, 7, "Curl"), extra), data(slot(1, 7, "Curl"))), []);
});
