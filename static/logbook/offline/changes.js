// What a coach changed in a session since this phone saw it last. Targets move by themselves and are not news.

const PARTS = ["sets_min", "sets", "reps_min", "reps_max", "rir_min", "rir_max", "rest_s", "tempo", "note", "weaker_first"];
// Younger than some sessions that phones still keep: what was not told then is the first week's load.
const load = ({ load_pct: part }) => part || 100;

const differs = (before, after) =>
  load(before) !== load(after) || PARTS.some((part) => before[part] !== after[part]);

/** Compare two session datas (old, new); return [{kind: "added" | "removed" | "changed" | "moved", ...}]. */
export function planChanges(before, after) {
  const said = [];
  const old = new Map(before.exercises.filter(({ slot }) => slot).map((entry) => [entry.slot, entry]));
  for (const entry of after.exercises) {
    if (!entry.slot || !entry.prescription) continue;
    const was = old.get(entry.slot);
    old.delete(entry.slot);
    if (!was?.prescription) said.push({ kind: "added", name: entry.exercise.name });
    else if (was.exercise.id !== entry.exercise.id) {
      said.push({ kind: "removed", name: was.exercise.name }, { kind: "added", name: entry.exercise.name });
    } else if (differs(was.prescription, entry.prescription)) {
      said.push({ kind: "changed", name: entry.exercise.name, before: was.prescription, after: entry.prescription });
    }
  }
  for (const entry of old.values()) if (entry.prescription) said.push({ kind: "removed", name: entry.exercise.name });
  if (before.session.planned_date !== after.session.planned_date) {
    said.push({ kind: "moved", before: before.session.planned_date, after: after.session.planned_date });
  }
  return said;
}
