// Putting the app on the home screen: hinted at once, then never again.

import { fact, setFact } from "./database.js";
import { gettext } from "../words.js";

const HINTED = "install-hinted";

/** Fill the hint on the page (`[data-install]`) when the browser offers it, or can only be told how. */
export function hintAtInstalling(place = document.querySelector("[data-install]")) {
  if (!place) return;
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    hint(place, event);
  });
  // Some phones have no event for it; there it is done by hand.
  if (navigator.standalone === false) hint(place, null);
}

async function hint(place, offer) {
  if (await fact(HINTED)) return;
  await setFact(HINTED, true);
  place.hidden = false;
  const button = place.querySelector("[data-install-now]");
  button.hidden = !offer;
  button.addEventListener("click", async () => {
    place.hidden = true;
    await offer.prompt();
  });
  place.querySelector("[data-install-no]").addEventListener("click", () => {
    place.hidden = true;
  });
  if (!offer) {
    place.querySelector("[data-install-how]").textContent = gettext(
      "Choose Share, then Add to Home Screen: the app then opens like any other, without a connection too.",
    );
  }
}
