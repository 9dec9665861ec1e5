// The page "On this phone": the sessions that open without a connection, and the entries the server does not have.

import { fact, othersWaiting } from "./database.js";
import { Delivery, openStore } from "./delivery.js";
import { asFile, entryWords, momentWords } from "./entries.js";
import { keptPages } from "./keep.js";
import { startPhone } from "./start.js";
import { renderDelivery } from "../overview.js";
import { reasonOf } from "../rows.js";
import { fill, gettext, ngettext } from "../words.js";

const one = (selector) => document.querySelector(selector);
const template = (name) => one(`#${name}`).content.firstElementChild.cloneNode(true);

/** The calendar day here, as 2026-11-03. */
const today = (now = new Date()) => now.toLocaleDateString("sv");

async function showSessions(person) {
  const kept = person ? await keptPages(person) : [];
  const pages = kept.filter((page) => page.is_session);
  one("[data-kept-check-in]").hidden = pages.length === kept.length;
  const list = one("[data-kept-sessions]");
  list.replaceChildren();
  for (const page of pages) {
    const item = template("kept-session");
    const link = item.querySelector("a");
    link.href = page.urls[0];
    link.textContent = page.name || gettext("Unplanned session");
    const words = page.date === today() ? gettext("today") : page.day;
    item.querySelector("[data-day]").textContent = page.started ? `${words} · ${gettext("not finished")}` : words;
    if (page.date === today()) list.prepend(item);
    else list.append(item);
  }
  one("[data-no-session]").hidden = pages.length > 0;
}

function showEntries(store, delivery) {
  fillList("[data-waiting]", store.waiting().map((op) => ({ op })), () => template("waiting-entry"));
  fillList("[data-parked]", store.parked(), ({ op, refused }) => {
    const item = template("parked-entry");
    item.querySelector("[data-reason]").textContent = fill(gettext("Refused: %(reason)s"), { reason: reasonOf(refused) });
    item.querySelector("[data-again]").addEventListener("click", async () => {
      await store.unpark(op.id);
      await delivery.flush();
    });
    item.querySelector("[data-drop]").addEventListener("click", async () => {
      if (confirm(gettext("Remove this entry from the phone? It is not on the server."))) await store.remove(op.id);
      showEntries(store, delivery);
    });
    return item;
  });
  // What the server refused asks for a person; the rest goes by itself.
  if (store.parked().length) one("[data-sessions-head]").before(one("[data-entries-head]"), one("[data-entries]"));
  one("[data-send-now]").hidden = !store.waiting().length;
  one("[data-entries]").hidden = !store.entries().length;
  one("[data-nothing]").hidden = store.entries().length > 0;
}

function fillList(selector, rows, make) {
  const list = one(selector);
  list.hidden = !rows.length;
  list.querySelector("ul").replaceChildren(
    ...rows.map((row) => {
      const item = make(row);
      item.querySelector("[data-words]").textContent = entryWords(row.op);
      item.querySelector("[data-at]").textContent = momentWords(row.op.at);
      return item;
    }),
  );
}

function download(rows) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(asFile(rows));
  link.download = `sinewright-${today()}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

async function showOthers(person) {
  const count = await othersWaiting(person);
  const place = one("[data-others]");
  place.hidden = !count;
  const words = ngettext(
    "%(count)s entry of another person waits on this phone. It is sent when they sign in here.",
    "%(count)s entries of another person wait on this phone. They are sent when that person signs in here.",
    count,
  );
  place.textContent = fill(words, { count });
}

async function main() {
  // With a connection the server says who is signed in; the copy on the phone is the same for everyone, and there the
  // phone knows whose it is.
  const person = Number(one("meta[name=person]").content) || ((await fact("person")) ?? null);
  const words = one("[data-offline-words]");
  words.hidden = navigator.onLine && location.pathname === words.dataset.offlineWords;
  one("[data-nobody]").hidden = person !== null;
  await showSessions(person);
  await showOthers(person);
  if (person === null) return;
  const store = await openStore(person);
  const show = () => {
    renderDelivery(one("#delivery"), store, delivery.word ?? "idle");
    showEntries(store, delivery);
  };
  const delivery = new Delivery(store, { state: show, told: show, added: show });
  one("[data-send-now]").addEventListener("click", () => delivery.flush());
  one("[data-export]").addEventListener("click", () => download(store.entries()));
  show();
  globalThis.sinewright = { delivery };
  await startPhone(delivery);
  await showSessions(person);
}

await main();
document.body.dataset.ready = "yes";
