// @ts-check
/**
 * What the device keeps by itself: entries with their photos until the server has them and a while longer, what is being
 * typed, and the days that were fetched. Nothing here is ever thrown away by an update of the program.
 */
import { openDB } from "/js/lib/idb/index.js";
import { uuid7 } from "./ids.js";

/**
 * @typedef {{sequence: number, person: string, key: string | null, name: string, entry: any, photo: string | null, at: number,
 *   state: 'waiting' | 'answered', tried: boolean, result: any, answeredAt: number | null,
 *   givenUp?: {entry: any, code: string, args: any}}} Item
 *   key is the field of the visit that the entry fills; tried says whether the server may have it; givenUp is what is said
 *   of an entry that can never arrive, and is sent in its place
 * @typedef {{id: string, content: ArrayBuffer, type: string, at: number, arrived: boolean}} Photo
 * @typedef {{place: string, person: string, date: string, bundle: any, words: Record<string, string>, at: number}} Day
 */

/** A server that was put back to the backup of yesterday, or of last week, gets again what it had. */
const KEPT_MS = 14 * 24 * 3600 * 1000;

/** Told in every tab of this device whenever an entry was kept, or what became of one, and with "day" whenever a day was. */
export const NEWS = "tankround-kept";
const news = new BroadcastChannel(NEWS);

/** As safe as the device can: a battery may be taken out after this. */
const STRICT = /** @type {{durability: "strict"}} */ ({ durability: "strict" });

const opened = openDB("tankround", 1, {
  upgrade(database) {
    database.createObjectStore("facts");
    const outbox = database.createObjectStore("outbox", { keyPath: "sequence" });
    outbox.createIndex("subject", "entry.subject");
    outbox.createIndex("state", "state");
    database.createObjectStore("photos", { keyPath: "id" });
    database.createObjectStore("typed");
    database.createObjectStore("days", { keyPath: "place" });
  },
  // Another tab has a newer program and waits for this one.
  async blocking() {
    (await opened).close();
  },
});

/** Who this device is, and since when it has kept anything. @returns {Promise<{id: string, since: number}>} */
export async function device() {
  const transaction = (await opened).transaction("facts", "readwrite", STRICT);
  let known = await transaction.store.get("device");
  if (known === undefined) {
    known = { id: uuid7(), since: Date.now() };
    await transaction.store.put(known, "device");
  }
  await transaction.done;
  return known;
}

/** @param {string} name */
export async function fact(name) {
  return (await opened).get("facts", name);
}

/**
 * @param {string} name
 * @param {any} value
 */
export async function setFact(name, value) {
  await (await opened).put("facts", value, name);
}

/**
 * Keeps an entry, with its photo, in one transaction. What was typed into its field is part of the entry from then on,
 * but for what is still open.
 *
 * @param {Omit<Item, "sequence" | "entry" | "at" | "state" | "tried" | "result" | "answeredAt"> & {entry: any}} draft
 * @param {Photo | null} photo
 * @param {any} open what is to be an entry of the same field next, and is not complete; null for nothing
 * @returns {Promise<Item>} once it is safe
 * @throws if the device cannot keep it; then nothing is kept
 */
export async function keep(draft, photo, open) {
  const transaction = (await opened).transaction(["facts", "outbox", "photos", "typed"], "readwrite", STRICT);
  const facts = transaction.objectStore("facts");
  const sequence = ((await facts.get("sequence")) ?? 0) + 1;
  /** @type {Item} */
  const item = { ...draft, entry: { ...draft.entry, sequence }, sequence, at: Date.now(), state: "waiting", tried: false, result: null, answeredAt: null };
  const typed = transaction.objectStore("typed");
  try {
    await Promise.all([
      facts.put(sequence, "sequence"),
      transaction.objectStore("outbox").put(item),
      photo === null ? null : transaction.objectStore("photos").put(photo),
      draft.key === null ? null : typed.delete(typedFrom(draft.person, draft.entry.subject, draft.key)),
      draft.key === null || open === null ? null : typed.put({ value: open, at: item.at }, [draft.person, draft.entry.subject, draft.key, ""]),
      transaction.done,
    ]);
  } catch (failure) {
    // What was asked for before it failed is not kept by itself.
    transaction.done.catch(() => {});
    try {
      transaction.abort();
    } catch {
      // It is over already.
    }
    throw failure;
  }
  news.postMessage(null);
  return item;
}

/** What waits to be sent, of everybody, oldest first. @returns {Promise<Item[]>} */
export async function waiting() {
  return (await opened).getAllFromIndex("outbox", "state", "waiting");
}

/** All that was entered here about a visit, oldest first. @param {string} subject @returns {Promise<Item[]>} */
export async function about(subject) {
  return (await opened).getAllFromIndex("outbox", "subject", subject);
}

