// The policy of the outbox, with a store in memory and a server that is a function.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LocalStore } from "../../static/logbook/local.js";
import { operation, uuid } from "../../static/logbook/operation.js";
import { Outbox } from "../../static/logbook/outbox.js";
import { Memory } from "./memory.mjs";

function bench({ storage = new Memory(), person = 1, replies }) {
  const seen = { sent: [], told: [], states: [], waits: [] };
  const store = new LocalStore(person, storage.keeper(person));
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
  await b.store.add(...Array.from({ length: 60 }, (_, n) => op(String(n))));
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
  await b.store.add(op("a"), op("b"));
  await b.outbox.flush();
  assert.deepEqual(ids(b.store), []);
  assert.deepEqual(b.store.parked(), [{ op: op("a"), refused: problem, sent: null }]);
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
  const refusing = new Memory();
  refusing.failing = true;
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
  while (!answer) await new Promise((resolve) => setTimeout(resolve));
  await b.outbox.add(op("b"));
  answer({ kind: "answers", results: [{ id: "a", status: "saved" }] });
  await first;
  assert.deepEqual(b.sent, [["a"], ["b"]]);
});

test("an operation is written on the phone before it is sent", async () => {
  const storage = new Memory();
  let written;
  const b = bench({ storage, replies: [(ops) => { written = storage.rows.get(1).length; return all("saved")(ops); }] });
  await b.outbox.add(op("a"));
  assert.equal(written, 1);
});

test("what another tab added goes too, and what it sent does not go again", async () => {
  const storage = new Memory();
  const one = bench({ storage, replies: [new TypeError("offline")] });
  await one.outbox.add(op("a"));
  const two = bench({ storage, replies: [all("saved")] });
  await two.outbox.add(op("b"));
  assert.deepEqual(two.sent, [["a", "b"]]);
  await one.waits[0].then();
  assert.deepEqual(one.sent, [["a"]]);
  assert.deepEqual(ids(one.store), []);
});

test("an entry added while the list is being read is not forgotten", async () => {
  const storage = new Memory();
  const b = bench({ storage, replies: [] });
  const reading = b.store.refresh();
  b.store.add(op("a"));
  await reading;
  assert.deepEqual(ids(b.store), ["a"]);
});

test("a refused one can be sent again, or removed", async () => {
  const problem = { code: "max_value", title: "No." };
  const b = bench({ replies: [all("refused", { problem }), all("saved")] });
  await b.outbox.add(op("a"));
  await b.store.unpark("a");
  await b.outbox.flush();
  assert.deepEqual(b.store.entries(), []);
  const c = bench({ replies: [all("refused", { problem })] });
  await c.outbox.add(op("a"));
  await c.store.remove("a");
  assert.deepEqual(c.store.rows, []);
});

test("many failures leave one timer running, not many", async () => {
  const b = bench({ replies: Array(5).fill(new TypeError("offline")) });
  await b.outbox.add(op("a"));
  for (let n = 0; n < 4; n += 1) await b.outbox.flush();
  assert.equal(b.waits.length, 1);
});

test("what was sent is remembered for three weeks, what was not for ever", async () => {
  const storage = new Memory();
  const b = bench({ storage, replies: [all("saved"), new TypeError("offline")] });
  await b.outbox.add(op("a"));
  await b.outbox.add(op("b"));
  const soon = await new LocalStore(1, storage.keeper(1)).open();
  assert.deepEqual(soon.sent().map((row) => row.op.id), ["a"]);
  const year = await new LocalStore(1, storage.keeper(1), () => Date.now() + 365 * 86_400_000).open();
  assert.deepEqual(year.rows.map((row) => row.op.id), ["b"]);
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
