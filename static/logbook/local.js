// What is on this phone: entries that the server does not have yet, and for a while those it has, because a page kept
// on the phone may be older than they are. The list is held in memory, so that a page can read it at once, and written
// to `keeper` (offline/database.js; in a test, a plain object) in the order of the calls.

// A kept page covers 14 days; what was sent longer ago is on every page by then.
const FORGET_SENT_MS = 21 * 24 * 3600 * 1000;

async function begin(act) {
  return act();
}

export class LocalStore {
  /**
   * `keeper` has async load(), add(rows), change(id, values), remove(ids), and where it can jot(rows), which is done when
   * it returns. Call `open()` before anything else.
   */
  constructor(person, keeper, now = () => Date.now()) {
    Object.assign(this, { person, keeper, now });
    this.rows = [];
    this.volatile = false; // the phone refused to keep them: the entries live as long as the page
    this.writes = Promise.resolve();
    this.pending = 0;
  }

  async open() {
    await this.refresh();
    const old = this.rows.filter(({ sent }) => sent && this.now() - sent.at > FORGET_SENT_MS);
    if (old.length) await this.#write(() => this.keeper.remove(old.map(({ op }) => op.id)));
    this.rows = this.rows.filter((row) => !old.includes(row));
    return this;
  }

  /** Read anew: another tab may have added or sent entries. */
  async refresh() {
    try {
      let rows;
      let seen;
      do {
        seen = this.writes;
        await seen;
        if (this.volatile) return;
        rows = await this.keeper.load();
      } while (seen !== this.writes); // something was added meanwhile: what was read lacks it
      this.rows = rows;
    } catch {
      this.volatile = true; // a private window may refuse storage: then the page itself has to do
    }
  }

  /** Return what the server has not taken: {op, refused: problem or null}, oldest first. */
  entries() {
    return this.rows.filter(({ sent }) => !sent);
  }

  /** Return what the server has taken lately, oldest first. */
  sent() {
    return this.rows.filter(({ sent }) => sent);
  }

  waiting() {
    return this.entries().filter(({ refused }) => !refused).map(({ op }) => op);
  }

  parked() {
    return this.entries().filter(({ refused }) => refused);
  }

  /** Resolves when the operations are written, and would survive the end of the browser. */
  add(...ops) {
    const rows = ops.map((op) => ({ op, refused: null, sent: null }));
    this.rows = [...this.rows, ...rows];
    try {
      this.keeper.jot?.(rows);
    } catch {
      // No room or no leave to: then the write below is the first.
    }
    return this.#write(() => this.keeper.add(rows));
  }

  /** Remove what the person mended or threw away. */
  remove(...ids) {
    this.rows = this.rows.filter(({ op }) => !ids.includes(op.id));
    return this.#write(() => this.keeper.remove(ids));
  }

  park(id, problem) {
    return this.#change(id, { refused: problem });
  }

  /** Send a refused one again with the next round. */
  unpark(id) {
    return this.#change(id, { refused: null });
  }

  settle(id) {
    return this.#change(id, { refused: null, sent: { at: this.now() } });
  }

  #change(id, values) {
    this.rows = this.rows.map((row) => (row.op.id === id ? { ...row, ...values } : row));
    return this.#write(() => this.keeper.change(id, values));
  }

  /** In the order of the calls; at once where nothing is being written, so that the page can draw meanwhile. */
  #write(act) {
    this.pending += 1;
    const done = this.pending === 1 ? begin(act) : this.writes.then(act);
    this.writes = done
      .catch(() => {
        this.volatile = true;
      })
      .finally(() => {
        this.pending -= 1;
      });
    return this.writes;
  }
}
