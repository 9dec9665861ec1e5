// Sends what was logged, oldest first, until the server has answered for it. Nothing is dropped: a refused operation
// stays, with its reason, until the person mends or removes it.

const AT_ONCE = 50;
const FIRST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 60_000;

export class Outbox {
  /**
   * `send(ops)` resolves to {kind: "answers", results} or {kind: "sign-in" | "later" | "broken", problem}.
   * `told(id, status, detail)` hears of each answer; `state(word)` of "idle", "sending", "offline", "later", "sign-in".
   */
  constructor({ store, send, told, state, wait = (ms, then) => setTimeout(then, ms) }) {
    Object.assign(this, { store, send, told, state, wait });
    this.busy = false;
    this.pause = FIRST_WAIT_MS;
  }

  add(...ops) {
    this.store.add(...ops);
    return this.flush();
  }

  async flush() {
    if (this.busy) return;
    this.busy = true;
    try {
      this.state(await this.#flush());
    } finally {
      this.busy = false;
    }
  }

  async #flush() {
    for (;;) {
      const batch = this.store.waiting().slice(0, AT_ONCE);
      if (!batch.length) {
        this.pause = FIRST_WAIT_MS;
        return "idle";
      }
      this.state("sending");
      let reply;
      try {
        reply = await this.send(batch);
      } catch {
        return this.#later("offline");
      }
      if (reply.kind === "sign-in") return "sign-in";
      if (reply.kind === "later") return this.#later("later");
      if (reply.kind === "broken") {
        // The server could not even read the batch: sent one by one it would say the same of each.
        for (const op of batch) this.#refuse(op.id, reply.problem);
        continue;
      }
      const kept = reply.results.filter((answer) => !this.#settle(answer));
      if (kept.length) return this.#later("later");
    }
  }

  #settle(answer) {
    if (answer.status === "saved" || answer.status === "replayed") {
      this.store.remove(answer.id);
      this.told(answer.id, "saved", answer.result);
    } else if (answer.status === "refused") this.#refuse(answer.id, answer.problem);
    else return false;
    return true;
  }

  #refuse(id, problem) {
    this.store.park(id, problem);
    this.told(id, "refused", problem);
  }

  #later(word) {
    this.wait(this.pause, () => this.flush());
    this.pause = Math.min(this.pause * 2, LONGEST_WAIT_MS);
    return word;
  }
}
