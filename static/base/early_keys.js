// Runs before the page is drawn. A page can be read, and answered with a key, before its scripts are there to listen: such
// a key is held until they are, and pressed again then. Enter, Tab, Space and arrows do what they do on any page.

(() => {
  // A script that has come late finds nobody waiting any more.
  const PATIENCE_MS = 8_000;
  const TEXT = "input:not([type=checkbox], [type=radio]), select, textarea, [contenteditable]";
  const held = [];

  function hold(event) {
    if (event.ctrlKey || event.metaKey || event.repeat || !/^\S$/.test(event.key)) return;
    if (event.target.matches?.(TEXT)) return;
    const { key, code, altKey, shiftKey } = event;
    held.push({ at: event.timeStamp, press: { key, code, altKey, shiftKey, bubbles: true, cancelable: true } });
  }

  document.addEventListener("keydown", hold, true);
  // Deferred scripts and modules have all run by this event.
  document.addEventListener("DOMContentLoaded", () => {
    document.removeEventListener("keydown", hold, true);
    for (const { at, press } of held) {
      if (performance.now() - at > PATIENCE_MS) continue;
      (document.activeElement ?? document.body).dispatchEvent(new KeyboardEvent("keydown", press));
    }
  });
})();
