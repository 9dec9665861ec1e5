// Sends what was logged, oldest first, until the server has answered for it. Nothing is dropped: a refused operation
// stays, with its reason, until the person mends or removes it.

const AT_ONCE = 50;
const FIRST_WAIT_MS = 2_000;
const LONGEST_WAIT_MS = 60_000;

export class Outbox {
  /**
   * `send(ops)` resolves to {kind: "answers", results} or {kind: "sign-in" | "later" | "broken", problem}.
   * `told(id, status, detail)` hears of each answer; `state(word)` of "idle", "sending", "offline", "later", "sign-in".
   * `exclusive(act)` runs `act` while no other tab sends.
   */
  constructor({ store, send, told, state, exclusive = (act) => act(), wait = (ms, then) => setTimeout(then, ms) }) {
    Object.assign(this, { store, send, told, state, exclusive, wait });
    this.busy = false;
    this.again = false;
    this.timed = false;
    this.pause = FIRST_WAIT_MS;
  }

  /** Write first, then send: what is on its way is already safe. */
  async add(...ops) {
    await this.store.add(...ops);
    return this.flush();
  }

  async flush() {
    if (this.busy) {
      this.again = true;
      return;
    }
    this.busy = true;
    try {
      do {
        this.again = false;
        this.word = await this.exclusive(() => this.#flush());
      } while (this.again && this.word === "idle");
    } finally {
      this.busy = false;
    }
    this.state(this.word);
  }

  async #flush() {
    await this.store.refresh();
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
        for (const op of batch) await this.#refuse(op.id, reply.problem);
        continue;
      }
      let kept = batch.length;
      for (const answer of reply.results) if (await this.#settle(answer)) kept -= 1;
      if (kept > 0) return this.#later("later");
    }
  }

  async #settle(answer) {
    if (answer.status === "saved" || answer.status === "replayed") {
      await this.store.settle(answer.id);
      this.told(answer.id, "saved", answer.result);
    } else if (answer.status === "refused") await this.#refuse(answer.id, answer.problem);
    else return false;
    return true;
  }

  async #refuse(id, problem) {
    await this.store.park(id, problem);
    this.told(id, "refused", problem);
  }

  #later(word) {
    if (!this.timed) {
      this.timed = true;
      this.wait(this.pause, () => {
        this.timed = false;
        return this.flush();
      });
      this.pause = Math.min(this.pause * 2, LONGEST_WAIT_MS);
    }
    return word;
  }
}
