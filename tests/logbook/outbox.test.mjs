// Run by test_outbox.py under Node: the policy of the outbox, with a store in memory and a server that is a function.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LocalStore } from "../../static/logbook/local.js";
import { operation, uuid } from "../../static/logbook/operation.js";
import { Outbox } from "../../static/logbook/outbox.js";

class Memory {
  items = new Map();
  getItem = (key) => this.items.get(key) ?? null;
  setItem = (key, value) => this.items.set(key, value);
}

function bench({ storage = new Memory(), person = 1, replies }) {
  const seen = { sent: [], told: [], states: [], waits: [] };
  const store = new LocalStore(person, storage);
  const outbox = new Outbox({
    store,
    send: async (ops) => {
      seen.sent.push(ops.map((op) => op.id));
      const reply = replies.shift();
      if (reply instanceof Error) throw reply;
      return typeof reply === "function" ? reply(ops) : reply;
    },
    told: (...answer) => seen.told.push(answer),
    state: (word) => seen.states.push(word),
    wait: (ms, then) => seen.waits.push({ ms, then }),
  });
  return { ...seen, store, outbox, replies };
}

const op = (id) => ({ id, kind: "set.record", at: "2024-05-15T16:00:00Z", data: {} });
const all = (status, more = {}) => (ops) => ({
  kind: "answers",
  results: ops.map(({ id }) => ({ id, status, ...more })),
});
const ids = (store) => store.waiting().map(({ id }) => id);

test("a saved operation leaves the phone, a replayed one too", async () => {
  const b = bench({ replies: [all("saved", { result: { won: true } }), all("replayed", { result: {} })] });
  await b.outbox.add(op("a"));
  await b.outbox.add(op("b"));
  assert.deepEqual(ids(b.store), []);
  assert.deepEqual(b.told.map(([id, status]) => [id, status]), [["a", "saved"], ["b", "saved"]]);
  assert.equal(b.states.at(-1), "idle");
});

test("operations go oldest first, fifty at once", async () => {
  const b = bench({ replies: [all("saved"), all("saved")] });
  b.store.add(...Array.from({ length: 60 }, (_, n) => op(String(n))));
  await b.outbox.flush();
  assert.deepEqual(b.sent.map((batch) => batch.length), [50, 10]);
  assert.equal(b.sent[0][0], "0");
});

test("a refused one is kept with its reason, and those after it still go", async () => {
  const problem = { code: "max_value", title: "No." };
  const replies = [
    (ops) => ({ kind: "answers", results: ops.map(({ id }) => (id === "a" ? { id, status: "refused", problem } : { id, status: "saved" })) }),
  ];
  const b = bench({ replies });
  b.store.add(op("a"), op("b"));
  await b.outbox.flush();
  assert.deepEqual(ids(b.store), []);
  assert.deepEqual(b.store.entries(), [{ op: op("a"), refused: problem }]);
});

for (const [name, reply, state] of [
  ["no connection", new TypeError("failed to fetch"), "offline"],
  ["a server that is busy", { kind: "later" }, "later"],
  ["a fault in one operation", all("retry"), "later"],
]) {
  test(`${name} keeps everything and tries again, each time later`, async () => {
    const b = bench({ replies: [reply, reply, all("saved")] });
    await b.outbox.add(op("a"));
    assert.deepEqual(ids(b.store), ["a"]);
    assert.equal(b.states.at(-1), state);
    await b.waits[0].then();
    assert.ok(b.waits[1].ms > b.waits[0].ms);
    await b.waits[1].then();
    assert.deepEqual(ids(b.store), []);
  });
}

test("a lapsed sign-in keeps everything and does not try by itself", async () => {
  const b = bench({ replies: [{ kind: "sign-in" }] });
  await b.outbox.add(op("a"));
  assert.deepEqual(ids(b.store), ["a"]);
  assert.equal(b.states.at(-1), "sign-in");
  assert.equal(b.waits.length, 0);
});

test("a batch that the server cannot read is parked, not lost and not sent for ever", async () => {
  const b = bench({ replies: [{ kind: "broken", problem: { title: "?" } }] });
  await b.outbox.add(op("a"), op("b"));
  assert.equal(b.store.entries().length, 2);
  assert.deepEqual(ids(b.store), []);
});

test("entries survive the page, and another person neither sees nor sends them", async () => {
  const storage = new Memory();
  const first = bench({ storage, replies: [new TypeError("offline")] });
  await first.outbox.add(op("a"));
  const other = bench({ storage, person: 2, replies: [] });
  await other.outbox.flush();
  assert.deepEqual(other.sent, []);
  const again = bench({ storage, replies: [all("saved")] });
  await again.outbox.flush();
  assert.deepEqual(again.sent, [["a"]]);
});

test("where the phone refuses storage the page itself keeps the entries", async () => {
  const refusing = { getItem: () => null, setItem: () => { throw new Error("quota"); } };
  const b = bench({ storage: refusing, replies: [new TypeError("offline"), all("saved")] });
  await b.outbox.add(op("a"));
  assert.equal(b.store.volatile, true);
  assert.deepEqual(ids(b.store), ["a"]);
  await b.waits[0].then();
  assert.deepEqual(b.sent.at(-1), ["a"]);
});

test("an operation added while another is on its way goes with the next round", async () => {
  let answer;
  const b = bench({ replies: [() => new Promise((resolve) => { answer = resolve; }), all("saved")] });
  const first = b.outbox.add(op("a"));
  await b.outbox.add(op("b"));
  answer({ kind: "answers", results: [{ id: "a", status: "saved" }] });
  await first;
  assert.deepEqual(b.sent, [["a"], ["b"]]);
});

test("ids are version 4, with and without the browser's own maker", () => {
  const form = /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
  assert.match(uuid(), form);
  const own = crypto.randomUUID;
  Object.defineProperty(crypto, "randomUUID", { value: undefined, configurable: true });
  assert.match(uuid(), form);
  Object.defineProperty(crypto, "randomUUID", { value: own, configurable: true });
  assert.equal(operation("set.delete", {}, new Date(0)).at, "1970-01-01T00:00:00.000Z");
});
