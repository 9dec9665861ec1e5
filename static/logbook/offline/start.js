// What every phone page does once it is open: own the phone, keep the pages, install the worker, hint at installing.

import { fact } from "./database.js";
import { hintAtInstalling } from "./install.js";
import { keepPages, ownPhone } from "./keep.js";
import { showChanges } from "./news.js";

/** `delivery` is the page's Delivery. Never throws: a phone without any of this still logs. */
export async function startPhone(delivery) {
  const { person } = delivery.store;
  delivery.listen();
  try {
    await ownPhone(person);
    await navigator.serviceWorker?.register("/sw.js", { type: "module", scope: "/" });
    await showChanges(person);
    hintAtInstalling();
    await keep(delivery);
  } catch (error) {
    console.warn(error);
  }
  addEventListener("pageshow", (event) => event.persisted && leaveToTheOwner(person));
  document.body.dataset.kept = "yes";
}

async function keep({ outbox, store }) {
  await outbox.flush();
  // After something was sent, the sets and suggestions on the kept pages are old.
  const sentAt = Math.max(0, ...store.sent().map(({ sent }) => sent.at));
  if (await keepPages(store.person, { sentAt })) await showChanges(store.person);
}

/** A page that the browser had put aside must not come back to someone else. */
async function leaveToTheOwner(person) {
  if ((await fact("person")) !== person) location.reload();
}
