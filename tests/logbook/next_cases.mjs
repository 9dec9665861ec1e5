// Run by test_next_set.py under Node: prints what static/logbook/next.js says to the cases of next_cases.json.

import { readFileSync } from "node:fs";
import { isDone, nextEntry, nextStep, suggestion } from "../../static/logbook/next.js";

const { cases, order } = JSON.parse(readFileSync(0, "utf8"));
const answers = cases.map(({ entry, unit }) => {
  const { number, side } = nextStep(entry);
  return { step: [number, side], done: isDone(entry), ask: suggestion(entry, unit) };
});
process.stdout.write(JSON.stringify({ answers, next: order.map(({ entries, current }) => nextEntry(entries, current)) }));