/** Somebody has seen a refusal and wants no more of it. @param {number} sequence */
export async function dismiss(sequence) {
  const transaction = (await opened).transaction("outbox", "readwrite", STRICT);
  const known = await transaction.store.get(sequence);
  if (known?.result) {
    await transaction.store.put({ ...known, result: { ...known.result, dismissed: true } });
  }
  await transaction.done;
}

/** The first sequence that can be sent again. @returns {Promise<number>} */
export async function first() {
  const transaction = (await opened).transaction(["facts", "outbox"]);
  const [oldest] = await transaction.objectStore("outbox").getAllKeys(null, 1);
  return /** @type {number | undefined} */ (oldest) ?? ((await transaction.objectStore("facts").get("sequence")) ?? 0) + 1;
}

/**
 * Whether something that was entered here is not in a day that the server gave, and stands all the same.
 *
 * @param {Item} item
 * @param {any} bundle of the day
 */
export function isSince(item, bundle) {
  return item.state === "waiting" || (item.result.status === "applied" && item.sequence > (bundle.heldUpTo ?? 0));
}

/** Everything from a number on. @param {number} sequence @returns {Promise<Item[]>} */
export async function from(sequence) {
  return (await opened).getAll("outbox", IDBKeyRange.lowerBound(sequence));
}

/** @param {Item[]} items */
export async function change(items) {
  const transaction = (await opened).transaction("outbox", "readwrite", STRICT);
  await Promise.all([...items.map((each) => transaction.store.put(each)), transaction.done]);
  news.postMessage(null);
}

/** @param {string} id @returns {Promise<Photo | undefined>} */
export async function photo(id) {
  return (await opened).get("photos", id);
}

/** The ids under which small pictures of earlier photos stand among the photos. */
const SMALL = "small/";

/** An earlier photo, as it was taken along. @param {string} id @returns {Promise<Photo | undefined>} */
export async function smallPhoto(id) {
  return photo(SMALL + id);
}

/**
 * @param {string} id of the photo that it is a small picture of
 * @param {ArrayBuffer} content
 */
export async function keepSmallPhoto(id, content) {
  await (await opened).put("photos", { id: SMALL + id, content, type: "image/jpeg", at: Date.now(), arrived: true });
}

/**
 * @param {string} id
 * @param {boolean} arrived whether the server has it
 */
export async function photoArrived(id, arrived) {
  const transaction = (await opened).transaction("photos", "readwrite", STRICT);
  const kept = await transaction.store.get(id);
  if (kept !== undefined) {
    await transaction.store.put({ ...kept, arrived });
  }
  await transaction.done;
}

/**
 * What is being typed, kept as often as somebody stops for a moment.
 *
 * @param {string} person
 * @param {string} visit
 * @param {string} field
 * @param {string} part
 * @param {any} value text of an input; under the part "" an entry that is not complete
 */
export async function typing(person, visit, field, part, value) {
  await (await opened).put("typed", { value, at: Date.now() }, [person, visit, field, part]);
}

/**
 * @param {string} person
 * @param {string} visit
 * @returns {Promise<{field: string, part: string, value: any}[]>}
 */
export async function typed(person, visit) {
  const store = (await opened).transaction("typed").store;
  const range = IDBKeyRange.bound([person, visit], [person, visit, []]);
  const [keys, values] = await Promise.all([store.getAllKeys(range), store.getAll(range)]);
  return keys.map((key, at) => {
    const [, , field, part] = /** @type {string[]} */ (key);
    return { field, part, value: values[at].value };
  });
}

/**
 * @param {string} person
 * @param {string} visit
 * @param {string} field
 */
export async function untyped(person, visit, field) {
  await (await opened).delete("typed", typedFrom(person, visit, field));
}

/**
 * @param {string} person
 * @param {string} visit
 * @param {string} field
 */
function typedFrom(person, visit, field) {
  return IDBKeyRange.bound([person, visit, field], [person, visit, field, []]);
}

/**
 * A sample that is shaken or stands until its colour can be read.
 *
 * @typedef {{id: string, person: string, visit: string, key: string, name: string, at: number, shake: number, wait: number,
 *   within: number, readAt: number | null}} KitTimer
 *   at is when it was begun, and shake, wait and within are seconds; within 0 is where nothing presses; readAt is when it was
 *   read, where that was too early or too late
 */

/** @param {KitTimer} timer */
export async function keepTimer(timer) {
  const transaction = (await opened).transaction("facts", "readwrite", STRICT);
  await Promise.all([transaction.store.put(timer, ["timer", timer.id]), transaction.done]);
}

