// @ts-check
/**
 * The one way out of a page: an entry is kept on the device first, and sent when the server can be reached. Several tabs
 * send one after the other; an entry that is sent twice has one effect, since it bears its id.
 */
import { deviceTime, uuid7 } from "./ids.js";
import * as kept from "./kept.js";

/** @typedef {{id: string, sequence: number, status: 'applied'|'conflict'|'refused'|'waiting', code: string, args: any}} Result */
/**
 * What became of an entry so far: on its way to the device's own store, safe there, not safe since the device takes no
 * more, or safe and not sent since the server cannot be reached, the sign-in has ended or the office has barred the device.
 *
 * @typedef {'saving'|'kept'|'full'|'failed'|'signed-out'|'barred'} Progress
 */

/** @typedef {{count: number, oldest: number | null, trouble: Progress | null}} Waiting */

const MOST_AT_ONCE = 50;
const RETRY_MS = 15_000;
/** How long an answer of the server is waited for where this device knows nothing, and where it knows something. */
const LONGEST_MS = 20_000;
const PATIENCE_MS = 4_000;
const LOCK = "tankround-outbox";

/** @type {Map<number, {resolve: (result: Result) => void, progress: (step: Progress, item?: kept.Item) => void}>} */
const asked = new Map();
/** @type {((waiting: Waiting) => void)[]} */
const listeners = [];
/** @type {Promise<void> | null} */
let sending = null;
let again = false;
/** @type {Progress | null} */
let trouble = null;
/** What the device had no room for, the last of each field: it stands on this page only. @type {Map<string, {person: string, entry: any, photo: kept.Photo | null}>} */
const notKept = new Map();
/** Where the server was behind when all that followed was sent again. */
let sentAgainAfter = -1;
/** @type {{user: string, name: string, role: string, navigation: {href: string, label: string}[], csrf: {headerName: string, token: string}} | null} */
let session = null;
/** Whether the server has said that nobody is signed in on this device. */
let isSignedOut = false;
const others = new BroadcastChannel("tankround-outbox");

others.addEventListener("message", ({ data }) => {
  answer(data);
  void changed();
});

/**
 * Keeps an entry on the device and has it sent.
 *
 * @param {string} kind
 * @param {string} subject
 * @param {any} body
 * @param {any} base what the field held before, or null
 * @param {(step: Progress, item?: kept.Item) => void} progress told how far it is, with the entry once it is kept
 * @param {{key?: string, name?: string, photo?: kept.Photo, open?: any, id?: string}} [more] key of the field that it fills,
 *   what a person calls it, the photo that it speaks of, what is entered there already and not complete, and the entry's id
 * @returns {Promise<Result>} once the server has answered, however long that takes; never where the device is full
 */
export function enqueue(kind, subject, body, base, progress, more = {}) {
  progress("saving");
  return new Promise((resolve) => {
    void (async () => {
      const entry = { id: more.id ?? uuid7(), kind, subject, device: (await kept.device()).id, ...(more.key && { field: more.key }), deviceTime: deviceTime(), base, body };
      const person = await who();
      const place = `${person}/${subject}/${more.key ?? entry.id}`;
      /** @type {kept.Item} */
      let item;
      try {
        item = await kept.keep({ person, key: more.key ?? null, name: more.name ?? "", entry, photo: more.photo?.id ?? null }, more.photo ?? null, more.open ?? null);
      } catch {
        notKept.set(place, { person, entry, photo: more.photo ?? null });
        progress("full");
        return;
      }
      notKept.delete(place);
      asked.set(item.sequence, { resolve, progress });
      // First that it waits, then that it is safe: nobody is told in between that everything is sent.
      await changed();
      progress("kept", item);
      void send();
    })();
  });
}

/**
 * Waits for the answer to what an earlier page kept.
 *
 * @param {kept.Item} item
 * @param {(step: Progress) => void} progress
 * @returns {Promise<Result>}
 */
export function awaited(item, progress) {
  return new Promise((resolve) => {
    asked.set(item.sequence, { resolve, progress });
    if (trouble !== null) {
      progress(trouble);
    }
  });
}

/** Sends what waits; safe to call at any time. */
export function send() {
  again = true;
  sending ??= (async () => {
    try {
      while (again) {
        again = false;
        await navigator.locks.request(LOCK, () => sendAll());
      }
    } finally {
      // At once, so that whoever asks next is not taken for one that was still seen.
      sending = null;
    }
  })();
  return sending;
}

/** @param {(waiting: Waiting) => void} listener told what waits */
export function status(listener) {
  listeners.push(listener);
  void changed();
}

