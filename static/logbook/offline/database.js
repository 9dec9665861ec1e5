// The phone's database. One module owns it: every other asks here. Entries are one row an operation, in the order in
// which they were made; facts are small values by name.

import { openDB } from "../../vendor/idb/idb.js";

const NAME = "sinewright";
const VERSION = 1;
// Until the first release with a database, entries were one list a person in localStorage.
const OLD_PREFIX = "sinewright.outbox.";
// A set must outlive a flat battery right after the tap.
const STRICT = { durability: "strict" };

let opened = null;

function forget() {
  opened = null;
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
  opened.catch(forget);
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

  async add(rows) {
    const tx = (await database()).transaction("entries", "readwrite", STRICT);
    for (const row of rows) {
      // An operation that another tab, or an interrupted migration, has written already is not written twice.
      if (!(await tx.store.index("id").getKey(row.op.id))) tx.store.add({ person: this.person, ...row });
    }
    await tx.done;
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

/** Bring over what an earlier release kept in localStorage; the old list goes only after the new one is written. */
export async function bringOver(person, storage = globalThis.localStorage) {
  const key = `${OLD_PREFIX}${person}`;
  const text = storage?.getItem(key);
  if (!text) return;
  const rows = JSON.parse(text).map(({ op, refused }) => ({ op, refused: refused ?? null, sent: null }));
  await new DatabaseEntries(person).add(rows);
  storage.removeItem(key);
}

/** Count the unsent entries of everyone else on this phone. */
export async function othersWaiting(person) {
  const rows = await (await database()).getAll("entries");
  return rows.filter((row) => row.person !== person && !row.sent).length;
}

export const fact = async (name) => (await database()).get("facts", name);
export const setFact = async (name, value) => (await database()).put("facts", value, name);
export const dropFact = async (name) => (await database()).delete("facts", name);
