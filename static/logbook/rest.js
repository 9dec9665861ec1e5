// A countdown between sets. It reads the clock each time, so a dark screen does not stop it, and it can be ignored.

import { clockWords, fill, gettext } from "./words.js";

export class Rest {
  /** `over(words)` is told once when a rest has run out: a clock is not read out. */
  constructor({ over = () => {}, now = () => Date.now() } = {}) {
    Object.assign(this, { over, now });
    this.until = null;
    this.tick = null;
  }

  /** Rest for `seconds` from a moment (milliseconds); nothing happens when that is over already. */
  start(seconds, from = this.now()) {
    this.until = from + seconds * 1000;
    this.length = seconds;
    clearInterval(this.tick);
    if (this.until <= this.now()) {
      this.until = null;
      return this.render();
    }
    this.tick = setInterval(() => this.render(), 500);
    return this.render();
  }

  stop() {
    clearInterval(this.tick);
    this.until = null;
    this.render();
  }

  render() {
    const left = this.until === null ? null : Math.ceil((this.until - this.now()) / 1000);
    for (const place of document.querySelectorAll("[data-rest]")) {
      place.hidden = left === null;
      if (left === null) continue;
      const clock = place.querySelector("[data-clock]");
      clock.textContent = fill(gettext("Rest %(left)s of %(whole)s"), {
        left: clockWords(Math.max(0, left)),
        whole: clockWords(this.length),
      });
    }
    if (left !== null && left <= 0) this.#over();
  }

  #over() {
    clearInterval(this.tick);
    this.until = null;
    navigator.vibrate?.(150);
    this.over(gettext("Rest is over."));
    for (const place of document.querySelectorAll("[data-rest]")) {
      place.hidden = false;
      place.querySelector("[data-clock]").textContent = gettext("Rest is over.");
    }
  }
}
