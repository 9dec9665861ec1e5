// The session page: shows each set at once, sends it behind the scenes, and says in words where it is.

import { Acts } from "./acts.js";
import { renderSummary } from "./compare.js";
import { HalfTyped } from "./half_typed.js";
import { nextEntry, nextStep } from "./next.js";
import { Delivery, openStore } from "./offline/delivery.js";
import { momentWords } from "./offline/entries.js";
import { startPhone } from "./offline/start.js";
import { operation, uuid } from "./operation.js";
import { renderDelivery, renderOverview } from "./overview.js";
import { Panel } from "./panel.js";
import { Rest } from "./rest.js";
import { mountEntries } from "./mount.js";
import { told } from "./rows.js";
import { Sheet } from "./sheet.js";
import { fill, gettext } from "./words.js";

// A page opened earlier than this before its first set was read on the way to the gym.
const OPENED_BEFORE_MS = 30 * 60_000;
// Nobody does a set in this time: a second tap on the button is the same thumb still trembling.
const SAME_TAP_MS = 300;

class App {
  constructor(data, store) {
    this.sheet = new Sheet(data);
    this.openedAt = Date.now();
    this.delivery = "idle";
    this.heard = new Map();
    this.loggedAt = -Infinity;
    this.touched = false; // anything but the button, since the last set was logged
    this.rest = new Rest({ over: (words) => this.announce(words) });
    this.halfTyped = new HalfTyped(store.person, data.session.id);
    this.store = store;
    this.outbox = new Delivery(store, {
      told: (...answer) => this.#told(...answer),
      state: (word) => this.#delivered(word),
      kept: (ops) => this.#kept(ops),
      added: (ops) => this.#addedElsewhere(ops),
    });
    // A page kept on the phone may be older than what the server has taken since.
    for (const row of [...store.rows]) this.sheet.overlay(row);
    this.#bringInAsked();
    mountEntries(this.sheet);
    this.doneUrl = document.querySelector("[data-finish-form]")?.dataset.doneUrl;
    this.panels = new Map(
      [...document.querySelectorAll("[data-key]")].map((section) => [section.dataset.key, new Panel(section, this)]),
    );
    this.current = document.querySelector("[data-key]:not([hidden])")?.dataset.key ?? null;
    this.acts = new Acts(this);
    document.addEventListener("click", (event) => this.#go(event));
    document.addEventListener("input", () => (this.touched = true));
    document.getElementById("finish").addEventListener("toggle", () => this.#proposeMinutes());
    addEventListener("beforeunload", (event) => this.#leaving(event));
    if (this.current) this.acts.show(this.sheet.entry(this.current));
    this.#sayKept();
    if (this.asked) this.show(this.asked);
    this.#render();
    this.#resumeRest();
    this.outbox.flush();
    document.body.dataset.ready = "yes";
  }

  /** Queue one operation about this session, with the session's beginning before it if need be. */
  write(kind, data, heard) {
    const ops = [];
    const { session } = this.sheet;
    const about = kind === "bodymass.record" || kind === "set.edit" || kind === "set.delete" ? {} : { session: session.id };
    if (!session.started_at && about.session) {
      const started = { session: session.id, planned: session.planned, started_at: this.#beginning() };
      ops.push(operation("session.start", started));
      this.#begun(started);
    }
    const op = operation(kind, { ...about, ...data });
    ops.push(op);
    for (const one of ops) this.sheet.apply(one);
    if (heard) this.heard.set(op.id, heard);
    this.outbox.add(...ops).catch(console.error);
    return op;
  }

  log(panel, values) {
    const { entry } = panel;
    if (!this.touched && performance.now() - this.loggedAt < SAME_TAP_MS) return;
    this.loggedAt = performance.now();
    this.touched = false;
    const before = nextStep(entry);
    this.write("set.record", {
      set: uuid(),
      exercise: entry.exercise.id,
      slot: entry.slot,
      ...values,
    });
    const next = values.warm_up ? entry.key : this.#follows(entry);
    panel.render({ next: true });
    this.#rest(entry, values, before, next);
    if (next !== entry.key) this.show(next, { begin: true });
    this.#render(panel);
  }

  /** A pair alternates by itself; from a finished exercise the person moves on. */
  #follows(entry) {
    const next = nextEntry(this.sheet.entries, entry.key);
    const partner = next && entry.pair && this.sheet.entry(next).pair[0] === entry.pair[0];
    return partner ? next : entry.key;
  }

  edit(panel, row, values) {
    const { side, warm_up: warmUp, ...rest } = values;
    if (!row.saved && row.op?.problem) {
      // It never reached the server: the mended set is recorded under its own id. The refused one goes only after that,
      // so that a phone that dies in between still has one of them.
      const refused = row.op.id;
      const { exercise, slot } = panel.entry;
      const data = { set: row.id, exercise: exercise.id, slot, number: row.number, side, warm_up: warmUp, ...rest };
      this.write("set.record", data);
      this.store.remove(refused);
    } else this.write("set.edit", { set: row.id, side, warm_up: warmUp, ...rest });
    panel.finishEdit(row);
    this.#render();
  }

  remove(panel, row) {
    if (!row.saved && row.op?.problem) {
      this.store.remove(row.op.id);
      this.sheet.drop(row.id);
    } else this.write("set.delete", { set: row.id });
    panel.finishEdit(row);
    this.#render();
  }

  skipped(slot) {
    const entry = this.sheet.ofSlot(slot);
    this.acts.show(entry);
    this.panels.get(entry.key).render({ next: true });
    this.#render();
    if (!entry.skip?.skipped) this.backToExercise();
  }

  /** Where an act below is over and its form has closed: the exercise is what the person goes on with. */
  backToExercise() {
    document.querySelector(".exercise:not([hidden]) h2")?.focus({ preventScroll: true });
    scrollTo({ top: 0 });
  }

  /** Go on with a substitute; its panel waits in a template, so that it is there without a connection. */
  swapped(key) {
    this.sheet.bringIn(key);
    this.#mount();
    this.show(key, { begin: true });
  }

  #mount() {
    for (const section of mountEntries(this.sheet)) this.panels.set(section.dataset.key, new Panel(section, this));
  }

  /** After a reload the address still says which substitute was chosen. */
  #bringInAsked() {
    const asked = new URLSearchParams(location.search).get("at");
    if (asked && this.sheet.bringIn(asked)) this.asked = asked;
  }

  /** Show one exercise and hide the others; what is half typed in them stays. */
  show(key, { begin = false } = {}) {
    if (key === "finish") return this.#openFinish();
    this.current = key;
    for (const [name, panel] of this.panels) panel.section.hidden = name !== key;
    const panel = this.panels.get(key);
    panel.render({ next: begin });
    this.acts.show(panel.entry);
    history.replaceState(null, "", `?at=${key}`);
    const heading = panel.section.querySelector("h2");
    heading.focus({ preventScroll: true });
    scrollTo({ top: 0 });
    this.#render();
    return undefined;
  }

  /** Tell the ear what the eye sees in the rows and on the clock: one line, written only when something is new. */
  announce(text) {
    document.querySelector("[data-said]").textContent = text;
  }

  say(text, className) {
    const list = document.createElement("ul");
    list.className = "messages";
    const item = document.createElement("li");
    item.className = className;
    item.textContent = text;
    list.append(item);
    document.getElementById("messages").replaceChildren(list);
  }

  /** A copy from the phone says so, and when it was made. */
  #sayKept() {
    const { kept } = document.documentElement.dataset;
    const place = document.querySelector("[data-kept-words]");
    place.hidden = !kept;
    if (kept) place.textContent = fill(gettext("Shown from this phone, as of %(when)s."), { when: momentWords(kept) });
  }

