/* Propose the browser's own time zone while the person has not chosen one. Without JavaScript they choose it. */
const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
for (const select of document.querySelectorAll("select[data-propose-zone]")) {
  const offered = [...select.options].some((option) => option.value === zone);
  // A form that comes back with errors keeps what was sent, so only the first showing is touched.
  if (offered && !select.querySelector("option[selected]")) select.value = zone;
}
