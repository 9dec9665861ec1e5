// Entries noted down in localStorage until the database has them: a write there is done when the call returns, so a page
// closed right after a tap loses nothing. Each call has a key of its own, since tabs share the place: one list for all
// would be read by two tabs and written back by both, and what one added would be gone.

const PREFIX = "sinewright.outbox.";

const place = () => globalThis.localStorage;
const keyOf = (person, rows) => `${PREFIX}${person}.${rows[0].op.id}`;

/** Note rows {op, refused} down; throws where the phone has no room or gives no leave. */
export function jot(person, rows) {
  if (rows.length) place()?.setItem(keyOf(person, rows), JSON.stringify(rows));
}

/** Strike out what the same rows noted down. */
export function strike(person, rows) {
  if (rows.length) place()?.removeItem(keyOf(person, rows));
}

/** Return what is noted down for one person, call by call, oldest first: [{rows, strike()}]. */
export function jotted(person) {
  const found = [];
  // Before there was a database, all entries of a person were kept in one list, under the bare name.
  const list = `${PREFIX}${person}`;
  for (const key of Object.keys(place() ?? {})) {
    if (key !== list && !key.startsWith(`${list}.`)) continue;
    const rows = read(place().getItem(key));
    if (rows?.length) found.push({ rows, strike: () => place().removeItem(key) });
  }
  return found.sort((a, b) => (a.rows[0].op.at < b.rows[0].op.at ? -1 : 1));
}

/** What cannot be read stays where it is, and holds up nothing else. */
function read(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
