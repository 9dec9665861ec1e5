// After a form was refused, the cursor stands in the first field that has to be changed: on a long page its words may lie
// far below the fold, and a keyboard would have to walk there through the whole head.

const REFUSED = 422;

// A browser that does not tell the answer's status: a page whose fields are wrong was most likely a refused one.
const status = performance.getEntriesByType("navigation")[0]?.responseStatus || REFUSED;

function wrong() {
  for (const field of document.querySelectorAll("main [aria-invalid=true]:not([type=hidden], :disabled)")) {
    for (let fold = field.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
    if (field.checkVisibility?.() ?? true) return field;
  }
  return null;
}

if (status === REFUSED) wrong()?.focus();
