/** Say whether a letter is text where the focus is. */
export function typing(event) {
  if (event.altKey || event.ctrlKey || event.metaKey) return true;
  return Boolean(event.target.closest("input:not([type=checkbox]), select, textarea, [contenteditable]"));
}
