// What is known of this session: what the server said with the page, and every operation since. Views only read it.

const VALUES = ["load", "unit", "reps", "rir", "note", "side", "warm_up", "number"];
const pick = (from) => Object.fromEntries(VALUES.filter((name) => name in from).map((name) => [name, from[name]]));

const later = (at, standing) => !standing || Date.parse(at) > Date.parse(standing);

/** A yes to a load holds for that load, and for no other. */
const sure = (row, data) =>
  data.confirmed === true || (Boolean(row.confirmed) && row.load === data.load && row.unit === data.unit);

export class Sheet {
  constructor(data) {
    Object.assign(this, data);
    this.entries = data.exercises;
    // Whether the server knows the end; `session.finished_at` may stand on the phone only.
    this.finishedThere = Boolean(this.session.finished_at);
    this.owners = new Map(); // operation id -> the set it is about
    this.lastOf = null; // the newest operation about a set
    for (const entry of this.entries) for (const row of entry.sets) row.saved = true;
  }

  entry(key) {
    return this.entries.find((entry) => entry.key === key);
  }

  /** Return the slot's own entry: a substitute shares the slot. */
  ofSlot(slot) {
    return this.entries.find((entry) => entry.slot === slot && !entry.instead_of);
  }

  /** Take a listed substitute into the session, behind the exercise it stands for; return its entry. */
  bringIn(key) {
    const entry = this.swaps?.find((one) => one.key === key);
    if (!entry) return undefined;
    this.swaps = this.swaps.filter((one) => one !== entry);
    entry.sets ??= [];
    this.entries.splice(this.entries.indexOf(this.ofSlot(entry.slot)) + 1, 0, entry);
    return entry;
  }

  find(setId) {
    for (const entry of this.entries) {
      const row = entry.sets.find((set) => set.id === setId);
      if (row) return { entry, row };
    }
    return {};
  }

  /** Say whether an operation is about this session; one about another session waits unseen. */
  concerns(op) {
    return op.data.session === this.session.id || Boolean(op.data.set && this.find(op.data.set).row);
  }

  /** Show what is on the phone: a row of the store. What the server took shows only where the page is older than it. */
  overlay({ op, refused, sent }) {
    if (!this.concerns(op)) return;
    if (!sent) {
      this.apply(op, refused);
      this.kept(op.id);
    } else if (!this.#knows(op)) {
      this.apply(op);
      this.settle(op.id, "saved", {});
    }
  }

  /** Say whether this page was made after the operation arrived, or a later edit stands. */
  #knows({ kind, at, data }) {
    if (kind === "session.start") return Boolean(this.session.started_at);
    if (kind === "session.note") return !later(at, this.session.note_edited_at);
    if (kind === "session.finish") return Boolean(this.session.finished_at);
    if (kind === "slot.skip") return !later(at, this.ofSlot(data.slot)?.skip?.edited_at);
    const { row } = this.find(data.set);
    return row ? !later(at, row.edited_at) : kind !== "set.record";
  }

  /** Let an operation show at once; return the key of the exercise that changed. */
  apply(op, problem = null) {
    const { kind, data } = op;
    if (kind === "session.start") this.session.started_at = data.started_at ?? op.at;
    if (kind === "session.note") this.session.note = data.note;
    if (kind === "session.finish") Object.assign(this.session, { finished_at: op.at, note: data.note });
    if (kind === "slot.skip") {
      const entry = this.ofSlot(data.slot);
      if (entry) entry.skip = { skipped: data.skipped, reason: data.reason };
      return entry?.key;
    }
    if (!kind.startsWith("set.")) return undefined;
    return this.#applyToSet(op, problem);
  }

  #applyToSet({ id, kind, at, data }, problem) {
    let { entry, row } = this.find(data.set);
    if (kind === "set.record" && !row) {
      const sameExercise = (one) => one.exercise.id === data.exercise;
      const same = (one) => one.slot === data.slot && sameExercise(one);
      entry =
        this.entries.find(same) ?? this.bringIn(this.swaps?.find(same)?.key) ?? this.entries.find(sameExercise);
      if (!entry) return undefined;
      row = { id: data.set, performed_at: data.performed_at ?? at, deleted: false, history: [], saved: false };
      entry.sets.push(row);
    } else if (row && kind !== "set.delete" && !problem && at !== row.edited_at) {
      row.history = [...(row.history ?? []), { won: true, values: { ...pick(row), deleted: row.deleted } }];
    }
    if (!row) return undefined;
    if (kind === "set.delete") row.deleted = true;
    else Object.assign(row, { confirmed: sure(row, data) }, pick(data), { deleted: false });
    if (row.corrected_by && !problem && at !== row.edited_at) row.corrected_by = ""; // theirs again
    row.edited_at = at;
    row.op = { id, kind, problem, kept: false };
    this.owners.set(id, data.set);
    this.lastOf = id;
    return entry.key;
  }

  /** The phone has written the operation down; return the key of the exercise concerned. */
  kept(id) {
    const { entry, row } = this.find(this.owners.get(id));
    if (row?.op?.id === id) row.op.kept = true;
    return entry?.key;
  }

  /** Take in the server's answer to an operation; return the key of the exercise that changed. */
  settle(id, status, detail) {
    const { entry, row } = this.find(this.owners.get(id));
    if (!row) return undefined;
    if (status === "saved") {
      row.saved = true;
      if (row.op?.id === id) {
        row.op = null;
        row.overruled = detail?.won === false;
        // A later edit on another device stands: show what stands, not what was typed here.
        if (row.overruled) Object.assign(row, pick(detail.set), { confirmed: detail.set.confirmed, deleted: detail.set.deleted });
      }
    } else if (row.op?.id === id) row.op.problem = detail;
    return entry.key;
  }

  /** Forget a refused set that never reached the server. */
  drop(setId) {
    const { entry } = this.find(setId);
    if (entry) entry.sets = entry.sets.filter((row) => row.id !== setId);
    return entry?.key;
  }
}