  #openFinish() {
    const fold = document.getElementById("finish");
    fold.open = true;
    fold.scrollIntoView();
    fold.querySelector("summary").focus({ preventScroll: true });
  }

  #proposeMinutes() {
    const minutes = document.getElementById("finish-minutes");
    if (minutes && !minutes.value) minutes.value = this.#minutes() ?? "";
  }

  /** From the beginning to the last set, up to the next five minutes (logbook/wording.py). */
  #minutes() {
    const sets = this.sheet.entries.flatMap((entry) => entry.sets);
    if (!sets.length) return null;
    const last = Math.max(...sets.map((row) => Date.parse(row.performed_at)));
    const minutes = (last - Date.parse(this.sheet.session.started_at)) / 60_000;
    return minutes <= 0 || minutes > 600 ? null : Math.max(5, Math.ceil(minutes / 5) * 5);
  }

  #go(event) {
    if (!event.target.closest("[data-log]")) this.touched = true;
    if (event.target.closest("[data-rest-stop]")) this.rest.stop();
    const link = event.target.closest("[data-go]");
    if (!link) return;
    if (["summary", "today"].includes(link.dataset.go)) return;
    event.preventDefault();
    this.show(link.dataset.go);
  }

  /** When it was done is asked with the first set; one that is done today has its rests. */
  #begun({ started_at: startedAt }) {
    if (startedAt !== this.sheet.session.then) this.sheet.session.then = null;
    for (const asked of document.querySelectorAll("[data-when]")) asked.hidden = true;
  }

  #beginning() {
    const { then } = this.sheet.session;
    if (then && document.querySelector("[name=when][value=then]:checked")) return then;
    const opened = Date.now() - this.openedAt <= OPENED_BEFORE_MS ? this.openedAt : Date.now();
    return new Date(opened).toISOString();
  }

  /** Rest follows a whole set: not the first of two sides, nor the first of a pair in its round. */
  #rest(entry, values, before, next) {
    const seconds = entry.prescription?.rest_s;
    if (!seconds || values.warm_up || this.sheet.session.then) return;
    if (nextStep(entry).number === before.number) return;
    if (next !== entry.key && nextStep(this.sheet.entry(next)).number < nextStep(entry).number) return;
    this.rest.start(seconds);
  }

  #resumeRest() {
    if (this.sheet.session.finished_at) return;
    const rows = this.sheet.entries.flatMap((entry) => entry.sets.map((row) => ({ row, entry })));
    const latest = rows.filter(({ row }) => !row.warm_up && !row.deleted);
    latest.sort((a, b) => Date.parse(b.row.performed_at) - Date.parse(a.row.performed_at));
    const seconds = latest[0]?.entry.prescription?.rest_s;
    if (seconds) this.rest.start(seconds, Date.parse(latest[0].row.performed_at));
  }

  #told(id, status, detail) {
    const key = this.sheet.settle(id, status, detail);
    if (key) this.panels.get(key)?.render();
    // Of many that were waiting only the last is named.
    if (key && id === this.sheet.lastOf) this.announce(told(this.sheet.entry(key), this.sheet.owners.get(id), this.delivery));
    this.heard.get(id)?.(status, detail);
    this.heard.delete(id);
    this.#render();
  }

  #kept(ops) {
    for (const op of ops) this.panels.get(this.sheet.kept(op.id))?.render();
  }

  #addedElsewhere(ops) {
    for (const op of ops) this.sheet.overlay({ op, refused: null, sent: null });
    this.#mount();
    this.#render();
  }

  #delivered(word) {
    this.delivery = word;
    this.acts?.delivered(word);
    this.#render();
  }

  /** Draw what is in view, but for the panel that was `drawn` already; a hidden one is drawn when it is shown. */
  #render(drawn = null) {
    renderOverview(this.sheet, this.current);
    renderDelivery(document.getElementById("delivery"), this.store, this.delivery);
    const panel = this.panels?.get(this.current);
    if (panel && panel !== drawn) panel.render();
    this.rest.render();
    renderSummary(document.querySelector("[data-summary]"), this.sheet);
  }

  /** Only where the phone could not keep the entries would leaving lose them. */
  #leaving(event) {
    if (!this.left && this.store.volatile && this.store.waiting().length) event.preventDefault();
  }
}

const data = document.getElementById("session-data");
if (data) {
  const content = JSON.parse(data.textContent);
  const app = new App(content, await openStore(content.person));
  globalThis.sinewright = { app, gettext };
  startPhone(app.outbox);
}
