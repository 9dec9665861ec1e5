// Keeps the pages of the next 14 days' sessions on the phone, for the person who is signed in and nobody else.

import { dropFact, fact, setFact } from "./database.js";
import { planChanges } from "./changes.js";

const LIST = "/train/phone/pages/";
const FRESH_MS = 10 * 60_000;
const PAGES = "pages-";
const FILES = "files-";

export const cacheOf = (person) => `${PAGES}${person}`;
export const filesOf = (release) => `${FILES}${release}`;
const keptOf = (person) => `kept-${person}`;
const changesOf = (person) => `changes-${person}`;

export const keptPages = async (person) => (await fact(keptOf(person)))?.pages ?? [];
export const changesFor = async (person) => (await fact(changesOf(person))) ?? [];
export const setChanges = (person, changes) => setFact(changesOf(person), changes);

/** Make `person` the one whose pages this phone shows; the pages of anyone else go. Entries of others stay, unread. */
export async function ownPhone(person) {
  await setFact("person", person);
  await dropPages((name) => name !== cacheOf(person));
}

/** Someone signed out: no page stays to be read by the next one. */
export async function leavePhone() {
  await dropFact("person");
  await dropPages(() => true);
}

async function dropPages(which) {
  for (const name of (await globalThis.caches?.keys()) ?? []) {
    if (!name.startsWith(PAGES) || !which(name)) continue;
    await caches.delete(name);
    await dropFact(keptOf(name.slice(PAGES.length)));
    await dropFact(changesOf(name.slice(PAGES.length)));
  }
}

/**
 * Fetch what changed since it was kept, but not every minute: unless something was sent (`sentAt`, milliseconds) after
 * that. Throws without a connection; returns whether the pages are as the server has them.
 */
export async function keepPages(person, { sentAt = 0, now = Date.now() } = {}) {
  if (!globalThis.caches) return false;
  const before = await fact(keptOf(person));
  if (before && now - before.at < FRESH_MS && sentAt < before.at) return false;
  const response = await fetch(LIST, { headers: { Accept: "application/json" } });
  if (!response.ok || response.redirected) return false;
  const list = await response.json();
  // The cookie may be another person's by now, while this page is still the first one's.
  if (list.person !== person) return false;
  const cache = await caches.open(cacheOf(person));
  const known = new Map((before?.pages ?? []).map((page) => [page.session, page]));
  const changes = [];
  for (const page of list.pages) {
    const old = known.get(page.session);
    if (old?.version === page.version && (await cache.match(page.urls[0]))) continue;
    const said = await keepOne(cache, page, person);
    if (said === null) return false;
    if (old && said.length) changes.push({ session: page.session, day: page.day, name: page.name, said });
  }
  changes.push(...(await dropGone(cache, known, list)));
  await setFact(keptOf(person), { at: now, pages: list.pages });
  if (changes.length) await noteChanges(person, changes);
  await dropOldFiles(list.release);
  return true;
}

/** Keep one page under each of its addresses; return what its plan says differently than the copy before. */
async function keepOne(cache, page, person) {
  const response = await fetch(page.urls[0], { headers: { "X-Keep": "1" } });
  const text = await response.text();
  if (!response.ok || !text.includes(`name="person" content="${person}"`)) return null;
  const before = await (await cache.match(page.urls[0]))?.text();
  const headers = {
    "Content-Type": response.headers.get("Content-Type"),
    "Content-Security-Policy": response.headers.get("Content-Security-Policy") ?? "",
  };
  // Only the copy carries the mark, so that a page knows where it came from.
  const marked = text.replace("<html ", `<html data-kept="${new Date().toISOString()}" `);
  for (const url of page.urls) await cache.put(url, new Response(marked, { headers }));
  return before && page.is_session ? planChanges(dataOf(before), dataOf(text)) : [];
}

const dataOf = (html) =>
  JSON.parse(new DOMParser().parseFromString(html, "text/html").getElementById("session-data").textContent);

async function dropGone(cache, known, list) {
  const gone = [...known.values()].filter((page) => !list.pages.some((one) => one.session === page.session));
  for (const page of gone) for (const url of page.urls) await cache.delete(url);
  return gone
    .filter((page) => page.is_session && !page.started && page.date >= list.from)
    .map((page) => ({ session: page.session, day: page.day, name: page.name, said: [{ kind: "gone" }] }));
}

async function noteChanges(person, changes) {
  const old = (await changesFor(person)).filter((one) => !changes.some((change) => change.session === one.session));
  await setChanges(person, [...old, ...changes].slice(-20));
}

/** Kept pages name the files of their release: the old files go when every page is of the new one. */
async function dropOldFiles(release) {
  if ((await fact("installed")) !== release) return;
  for (const name of await caches.keys()) {
    if (name.startsWith(FILES) && name !== filesOf(release)) await caches.delete(name);
  }
}