/** @returns {Promise<KitTimer[]>} of everybody, in the order in which they were begun */
export async function timers() {
  return (await opened).getAll("facts", IDBKeyRange.bound(["timer"], ["timer", []]));
}

/** @param {string} id */
export async function forgetTimer(id) {
  await (await opened).delete("facts", ["timer", id]);
}

/** @param {Day} day */
export async function keepDay(day) {
  await (await opened).put("days", day);
  news.postMessage("day");
}

/** The days of a person, what was fetched last first. @param {string} person @returns {Promise<Day[]>} */
export async function days(person) {
  const all = await (await opened).getAll("days", IDBKeyRange.bound(`${person}/`, `${person}/\uffff`));
  return all.sort((one, other) => other.at - one.at);
}

/**
 * Whether a visit is known here, to whomever.
 *
 * @param {string} visit
 */
export async function isOfAnother(visit) {
  const all = /** @type {Day[]} */ (await (await opened).getAll("days"));
  return all.some(({ bundle }) => [...bundle.visits, ...bundle.rounds.flatMap((/** @type {any} */ round) => round.stops)].some((/** @type {any} */ each) => each.id === visit));
}

/** Whoever signs out takes the days along, with how to get in everywhere; what was entered stays until it is sent. */
export async function forgetDays() {
  const transaction = (await opened).transaction(["days", "facts", "photos"], "readwrite");
  const small = IDBKeyRange.bound(SMALL, `${SMALL}\uffff`);
  await Promise.all([transaction.objectStore("days").clear(), transaction.objectStore("photos").delete(small), transaction.objectStore("facts").delete("person"), transaction.done]);
}

/**
 * Forgets what the server has had for two weeks, and of days gone by how to get in.
 *
 * @returns {Promise<boolean>} whether it forgot how to get in somewhere
 */
export async function tidy() {
  const database = await opened;
  const transaction = database.transaction(["outbox", "photos", "days", "typed"], "readwrite");
  const until = Date.now() - KEPT_MS;
  const needed = new Set();
  let closed = false;
  for (let cursor = await transaction.objectStore("outbox").openCursor(); cursor; cursor = await cursor.continue()) {
    if (cursor.value.answeredAt !== null && cursor.value.answeredAt < until) {
      await cursor.delete();
    } else if (cursor.value.photo) {
      needed.add(cursor.value.photo);
    }
  }
  for (let cursor = await transaction.objectStore("photos").openCursor(); cursor; cursor = await cursor.continue()) {
    if (!needed.has(cursor.value.id) && cursor.value.at < until) {
      await cursor.delete();
    }
  }
  for (let cursor = await transaction.objectStore("days").openCursor(); cursor; cursor = await cursor.continue()) {
    const { at, date, bundle } = cursor.value;
    if (at < until) {
      await cursor.delete();
    } else if (date < todayAsKnownBy(cursor.value) && bundle.sites.some((/** @type {any} */ site) => site.access !== undefined)) {
      bundle.sites.forEach((/** @type {any} */ site) => delete site.access);
      await cursor.update(cursor.value);
      closed = true;
    }
  }
  for (let cursor = await transaction.objectStore("typed").openCursor(); cursor; cursor = await cursor.continue()) {
    if (cursor.value.at < until) {
      await cursor.delete();
    }
  }
  await transaction.done;
  return closed;
}

/**
 * The day where the business is, by the server's clock as it was last heard: this device's may be days wrong.
 *
 * @param {number} [before] so many milliseconds ago
 */
export async function today(before = 0) {
  const clock = await fact("clock");
  return new Date(Date.now() - (clock?.ahead ?? 0) - before).toLocaleDateString("sv", { timeZone: clock?.zone });
}

/** By the server's clock when it gave that day: this device's may be hours wrong. @param {Day} day */
function todayAsKnownBy({ at, bundle }) {
  return new Date(Date.now() - (at - Date.parse(bundle.madeAt))).toLocaleDateString("sv");
}

/**
 * Everything that is kept here and not sent.
 *
 * @param {string} person
 * @returns {Promise<{program: string, person: string, items: {entry: any}[], photos: any[]}>}
 */
export async function unsent(person) {
  const items = (await waiting()).filter((each) => each.person === person);
  const photos = [];
  for (const id of items.flatMap((each) => (each.photo ? [each.photo] : []))) {
    const kept = await photo(id);
    if (kept) {
      photos.push(await asText(kept));
    }
  }
  return { program: "tankround", person, items, photos };
}

/** A photo as a file of text can hold it. @param {Photo} photo */
export async function asText({ id, type, at, content }) {
  return { id, type, at, content: await encoded(content) };
}

/** @param {ArrayBuffer} content @returns {Promise<string>} in Base64 */
function encoded(content) {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).slice(String(reader.result).indexOf(",") + 1));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(new Blob([content]));
  });
}
