// The phone's database. One module owns it: every other asks here. Entries are one row an operation, in the order in
// which they were made; facts are small values by name.

import { openDB } from "../../vendor/idb/idb.js";

const NAME = "sinewright";
const VERSION = 1;
// A list a person in localStorage, for what is not in the database yet: a write there is done when the call returns, so
// a page closed right after a tap loses nothing. (Before there was a database, all entries were kept in this list.)
const JOT_PREFIX = "sinewright.outbox.";
// A set must outlive a flat battery right after the tap.
const STRICT = { durability: "strict" };

let opened = null;
let handle = null; // the same, for whoever cannot wait a moment

function forget() {
  opened = null;
  handle = null;
}

function database() {
  opened ??= openDB(NAME, VERSION, {
    upgrade(db, oldVersion) {
      if (oldVersion < 1) {
        const entries = db.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
        entries.createIndex("person", "person");
        entries.createIndex("id", "op.id", { unique: true });
        db.createObjectStore("facts");
      }
    },
    // A newer release in another tab waits for this one to let go; the next call opens it again.
    blocking(_current, _blocked, event) {
      event.target.close();
      forget();
    },
    terminated: forget,
  });
  opened.then((db) => (handle = db), forget);
  return opened;
}

/** Keeps one person's entries: rows {op, refused, sent}. */
export class DatabaseEntries {
  constructor(person) {
    this.person = person;
  }

  async load() {
    const db = await database();
    return db.getAllFromIndex("entries", "person", this.person);
  }

  /** Note entries down at once, until `add` has written them for good. */
  jot(rows) {
    writeJotted(this.person, [...jotted(this.person), ...rows]);
  }

  async add(rows) {
    const tx = (handle ?? (await database())).transaction("entries", "readwrite", STRICT);
    const known = await Promise.all(rows.map((row) => tx.store.index("id").getKey(row.op.id)));
    // An operation that another tab, or an interrupted migration, has written already is not written twice.
    for (const [at, row] of rows.entries()) if (!known[at]) tx.store.add({ person: this.person, ...row });
    await tx.done;
    const written = new Set(rows.map(({ op }) => op.id));
    writeJotted(this.person, jotted(this.person).filter(({ op }) => !written.has(op.id)));
  }

  async change(id, values) {
    const tx = (await database()).transaction("entries", "readwrite", STRICT);
    const row = await tx.store.index("id").get(id);
    if (row) tx.store.put({ ...row, ...values });
    await tx.done;
  }

  async remove(ids) {
    const tx = (await database()).transaction("entries", "readwrite");
    for (const id of ids) {
      const key = await tx.store.index("id").getKey(id);
      if (key !== undefined) tx.store.delete(key);
    }
    await tx.done;
  }
}

/** Bring over what was noted down only: by a page that was closed too soon, or by a release before the database. */
export async function bringOver(person) {
  const rows = jotted(person).map(({ op, refused }) => ({ op, refused: refused ?? null, sent: null }));
  if (rows.length) await new DatabaseEntries(person).add(rows);
}

function jotted(person) {
  const text = globalThis.localStorage?.getItem(JOT_PREFIX + person);
  return text ? JSON.parse(text) : [];
}

function writeJotted(person, rows) {
  if (rows.length) globalThis.localStorage?.setItem(JOT_PREFIX + person, JSON.stringify(rows));
  else globalThis.localStorage?.removeItem(JOT_PREFIX + person);
}

/** Count the unsent entries of everyone else on this phone. */
export async function othersWaiting(person) {
  const rows = await (await database()).getAll("entries");
  return rows.filter((row) => row.person !== person && !row.sent).length;
}

export const fact = async (name) => (await database()).get("facts", name);
export const setFact = async (name, value) => (await database()).put("facts", value, name);
export const dropFact = async (name) => (await database()).delete("facts", name);
