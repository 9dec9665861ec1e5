// The phone's warm-up sets, asked with the server's own cases.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { warmUpSets } from "../../static/logbook/warmups.js";

const cases = JSON.parse(readFileSync(new URL("../logbook/warm_up_cases.json", import.meta.url), "utf8"));

for (const { name, entry, settings, kg, sets } of cases) {
  test(`warm-up sets: ${name}`, () => {
    assert.deepEqual(warmUpSets(entry, settings, kg).map(({ load_kg: load, reps }) => [load, reps]), sets);
  });
}
