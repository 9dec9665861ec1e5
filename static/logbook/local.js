// The one place that keeps what is on this phone only. Entries: {op, refused: problem or null}, oldest first, one list
// a person, so that nobody sees or sends what another person typed on the same phone.

const PREFIX = "sinewright.outbox.";

export class LocalStore {
  /** `storage` is localStorage, or anything like it in a test. */
  constructor(person, storage = globalThis.localStorage) {
    this.key = `${PREFIX}${person}`;
    this.storage = storage;
    this.memory = [];
    this.volatile = false; // the storage refused: the entries live as long as the page
  }

  /** Return every entry; read anew each time, since another tab may have changed the list. */
  entries() {
    if (this.volatile) return this.memory;
    try {
      return JSON.parse(this.storage.getItem(this.key)) ?? [];
    } catch {
      return this.memory; // a private window may refuse storage: then the page itself has to do
    }
  }

  add(...ops) {
    this.#write([...this.entries(), ...ops.map((op) => ({ op, refused: null }))]);
  }

  remove(id) {
    this.#write(this.entries().filter((entry) => entry.op.id !== id));
  }

  park(id, problem) {
    this.#write(this.entries().map((entry) => (entry.op.id === id ? { ...entry, refused: problem } : entry)));
  }

  waiting() {
    return this.entries().filter((entry) => !entry.refused).map((entry) => entry.op);
  }

  #write(entries) {
    this.memory = entries;
    try {
      this.storage.setItem(this.key, JSON.stringify(entries));
      this.volatile = false;
    } catch {
      this.volatile = true;
    }
  }
}
