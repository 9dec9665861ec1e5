// A comment or a note that was begun to be written and then left (another page, a reload, an expired sign-in) is still
// in its field when the page is opened again. It is kept in this browser, for the person who wrote it and nobody else:
// signing out, and anybody else's signing in, removes it.

const PREFIX = "sinewright.written.";
const FORGET_MS = 14 * 24 * 3600 * 1000;
const MOST = 40;

/** Remove what everybody wrote on this browser, or everybody but `person`. */
export function forget(person = null, place = globalThis.localStorage ?? null) {
  try {
    for (const key of Object.keys(place ?? {})) {
      if (key.startsWith(PREFIX) && key !== PREFIX + person) place.removeItem(key);
    }
  } catch {
    // A browser that gives no leave has kept nothing.
  }
}

export class Written {
  /** `place` is a Storage, or null where there is none. */
  constructor(person, place = globalThis.localStorage ?? null, now = () => Date.now()) {
    Object.assign(this, { name: PREFIX + person, place, now });
  }

  /** Return what was written into the field `key`, null where there is nothing, or where the page's own text `base` has
   * changed since. */
  read(key, base) {
    const kept = this.#all()[key];
    return kept && kept.base === base ? kept.text : null;
  }

  keep(key, base, text) {
    const { [key]: old, ...left } = this.#all();
    if (text !== base && text.trim()) this.#write({ ...left, [key]: { base, text, at: this.now() } });
    else if (old) this.#write(left);
  }

  drop(key) {
    this.keep(key, "", "");
  }

  /** The form was sent, as the comment `id` or without one: what was written is kept until a page shows that it came. */
  sent(key, id = null) {
    const all = this.#all();
    if (all[key]) this.#write({ ...all, [key]: { ...all[key], sent: { id } } });
  }

  /** Drop what `came(id)`. What was sent without an id shows on the first page after it, or it did not come: a later
   * page's good news is about something else. */
  confirm(came) {
    const all = Object.entries(this.#all());
    if (!all.some(([, one]) => one.sent)) return;
    const left = all.filter(([, one]) => !one.sent || !came(one.sent.id));
    this.#write(Object.fromEntries(left.map(([key, one]) => [key, one.sent?.id ? one : { ...one, sent: undefined }])));
  }

  #all() {
    try {
      const kept = Object.entries(JSON.parse(this.place?.getItem(this.name) ?? "{}"));
      return Object.fromEntries(kept.filter(([, { at }]) => this.now() - at < FORGET_MS));
    } catch {
      return {};
    }
  }

  #write(all) {
    const latest = Object.entries(all).sort(([, one], [, other]) => other.at - one.at).slice(0, MOST);
    try {
      if (latest.length) this.place?.setItem(this.name, JSON.stringify(Object.fromEntries(latest)));
      else this.place?.removeItem(this.name);
    } catch {
      // No room or no leave to: the field keeps it as long as the page lives.
    }
  }
}
