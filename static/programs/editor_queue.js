// Changes go out one at a time, each naming the version that the one before it made. Nothing leaves the queue until the
// server has answered for it.
const RETRY_MS = 3000;

export class Queue {
  constructor(page) {
    this.page = page;
    this.waiting = [];
    this.busy = false;
    this.stopped = false;
    window.addEventListener("beforeunload", (event) => {
      if ((this.waiting.length || document.querySelector("#editor [data-save][aria-invalid=true]")) && !this.dropped) event.preventDefault();
    });
    document.addEventListener("click", (event) => {
      if (event.target.closest("#editor-conflict a")) this.dropped = true;
    });
  }

  add(change) {
    this.waiting.push(change);
    this.run();
  }

  // Enter saves a field and leaves it, and leaving it saves it too: what waits already is not sent again.
  holds(change) {
    const last = this.waiting.filter((one) => one.field === change.field).at(-1);
    return last?.do === change.do && last.sent === change.sent;
  }

  // After a conflict: make the same change on the newer version, said as the server wants to hear it now.
  again(version, doing) {
    this.page.editor().dataset.version = version;
    // The page still shows the older version: bring all of it up to date with the answer.
    if (this.waiting[0]) {
      this.waiting[0].whole = true;
      if (doing) this.waiting[0].do = doing;
    }
    this.stopped = false;
    this.run();
  }

  async run() {
    if (this.busy || this.stopped) return;
    this.busy = true;
    while (this.waiting.length && !this.stopped) {
      this.page.status(gettext("Saving…"));
      await this.send(this.waiting[0]);
    }
    this.busy = false;
  }

  async send(change) {
    let reply;
    try {
      reply = await fetch(change.url || this.page.editor().dataset.change, {
        method: "POST",
        body: this.body(change),
        // The server answers with the part of the page that changed, as it does for htmx.
        headers: { "HX-Request": "true" },
        keepalive: true,
      });
    } catch {
      return this.later(gettext("Not saved yet: no connection. Trying again."));
    }
    if (reply.redirected || reply.status === 401 || reply.status === 403) {
      this.stopped = true;
      this.page.status(gettext("Not saved: you are signed out, or may not change this. Sign in in another window, then change something here."));
      window.addEventListener("focus", () => { this.stopped = false; this.run(); }, { once: true });
    } else if (reply.ok) {
      this.waiting.shift();
      this.page.onSaved(await reply.text(), change);
    } else if (reply.status === 409) {
      this.stopped = true;
      this.page.onConflict(await reply.text());
    } else if (reply.status === 422) {
      this.waiting.shift();
      await this.page.onRefused(await reply.json(), change);
    } else if (reply.status >= 500 || reply.status === 429) {
      await this.later(gettext("Not saved yet: the server did not answer properly. Trying again."));
    } else {
      this.waiting.shift();
      this.page.status(gettext("Not saved. Reload the page."));
    }
  }

  body(change) {
    const editor = this.page.editor();
    const body = new FormData();
    body.set("csrfmiddlewaretoken", editor.querySelector("[name=csrfmiddlewaretoken]").value);
    for (const [name, value] of Object.entries(change.fields || {})) body.set(name, value);
    if (change.do) body.set("do", change.do);
    body.set("base_version", editor.dataset.version);
    if (editor.dataset.trial) body.set("trial", editor.dataset.trial);
    body.set("week", editor.dataset.week);
    // Only numbers and words beside the fields will change: the server need not draw the rest.
    if (!change.whole) body.set("answer", "quiet");
    return body;
  }

  later(words) {
    this.page.status(words);
    return new Promise((resolve) => setTimeout(resolve, RETRY_MS));
  }
}
