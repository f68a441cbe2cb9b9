// @ts-check
/**
 * The one way out of the page: entries are queued here and sent in order. A later store keeps the queue on the device;
 * nothing above this module needs to know.
 */

/** @typedef {{id: string, status: 'applied'|'conflict'|'refused'|'waiting', code: string, args: any}} Result */
/** @typedef {'saving'|'failed'|'signed-out'} Trouble */

const device = (() => {
  const key = "tankround-device";
  const known = localStorage.getItem(key);
  if (known) {
    return known;
  }
  const made = uuid7();
  localStorage.setItem(key, made);
  return made;
})();

/** @type {{entry: any, resolve: (result: Result) => void, trouble: (kind: Trouble) => void}[]} */
const queue = [];
/** @type {((waiting: number) => void)[]} */
const listeners = [];
/** @type {Promise<void> | null} */
let sending = null;
/** @type {{headerName: string, token: string} | null} */
let csrf = null;

/** A UUID of version 7 (RFC 9562, section 5.7): milliseconds first, then chance. */
export function uuid7() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  let millis = Date.now();
  for (let i = 5; i >= 0; i--) {
    bytes[i] = millis % 256;
    millis = Math.floor(millis / 256);
  }
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** The time of this device with its offset from UTC. */
function deviceTime() {
  const now = new Date();
  const offset = -now.getTimezoneOffset();
  const local = new Date(now.getTime() + offset * 60000).toISOString().slice(0, 23);
  const size = Math.abs(offset);
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  return `${local}${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

function nextSequence() {
  const key = "tankround-sequence";
  const next = Number(localStorage.getItem(key) ?? "0") + 1;
  localStorage.setItem(key, String(next));
  return next;
}

/**
 * Queues an entry; the promise is kept when the server has answered, however long that takes.
 *
 * @param {string} kind
 * @param {string} subject
 * @param {any} body
 * @param {any} base what the field held before, or null
 * @param {(kind: Trouble) => void} trouble told what keeps the entry from being saved
 * @returns {Promise<Result>}
 */
export function enqueue(kind, subject, body, base, trouble) {
  const entry = { id: uuid7(), kind, subject, device, sequence: nextSequence(), deviceTime: deviceTime(), base, body };
  return new Promise((resolve) => {
    queue.push({ entry, resolve, trouble });
    changed();
    trouble("saving");
    void send();
  });
}

/** Sends what is queued; call it again after a failure. */
export function send() {
  sending ??= sendAll().finally(() => {
    sending = null;
  });
  return sending;
}

/** @param {(waiting: number) => void} listener told how many entries are not saved */
export function status(listener) {
  listeners.push(listener);
  listener(queue.length);
}

export function waiting() {
  return queue.length;
}

/**
 * Sends a photo under its id; safe to repeat.
 *
 * @param {string} id
 * @param {Blob} photo
 * @returns {Promise<{ok: boolean, words?: string, retry: boolean}>}
 */
export async function sendPhoto(id, photo) {
  try {
    const response = await request(`/api/photos/${id}`, "PUT", photo, photo.type || "application/octet-stream");
    if (response.ok) {
      return { ok: true, retry: false };
    }
    const problem = await response.json().catch(() => ({}));
    return { ok: false, words: problem.errors?.[0]?.message ?? problem.title, retry: response.status >= 500 };
  } catch {
    return { ok: false, retry: true };
  }
}

async function sendAll() {
  while (queue.length > 0) {
    const batch = queue.slice(0, 50);
    let response;
    try {
      const body = JSON.stringify({ entries: batch.map((item) => item.entry) });
      response = await request("/api/entries", "POST", body, "application/json");
      if (!response.ok) {
        throw new Error(String(response.status));
      }
      const { results } = await response.json();
      for (const [at, item] of batch.entries()) {
        queue.shift();
        item.resolve(results[at]);
      }
      changed();
    } catch {
      const signedOut = response !== undefined && (response.status === 401 || response.status === 403);
      csrf = null;
      batch.forEach((item) => item.trouble(signedOut ? "signed-out" : "failed"));
      return;
    }
  }
}

/**
 * @param {string} path
 * @param {string} method
 * @param {BodyInit} body
 * @param {string} type
 */
async function request(path, method, body, type) {
  const first = await attempt(path, method, body, type);
  if (first.status !== 403) {
    return first;
  }
  csrf = null;
  return attempt(path, method, body, type);
}

/**
 * @param {string} path
 * @param {string} method
 * @param {BodyInit} body
 * @param {string} type
 */
async function attempt(path, method, body, type) {
  if (csrf === null) {
    const session = await fetch("/api/session", { redirect: "error", signal: AbortSignal.timeout(20000) });
    if (!session.ok) {
      return session;
    }
    csrf = (await session.json()).csrf;
  }
  const token = /** @type {{headerName: string, token: string}} */ (csrf);
  return fetch(path, {
    method,
    body,
    headers: { "Content-Type": type, [token.headerName]: token.token },
    redirect: "error",
    signal: AbortSignal.timeout(60000),
  });
}

function changed() {
  listeners.forEach((listener) => listener(queue.length));
}
