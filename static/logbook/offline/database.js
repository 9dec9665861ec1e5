// The phone's database. One module owns it: every other asks here. Entries are one row an operation, in the order in
// which they were made; facts are small values by name.

import { openDB, unwrap } from "../../vendor/idb/idb.js";
import { jot, jotted, strike } from "./jots.js";

const NAME = "sinewright";

/**
 * What each version of the database added, oldest first: a phone takes those it lacks, in order. A step that was ever
 * released never changes, and none takes anything away, since a page of the release before may still be open and writes on.
 */
export const STEPS = [
  (db) => {
    const entries = db.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
    entries.createIndex("person", "person");
    entries.createIndex("id", "op.id", { unique: true });
    db.createObjectStore("facts");
  },
];

// A set must outlive a flat battery right after the tap.
const STRICT = { durability: "strict" };

let opened = null;
let handle = null; // the same, for whoever cannot wait a moment

function forget() {
  opened = null;
  handle = null;
}

/** Open the database with the steps it lacks; `steps` are given only to try what a later release would do. */
export async function openDatabase(steps = STEPS, events = {}) {
  try {
    return await openDB(NAME, steps.length, {
      upgrade(db, oldVersion, _newVersion, transaction) {
        for (const step of steps.slice(oldVersion)) step(db, transaction);
      },
      ...events,
    });
  } catch (error) {
    // A later release has been here: what it added is none of this page's business, the rest is as it was.
    if (error.name === "VersionError") return openDB(NAME, undefined, events);
    throw error;
  }
}

function database() {
  opened ??= openDatabase(STEPS, {
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
    jot(this.person, rows);
  }

  async add(rows) {
    const tx = (handle ?? (await database())).transaction("entries", "readwrite", STRICT);
    for (const row of rows) addOnce(tx.store, { person: this.person, ...row });
    // All is said: waiting for each answer before the end of the transaction would cost a slow phone a moment each.
    tx.commit();
    await tx.done;
    strike(this.person, rows);
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

/**
 * What another tab, or an interrupted migration, has written already is not written twice: the index of ids refuses it,
 * which must not undo the rest.
 */
function addOnce(store, row) {
  const request = unwrap(store).add(row);
  request.onerror = (event) => {
    if (request.error.name !== "ConstraintError") return;
    event.preventDefault();
    event.stopPropagation();
  };
}

/** Bring over what was noted down only: by a page that was closed too soon, or by a release before the database. */
export async function bringOver(person) {
  const entries = new DatabaseEntries(person);
  for (const note of jotted(person)) {
    await entries.add(note.rows.map(({ op, refused }) => ({ op, refused: refused ?? null, sent: null })));
    note.strike();
  }
}

/** Count the unsent entries of everyone else on this phone. */
export async function othersWaiting(person) {
  const rows = await (await database()).getAll("entries");
  return rows.filter((row) => row.person !== person && !row.sent).length;
}

export const fact = async (name) => (await database()).get("facts", name);
export const setFact = async (name, value) => (await database()).put("facts", value, name);
export const dropFact = async (name) => (await database()).delete("facts", name);
