// The service worker: files of this release, kept pages when the network does not answer, and sending in the background.
// Only GET is ever answered from the phone.

import { dropFact, fact, setFact } from "./database.js";
import { Delivery, openStore, SYNC_TAG } from "./delivery.js";
import { cacheOf, filesOf, leavePhone } from "./keep.js";

// With a bad signal a request may hang for minutes: after this the page on the phone is shown.
const PATIENCE_MS = 3_000;
const HASHED = /\.[0-9a-f]{12}\.\w+$/;
const SIGN_OUT = "/account/logout/";
const SIGN_IN = "/account/login/";
const PHONE_PATHS = /^\/(train\/.*)?$/;

const late = (ms) => new Promise((_, fail) => setTimeout(() => fail(new Error("no answer")), ms));

export function startWorker(scope, { release, start, files, language }) {
  scope.addEventListener("install", (event) => {
    event.waitUntil(install({ release, start, files, language }).then(() => scope.skipWaiting()));
  });
  scope.addEventListener("activate", (event) => event.waitUntil(scope.clients.claim()));
  scope.addEventListener("sync", (event) => {
    if (event.tag === SYNC_TAG) event.waitUntil(sendInBackground());
  });
  scope.addEventListener("fetch", (event) => answer(event, scope.location.origin, start));
}

async function install({ release, start, files, language }) {
  const cache = await caches.open(filesOf(release));
  // Without a cookie, so that the page says nothing of whoever is signed in now; but in that person's language.
  const headers = { "Accept-Language": language };
  await cache.add(new Request(start, { credentials: "omit", cache: "no-cache", headers }));
  // A hashed name never changes its content; for the others the browser's own copy may be old.
  await cache.addAll(files.map((url) => new Request(url, { cache: HASHED.test(url) ? "default" : "no-cache" })));
  await setFact("installed", release);
}

function answer(event, origin, start) {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== origin) return;
  if (request.method !== "GET") {
    if (request.mode !== "navigate") return;
    if (url.pathname === SIGN_OUT) event.waitUntil(leavePhone());
    if (url.pathname === SIGN_IN) event.respondWith(signIn(request));
    return;
  }
  if (request.mode === "navigate") {
    if (PHONE_PATHS.test(url.pathname)) event.respondWith(page(request, url, start));
  } else if (url.pathname.startsWith("/static/") || url.pathname === "/jsi18n/") event.respondWith(file(request, url));
}

async function file(request, url) {
  const kept = () => caches.match(request, { ignoreSearch: true, ignoreVary: true });
  if (HASHED.test(url.pathname)) return (await kept()) ?? fetch(request);
  try {
    return await Promise.race([fetch(request), late(PATIENCE_MS)]);
  } catch (error) {
    return (await kept()) ?? Promise.reject(error);
  }
}

/** The network first, since a page may have changed; what the phone keeps when there is no answer, or only an error. */
async function page(request, url, start) {
  const asked = fetch(request);
  let reply = null;
  try {
    reply = await Promise.race([asked, late(PATIENCE_MS)]);
    if (reply.status < 500) return reply;
  } catch {
    // No connection, or none to speak of.
  }
  const kept = await keptPage(url);
  if (kept) return kept;
  try {
    return reply ?? (await asked);
  } catch {
    // The page varies with the language that it was asked in, and is kept in one.
    return (await caches.match(start, { ignoreVary: true })) ?? Response.error();
  }
}

/** Whoever signs in, the pages kept until now are shown again only when that person's own page asks for them. */
async function signIn(request) {
  const reply = await fetch(request);
  if (reply.type === "opaqueredirect") await dropFact("person");
  return reply;
}

async function keptPage(url) {
  const person = await fact("person");
  if (!person) return null;
  const cache = await caches.open(cacheOf(person));
  return cache.match(url.pathname);
}

/** With the page closed. What is left makes the browser try again later. */
async function sendInBackground() {
  const person = await fact("person");
  if (!person) return;
  const delivery = new Delivery(await openStore(person), { wait: () => {} });
  await delivery.flush();
  if (delivery.word === "offline" || delivery.word === "later") throw new Error("entries are still on this phone only");
}
