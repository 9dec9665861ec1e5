// Writing without a mouse: Enter goes on to the next exercise, Alt+arrows move the one at the cursor, Ctrl+Z undoes,
// Escape brings back what was saved.
const TEXT = "input:not([type=checkbox], [type=radio]), textarea, select, [contenteditable]";

function moveOf(slot, key) {
  const { slot: name, day, index, before, after } = slot.dataset;
  const place = {
    ArrowUp: [day, Number(index) - 1],
    ArrowDown: [day, Number(index) + 1],
    ArrowLeft: [before, 99],
    ArrowRight: [after, 99],
  }[key];
  if (!place || !place[0] || place[1] < 0) return null;
  return `move-slot;slot=${name};day=${place[0]};index=${place[1]}`;
}

// What is proposed beside the days: Alt+R takes the first remedy from anywhere; a digit takes that one while the cursor is
// among them (so that no digit typed elsewhere changes a plan).
function remedyOf(event) {
  const buttons = [...document.querySelectorAll("#advice .remedy")];
  if (event.altKey && !event.ctrlKey && !event.metaKey && event.code === "KeyR") return buttons[0];
  if (event.altKey || event.ctrlKey || event.metaKey || !event.target.closest("#advice")) return null;
  return /^[1-9]$/.test(event.key) ? buttons[Number(event.key) - 1] : null;
}

export function wireKeys({ save, add, restore }) {
  document.addEventListener("keydown", (event) => {
    const at = event.target;
    if (!at.closest) return;
    if (event.key === "Enter" && at.matches("#editor [data-save]")) {
      event.preventDefault();
      save(at);
      if (at.matches(".line")) at.closest(".day").querySelector("[data-find^='day=']").focus();
      return;
    }
    if (event.key === "Escape" && at.matches("#editor [data-save]:not(select)")) {
      restore(at);
      return;
    }
    const remedy = remedyOf(event);
    if (remedy) {
      event.preventDefault();
      if (at.matches("#editor [data-save]")) save(at);
      remedy.closest("details")?.setAttribute("open", "");
      remedy.click();
      return;
    }
    const slot = at.closest("#editor .slot");
    if (event.altKey && !event.ctrlKey && !event.metaKey && slot && event.key.startsWith("Arrow")) {
      event.preventDefault();
      if (at.matches("[data-save]")) save(at);
      const move = moveOf(slot, event.key);
      // The cursor stays with the exercise that moves.
      if (move) add({ do: move, whole: true, focus: at.id || `text-${slot.dataset.slot}` });
      return;
    }
    if ((event.ctrlKey || event.metaKey) && !event.altKey && !at.matches(TEXT)) {
      const key = event.key.toLowerCase();
      const step = key === "y" || (key === "z" && event.shiftKey) ? "redo" : key === "z" ? "undo" : "";
      if (!step) return;
      event.preventDefault();
      if (!document.getElementById(step).disabled) add({ do: step, whole: true });
    }
  });
}
