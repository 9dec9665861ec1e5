// One request with a batch of operations.

const URL = "/api/v1/operations/";
const TIMEOUT_MS = 20_000;
const ANSWERED = new Set([200, 207, 422]);

/** The cookie is newer than the page where the person signed in again in another tab. A worker has no document. */
async function csrfToken() {
  if (!globalThis.document) return (await globalThis.cookieStore?.get("csrftoken"))?.value ?? "";
  const cookie = document.cookie.match(/(?:^|; )csrftoken=([^;]+)/);
  return cookie ? cookie[1] : (document.querySelector("[name=csrfmiddlewaretoken]")?.value ?? "");
}

/** Send for `person`; the server refuses when somebody else is signed in by now. */
export async function send(operations, person, timeout = TIMEOUT_MS) {
  const response = await fetch(URL, {
    method: "POST",
    credentials: "same-origin",
    headers: { "Content-Type": "application/json", "X-CSRFToken": await csrfToken(), "X-Person": String(person) },
    body: JSON.stringify({ operations }),
    signal: AbortSignal.timeout(timeout),
  });
  // A redirect leads to the sign-in page, whose 200 would look like success.
  if (response.redirected || response.status === 401 || response.status === 403) return { kind: "sign-in" };
  if (response.status === 409 || response.status === 429 || response.status >= 500) return { kind: "later" };
  const body = await response.json();
  if (!ANSWERED.has(response.status)) return { kind: "broken", problem: body };
  // A gym's own sign-in page for its network may answer anything with 200.
  return Array.isArray(body.results) ? { kind: "answers", results: body.results } : { kind: "later" };
}
