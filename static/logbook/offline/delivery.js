// The store and the outbox of one person on this page, and what sets them going: the page opening, the connection
// coming back, the page coming into view, another tab, and the browser itself where it can (Background Sync).

import { LocalStore } from "../local.js";
import { Outbox } from "../outbox.js";
import { send } from "../send.js";
import { bringOver, DatabaseEntries } from "./database.js";

export const SYNC_TAG = "sinewright-outbox";

/** Open the store of `person` (a number), with what an earlier release left in another place. */
export async function openStore(person) {
  try {
    await bringOver(person);
  } catch {
    // Unreadable or refused: it stays where it is.
  }
  return new LocalStore(person, new DatabaseEntries(person)).open();
}

/** Let one tab at a time send, so that entries go in order; two would do no harm, since the server answers replays. */
function oneTab(person) {
  if (!globalThis.navigator?.locks) return (act) => act();
  return (act) => navigator.locks.request(`sinewright-outbox-${person}`, act);
}

export class Delivery {
  /**
   * Hear with `told(id, status, detail)` of answers, with `state(word)` of the outbox, with `kept(ops)` what is written on
   * the phone, with `added(ops)` what another tab logged. Call `listen()` on a page; a worker has its own events.
   */
  constructor(store, { told = () => {}, state = () => {}, kept = () => {}, added = () => {}, wait } = {}) {
    Object.assign(this, { store, state, kept });
    this.channel = globalThis.BroadcastChannel ? new BroadcastChannel(`sinewright-${store.person}`) : null;
    this.outbox = new Outbox({
      store,
      send: (operations) => send(operations, store.person),
      told: (...answer) => {
        this.channel?.postMessage({ told: answer });
        told(...answer);
      },
      state: (word) => this.#state(word),
      exclusive: oneTab(store.person),
      ...(wait ? { wait } : {}),
    });
    this.channel?.addEventListener("message", async ({ data }) => {
      await store.refresh();
      if (data.added) added(data.added);
      if (data.told) told(...data.told);
      state(this.word ?? "idle");
    });
  }

  listen() {
    addEventListener("online", () => this.flush());
    addEventListener("pageshow", (event) => event.persisted && this.flush());
    document.addEventListener("visibilitychange", () => document.hidden || this.flush());
  }

  async add(...ops) {
    await this.store.add(...ops);
    if (!this.store.volatile) this.kept(ops);
    this.channel?.postMessage({ added: ops });
    return this.flush();
  }

  flush() {
    return this.outbox.flush();
  }

  #state(word) {
    this.word = word;
    if (word === "offline" || word === "later") this.#askTheBrowser();
    this.state(word);
  }

  /** The browser may send in the background, with the page closed. */
  async #askTheBrowser() {
    try {
      const registration = await navigator.serviceWorker?.getRegistration();
      await registration?.sync?.register(SYNC_TAG);
    } catch {
      // Not allowed or not there: the page sends when it is opened next.
    }
  }
}
