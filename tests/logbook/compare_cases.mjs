// Run by test_compare.py under Node: prints what static/logbook/compare.js and sides.js say to compare_cases.json.

import { readFileSync } from "node:fs";
import { sinceLastTime } from "../../static/logbook/compare.js";
import { sideDifference } from "../../static/logbook/sides.js";

const { since_last: since, sides } = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify({
  since_last: since.map(({ now, before, exercise, unit }) => sinceLastTime(now, before, exercise, unit)),
  sides: sides.map(({ sets, exercise, unit }) => sideDifference(sets, exercise, unit)),
}));
