// One request with a batch of operations.

const URL = "/api/v1/operations/";
const TIMEOUT_MS = 20_000;
const ANSWERED = new Set([200, 207, 422]);

/** The cookie is newer than the page where the person signed in again in another tab. */
function csrfToken() {
  const cookie = document.cookie.match(/(?:^|; )csrftoken=([^;]+)/);
  return cookie ? cookie[1] : document.querySelector("[name=csrfmiddlewaretoken]").value;
}

export async function send(operations) {
  const response = await fetch(URL, {
    method: "POST",
    credentials: "same-origin",
    headers: { "Content-Type": "application/json", "X-CSRFToken": csrfToken() },
    body: JSON.stringify({ operations }),
    signal: AbortSignal.timeout(TIMEOUT_MS),
  });
  // A redirect leads to the sign-in page, whose 200 would look like success.
  if (response.redirected || response.status === 401 || response.status === 403) return { kind: "sign-in" };
  if (response.status === 409 || response.status === 429 || response.status >= 500) return { kind: "later" };
  const body = await response.json();
  return ANSWERED.has(response.status) ? { kind: "answers", results: body.results } : { kind: "broken", problem: body };
}