/** Who is signed in, by the server where it can be reached, else by what it said last. @returns {Promise<string>} */
export async function who() {
  if (session === null) {
    const known = await kept.fact("person");
    if (known !== undefined) {
      return known.user;
    }
    await signedIn();
  }
  return session?.user ?? "";
}

/** Whether nobody is signed in here, as far as the server has said anything. */
export function signedOutHere() {
  return isSignedOut;
}

/** Other pages of the program; none where it cannot be reached. */
export function places() {
  return session?.navigation ?? [];
}

/**
 * Asks the server who is signed in.
 *
 * @returns {Promise<{user: string, name: string, role: string} | null>} null where nobody is; what it said last where it
 *   cannot be reached
 */
export async function signedIn() {
  let response;
  try {
    // Whoever this device knows does not stand before an empty page for long where a bad signal lets nothing through.
    const patience = (await kept.fact("person")) === undefined ? LONGEST_MS : PATIENCE_MS;
    response = await fetch("/api/session", { redirect: "error", signal: AbortSignal.timeout(patience) });
  } catch {
    return (await kept.fact("person")) ?? null;
  }
  isSignedOut = response.status === 401 || response.status === 403;
  if (!response.ok) {
    session = null;
    return isSignedOut ? null : ((await kept.fact("person")) ?? null);
  }
  const said = await response.json().catch(() => null);
  if (said === null || typeof said.user !== "string") {
    return (await kept.fact("person")) ?? null;
  }
  session = said;
  await kept.setFact("person", { user: said.user, name: said.name, role: said.role });
  await kept.setFact("clock", { ahead: Date.now() - Date.parse(said.now), zone: said.zone });
  return said;
}

/**
 * What the server holds from this device, as it says with each answer. Where it is less than it said before, it was put
 * back to an earlier day: then it gets again what it lost.
 *
 * @param {number} heldUpTo the sequence up to which it holds all
 */
export async function holds(heldUpTo) {
  const lost = [];
  for (const item of await kept.from(heldUpTo + 1)) {
    if (item.state === "answered") {
      lost.push(item);
    } else if (lost.length === 0) {
      // It has not been sent yet, such as by somebody else on this device.
      break;
    }
  }
  // What it takes no second time either does not go round and round.
  if (lost.length > 0 && heldUpTo !== sentAgainAfter) {
    sentAgainAfter = heldUpTo;
    await Promise.all(lost.flatMap((item) => (item.photo === null ? [] : [kept.photoArrived(item.photo, false)])));
    await kept.change(lost.map((item) => ({ ...item, state: "waiting", answeredAt: null })));
    await changed();
    void send();
  }
}

/**
 * Everything that is not sent, with what this page holds and the device had no room for, as a file that any device of this
 * person can give to the server.
 *
 * @param {string} person
 */
export async function unsent(person) {
  const file = await kept.unsent(person);
  for (const { entry, photo } of [...notKept.values()].filter((each) => each.person === person)) {
    // It has no place among what the device keeps, which is counted from 1 on.
    file.items.push({ entry: { ...entry, sequence: 0 } });
    if (photo) {
      file.photos.push(await kept.asText(photo));
    }
  }
  return file;
}

/**
 * Gives the server what a device had saved as a file; what it has already it answers as before.
 *
 * @param {string} text of the file
 * @param {string} person who gives it; nobody sends in another's name
 * @returns {Promise<{taken: number, refused: number, trouble: 'unreadable' | 'of-another' | 'failed' | null}>}
 */
export async function giveBack(text, person) {
  /** @type {{program: string, person: string, items: kept.Item[], photos: {id: string, type: string, at: number, content: string}[]}} */
  let file;
  try {
    file = JSON.parse(text);
  } catch {
    return { taken: 0, refused: 0, trouble: "unreadable" };
  }
  if (file?.program !== "tankround" || !Array.isArray(file.items) || !Array.isArray(file.photos)) {
    return { taken: 0, refused: 0, trouble: "unreadable" };
  }
  if (file.person !== person) {
    return { taken: 0, refused: 0, trouble: "of-another" };
  }
  let taken = 0;
  let refused = 0;
  try {
    for (const { id, type, at, content } of file.photos) {
      await sendPhoto({ id, type, at, content: Uint8Array.from(atob(content), (byte) => byte.charCodeAt(0)).buffer, arrived: false });
    }
    for (const item of file.items) {
      const response = await request("/api/entries", "POST", JSON.stringify({ entries: [outgoing(item)] }), "application/json");
      if (!response.ok) {
        throw new Refused(response.status);
      }
      const [result] = (await response.json()).results;
      result.status === "refused" ? refused++ : taken++;
    }
  } catch {
    return { taken, refused, trouble: "failed" };
  }
  return { taken, refused, trouble: null };
}

