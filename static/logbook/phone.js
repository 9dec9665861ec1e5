// Every phone page but the session's: says what is on this phone only, sends it, and keeps the next pages.

import { Delivery, openStore } from "./offline/delivery.js";
import { startPhone } from "./offline/start.js";
import { renderDelivery } from "./overview.js";

const person = Number(document.querySelector("meta[name=person]")?.content);

async function open() {
  const store = await openStore(person);
  const heard = new Map();
  const delivery = new Delivery(store, {
    state: (word) => {
      show();
      for (const listen of heard.values()) listen(word);
    },
    told: (id, status, detail) => {
      show();
      heard.get(id)?.(status, detail);
      heard.delete(id);
    },
    added: () => show(),
  });
  const show = () => renderDelivery(document.getElementById("delivery"), store, delivery.word ?? "idle");
  show();
  globalThis.sinewright = { delivery };
  startPhone(delivery);
  return { delivery, heard };
}

/** The page's delivery, and by operation who hears of its answer and of the outbox's state; null for a stranger. */
export const opened = person ? await open() : null;
