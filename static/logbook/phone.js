// Every phone page but the session's: says what is on this phone only, sends it, and keeps the next pages.

import { Delivery, openStore } from "./offline/delivery.js";
import { startPhone } from "./offline/start.js";
import { renderDelivery } from "./overview.js";

const person = Number(document.querySelector("meta[name=person]")?.content);

if (person) {
  const store = await openStore(person);
  const show = () => renderDelivery(document.getElementById("delivery"), store, delivery.word ?? "idle");
  const delivery = new Delivery(store, { state: show, told: show, added: show });
  show();
  globalThis.sinewright = { delivery };
  await startPhone(delivery);
}
