// Run by test_far_load.py under Node: prints what static/logbook/far.js says to the cases of far_cases.json.

import { readFileSync } from "node:fs";
import { earlierLoads, farFrom } from "../../static/logbook/far.js";

const cases = JSON.parse(readFileSync(0, "utf8"));
const said = cases.map((one) =>
  farFrom(one.kg, earlierLoads(one.entry, one.leave_out), one.load_kind, one.warm_up),
);
process.stdout.write(JSON.stringify(said));
