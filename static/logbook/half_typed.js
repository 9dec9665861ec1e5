// A set that was begun to be typed and then left (another page, a reload, the phone in the pocket) is still in its
// fields when its session is opened again. One session a person is remembered: the one typed in last.

const PREFIX = "sinewright.typed.";

export class HalfTyped {
  /** `place` is a Storage, or null where there is none. */
  constructor(person, session, place = globalThis.localStorage ?? null) {
    Object.assign(this, { name: PREFIX + person, session, place });
  }

  /** Return what was kept of the exercise `key` while `logged` sets stood under it; null when one was logged since. */
  read(key, logged) {
    const kept = this.#all()[key];
    return kept?.logged === logged ? kept.fields : null;
  }

  keep(key, logged, fields) {
    this.#write({ ...this.#all(), [key]: { logged, fields } });
  }

  drop(key) {
    const { [key]: gone, ...left } = this.#all();
    if (gone) this.#write(left);
  }

  #all() {
    try {
      const kept = JSON.parse(this.place?.getItem(this.name) ?? "null");
      return kept?.session === this.session ? kept.sets : {};
    } catch {
      return {};
    }
  }

  #write(sets) {
    try {
      if (Object.keys(sets).length) this.place?.setItem(this.name, JSON.stringify({ session: this.session, sets }));
      else this.place?.removeItem(this.name);
    } catch {
      // No room or no leave to: the fields keep it as long as the page lives.
    }
  }
}