/** Ends the sign-in, here and at the server. @returns {Promise<boolean>} whether it could */
export async function signOut() {
  try {
    // What follows is another page's business.
    const response = await request("/sign-out", "POST", "", "application/x-www-form-urlencoded", "manual");
    if (response.type !== "opaqueredirect" && !response.ok) {
      return false;
    }
  } catch {
    return false;
  }
  session = null;
  await kept.forgetDays();
  location.assign("/sign-in");
  return true;
}

/**
 * Sends a photo under its id; safe to repeat.
 *
 * @param {kept.Photo} photo
 * @returns {Promise<'arrived' | 'later' | {code: string, words: string}>}
 */
async function sendPhoto(photo) {
  const response = await request(`/api/photos/${photo.id}`, "PUT", photo.content, photo.type || "application/octet-stream");
  if (response.ok) {
    await kept.photoArrived(photo.id, true);
    return "arrived";
  }
  if (response.status >= 500 || response.status === 401 || response.status === 403) {
    throw new Refused(response.status);
  }
  const problem = await response.json().catch(() => ({}));
  return { code: problem.errors?.[0]?.code ?? problem.type ?? "", words: problem.errors?.[0]?.message ?? problem.title ?? "" };
}

class Refused extends Error {
  /** @param {number} status */
  constructor(status) {
    super(String(status));
    this.status = status;
  }
}

/** The office has said that this device is lost. */
export class Barred extends Error {}

/** Whatever a device knew of how to get in anywhere, a barred one forgets. @param {Response} answer @throws {Barred} if it is */
export async function refuseIfBarred(answer) {
  if (answer.status === 403 && (await answer.clone().json().catch(() => null))?.type === "/problems/device-barred") {
    await kept.forgetDays();
    throw new Barred();
  }
}

async function sendAll() {
  const person = await who();
  let most = MOST_AT_ONCE;
  try {
    for (;;) {
      const batch = inOneGo((await kept.waiting()).filter((item) => item.person === person), most);
      if (batch.length === 0) {
        trouble = null;
        return;
      }
      const ready = [];
      for (const item of batch) {
        const failure = await photoOf(item);
        ready.push(failure === null ? item : await giveUp(item, failure.code, { field: "photo", words: failure.words }));
      }
      // From here on the server may have them: they stay as they are.
      await kept.change(ready.map((item) => ({ ...item, tried: true })));
      const body = JSON.stringify({ device: (await kept.device()).id, sentAt: deviceTime(), first: await kept.first(), waiting: (await kept.waiting()).length - ready.length, entries: ready.map(outgoing) });
      const response = await request("/api/entries", "POST", body, "application/json");
      if (response.status === 400 || response.status === 413) {
        // One that cannot be read keeps no other waiting.
        if (ready.length > 1) {
          most = 1;
          continue;
        }
        const problem = await response.json().catch(() => ({}));
        if (ready[0].givenUp) {
          throw new Refused(response.status);
        }
        await giveUp(ready[0], "tablet.malformed", { field: problem.errors?.[0]?.field ?? "", words: problem.errors?.[0]?.message ?? problem.title ?? "" });
        continue;
      }
      if (!response.ok) {
        throw new Refused(response.status);
      }
      const { results, heldUpTo } = await response.json();
      if (!Array.isArray(results) || results.length !== ready.length || results.some((result, at) => result.id !== outgoing(ready[at]).id)) {
        throw new Refused(response.status);
      }
      await answered(ready, results);
      most = MOST_AT_ONCE;
      trouble = null;
      if (typeof heldUpTo === "number") {
        await holds(heldUpTo);
      }
    }
  } catch (failure) {
    const signedOut = failure instanceof Refused && (failure.status === 401 || failure.status === 403);
    session = null;
    trouble = failure instanceof Barred ? "barred" : signedOut ? "signed-out" : "failed";
    asked.forEach(({ progress }) => progress(/** @type {Progress} */ (trouble)));
  } finally {
    await changed();
  }
}

/**
 * One entry of each field: what comes after it may have to wait for what is said of it.
 *
 * @param {kept.Item[]} items
 * @param {number} most
 */
function inOneGo(items, most) {
  const fields = new Set();
  const batch = [];
  for (const item of items) {
    const field = item.key === null ? null : `${item.entry.subject}/${item.key}`;
    if (batch.length === most || (field !== null && fields.has(field))) {
      break;
    }
    fields.add(field);
    batch.push(item);
  }
  return batch;
}

