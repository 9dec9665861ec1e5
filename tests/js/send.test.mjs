// What the answer to a batch means for the entries in it.

import assert from "node:assert/strict";
import { afterEach, test } from "node:test";
import { LocalStore } from "../../static/logbook/local.js";
import { Outbox } from "../../static/logbook/outbox.js";
import { send } from "../../static/logbook/send.js";
import { Memory } from "./memory.mjs";

const { fetch } = globalThis;
afterEach(() => {
  globalThis.fetch = fetch;
});

const answering = (status, body = {}, more = {}) => {
  globalThis.fetch = async () => ({ status, redirected: false, json: async () => body, ...more });
};
const OP = { id: "a", kind: "set.record", at: "2024-05-15T16:00:00Z", data: {} };

for (const [status, kind] of [[401, "sign-in"], [403, "sign-in"], [409, "later"], [429, "later"], [500, "later"], [503, "later"], [400, "broken"]]) {
  test(`${status} means ${kind}`, async () => {
    answering(status);
    assert.equal((await send([OP], 1)).kind, kind);
  });
}

test("a redirect leads to the sign-in page, whose 200 is no answer", async () => {
  answering(200, {}, { redirected: true });
  assert.equal((await send([OP], 1)).kind, "sign-in");
});

test("a gym's own page for its network is no answer, whatever it says", async () => {
  answering(200, { welcome: true });
  assert.equal((await send([OP], 1)).kind, "later");
  answering(200, {}, { json: async () => JSON.parse("<html>") });
  await assert.rejects(send([OP], 1));
});

test("an answer that takes too long is given up, and the same operation goes again under its own id", async () => {
  const seen = [];
  globalThis.fetch = (_url, { body, signal }) => {
    seen.push(...JSON.parse(body).operations.map(({ id }) => id));
    // The first time the server does it, and its answer comes after everyone has left.
    if (seen.length === 1) return new Promise((_, fail) => signal.addEventListener("abort", () => fail(signal.reason)));
    return Promise.resolve({ status: 200, redirected: false, json: async () => ({ results: [{ id: "a", status: "replayed", result: {} }] }) });
  };
  const waits = [];
  const words = [];
  const store = new LocalStore(1, new Memory().keeper(1));
  const outbox = new Outbox({
    store,
    send: (ops) => send(ops, 1, 20),
    told: () => {},
    state: (word) => words.push(word),
    wait: (_ms, then) => waits.push(then),
  });
  // Node's own timeouts do not keep a process alive that has nothing else to do.
  const alive = setInterval(() => {}, 5);
  await outbox.add(OP);
  assert.equal(words.at(-1), "offline");
  await waits[0]();
  clearInterval(alive);
  assert.deepEqual(seen, ["a", "a"]);
  assert.deepEqual(store.waiting(), []);
});