/** @param {kept.Item} item */
function outgoing(item) {
  return item.givenUp?.entry ?? item.entry;
}

/**
 * Something is sent in the place of an entry that can never arrive, so that the server misses nothing.
 *
 * @param {kept.Item} item
 * @param {string} code
 * @param {any} args
 * @returns {Promise<kept.Item>}
 */
async function giveUp(item, code, args) {
  const { kind, body: _, base: __, ...same } = item.entry;
  const entry = { ...same, id: uuid7(), kind: "tablet.given-up", deviceTime: deviceTime(), base: null, body: { kind, words: args.words } };
  const givenUp = { ...item, givenUp: { entry, code, args } };
  await kept.change([givenUp]);
  return givenUp;
}

/** @param {kept.Item} item @returns {Promise<{code: string, words: string} | null>} null once its photo has arrived */
async function photoOf(item) {
  const photo = item.photo === null || item.givenUp ? undefined : await kept.photo(item.photo);
  if (photo === undefined || photo.arrived) {
    return null;
  }
  const sent = await sendPhoto(photo);
  return typeof sent === "string" ? null : sent;
}

/**
 * @param {kept.Item[]} items
 * @param {Omit<Result, "sequence">[]} results
 */
async function answered(items, results) {
  /** @type {(kept.Item & {result: Omit<Result, "sequence">})[]} */
  const done = [];
  for (const [at, item] of items.entries()) {
    if (results[at].code === "tablet.malformed" && !item.givenUp) {
      await giveUp(item, results[at].code, results[at].args);
    } else {
      const result = item.givenUp ? { id: item.entry.id, status: /** @type {const} */ ("refused"), code: item.givenUp.code, args: item.givenUp.args } : results[at];
      done.push({ ...item, tried: true, state: /** @type {const} */ ("answered"), result, answeredAt: Date.now() });
    }
  }
  // What was entered after something that was refused stands on what stood before it.
  const refused = done.filter((item) => item.result.status === "refused" && item.key !== null);
  const later = (await kept.waiting())
    .filter((item) => !item.tried)
    .flatMap((item) => {
      const before = refused.find((each) => each.key === item.key && each.entry.subject === item.entry.subject && each.sequence < item.sequence);
      return before ? [{ ...item, entry: { ...item.entry, base: before.entry.base } }] : [];
    });
  await kept.change([...done, ...later]);
  for (const { result, sequence } of done) {
    others.postMessage({ ...result, sequence });
    answer({ ...result, sequence });
  }
  await changed();
}

/** @param {Result} result */
function answer(result) {
  asked.get(result.sequence)?.resolve(result);
  asked.delete(result.sequence);
}

/**
 * @param {string} path
 * @param {string} method
 * @param {BodyInit} body
 * @param {string} type
 * @param {RequestRedirect} [redirect] an answer from elsewhere, such as a hotel's sign-in page, is none
 */
async function request(path, method, body, type, redirect = "error") {
  const first = await attempt(path, method, body, type, redirect);
  await refuseIfBarred(first);
  if (first.status !== 403) {
    return first;
  }
  session = null;
  return attempt(path, method, body, type, redirect);
}

/**
 * @param {string} path
 * @param {string} method
 * @param {BodyInit} body
 * @param {string} type
 * @param {RequestRedirect} redirect
 */
async function attempt(path, method, body, type, redirect) {
  if (session === null) {
    const before = await kept.fact("person");
    const now = await signedIn();
    // What one person entered is not sent in another's name.
    if (session === null || (before !== undefined && now?.user !== before.user)) {
      throw new Refused(now === null ? 401 : 0);
    }
  }
  const { headerName, token } = /** @type {{csrf: {headerName: string, token: string}}} */ (session).csrf;
  return fetch(path, {
    method,
    body,
    headers: { "Content-Type": type, [headerName]: token },
    redirect,
    signal: AbortSignal.timeout(60000),
  });
}

async function changed() {
  const person = await who();
  const waiting = (await kept.waiting()).filter((item) => item.person === person);
  const state = { count: waiting.length, oldest: waiting[0]?.at ?? null, trouble: waiting.length === 0 ? null : trouble };
  listeners.forEach((listener) => listener(state));
}

addEventListener("online", () => void send());
document.addEventListener("visibilitychange", () => {
  if (document.visibilityState === "visible") {
    void send();
  }
});
setInterval(() => void send(), RETRY_MS);
