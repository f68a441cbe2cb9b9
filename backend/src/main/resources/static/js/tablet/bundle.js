// @ts-check
/** What the page shows: the day's bundle and the words, fetched here and nowhere else, and kept for when there is no signal. */
import { Drafts } from "./drafts.js";
import * as kept from "./kept.js";
import { takeAlong } from "./lasttime.js";
import { byThisClock, enteredHere } from "./running.js";
import { Barred, holds, refuseIfBarred, signedIn } from "./store.js";
import { timeOf } from "./times.js";

/** With a day at hand nobody waits longer than this for a newer one. */
const PATIENCE_MS = 1500;
const LONGEST_MS = 30_000;

/**
 * @param {string} path
 */
async function json(path) {
  const response = await fetch(path, { redirect: "error", signal: AbortSignal.timeout(LONGEST_MS) });
  await refuseIfBarred(response);
  if (!response.ok) {
    throw new Error(`${path}: ${response.status}`);
  }
  return response.json();
}

/** The words of the page, where nothing else is to be had. */
export async function wordsAlone() {
  return spoken(await json("/api/words/tablet"));
}

/** @param {Record<string, string>} words @returns {(key: string, ...args: any[]) => string} */
export function spoken(words) {
  return (key, ...args) => (words[key] ?? key).replace(/\{(\d)\}/g, (/** @type {string} */ _, /** @type {string} */ n) => String(args[Number(n)] ?? ""));
}

/**
 * Fetches a day and keeps it.
 *
 * @param {string} person
 * @param {string} date
 * @param {{technician?: string, visit?: string}} more the day of somebody else, or a visit that comes along whosever it is
 * @returns {Promise<kept.Day>}
 */
async function fetched(person, date, more) {
  const device = (await kept.device()).id;
  const query = new URLSearchParams({ device, first: String(await kept.first()), waiting: String((await kept.waiting()).length), ...more });
  const [bundle, words] = await Promise.all([json(`/api/bundles/${date}?${query}`), json("/api/words/tablet")]);
  const day = { place: `${person}/${date}/${more.technician ?? more.visit ?? ""}`, person, date, bundle, words, at: Date.now() };
  // A full device still shows what was fetched.
  await kept.keepDay(day).catch(() => {});
  void takeAlong(bundle).catch(() => {});
  if (typeof bundle.heldUpTo === "number") {
    void holds(bundle.heldUpTo);
  }
  return day;
}

/**
 * Today, or another day of one's own, as new as can be had without waiting long.
 *
 * @param {string} [date]
 * @returns {Promise<Found | null>} null where there is none, here or at the server
 * @throws {Barred}
 */
export async function loadDay(date) {
  // Whoever says who is signed in says what time it is too.
  const person = (await signedIn())?.user ?? "";
  const wanted = date ?? (await kept.today());
  const known = (await kept.days(person)).find((day) => day.place === `${person}/${wanted}/`);
  return newest(known, () => fetched(person, wanted, {}));
}

/**
 * What this device knows without asking anybody: the newest day that has something in it.
 *
 * @param {(bundle: any) => boolean} has
 * @returns {Promise<kept.Day | null>}
 */
export async function dayWith(has) {
  const person = (await kept.fact("person"))?.user;
  return person === undefined ? null : ((await kept.days(person)).find((day) => has(day.bundle)) ?? null);
}

/**
 * @typedef {{day: kept.Day, fresh: boolean, later: Promise<kept.Day | null>}} Found later is the day of a server that took its
 *   time, null where none comes
 * @param {kept.Day | undefined} known
 * @param {() => Promise<kept.Day>} fetchIt
 * @returns {Promise<Found | null>}
 */
async function newest(known, fetchIt) {
  const fetching = fetchIt().catch((failure) => {
    if (failure instanceof Barred) {
      throw failure;
    }
    return null;
  });
  // What comes later is kept all the same, for the next time.
  const fresh = await (known === undefined ? fetching : Promise.race([fetching, new Promise((resolve) => setTimeout(resolve, PATIENCE_MS, null))]));
  if (fresh !== null) {
    return { day: fresh, fresh: true, later: Promise.resolve(null) };
  }
  return known === undefined ? null : { day: known, fresh: false, later: fetching };
}

/**
 * The visit with everything about it that this device knows, whether or not the server can be reached.
 *
 * @param {string} visitId
 * @returns {Promise<Loaded | null>}
 *
 * @typedef {{bundle: any, words: (key: string, ...args: any[]) => string, visit: any, stop: any, round: any, site: any, due: any[],
 *   systems: any[], person: string, drafts: Drafts, at: number, fresh: boolean, started: boolean}} Loaded
 */
export async function loadVisit(visitId) {
  const own = await signedIn();
  const person = own?.user ?? "";
  const known = (await kept.days(person)).find((day) => stopOf(day.bundle, visitId) || day.bundle.visits.some((/** @type {any} */ each) => each.id === visitId));
  const found = await newest(known, async () => {
    const { date, technician } = known === undefined ? await json(`/api/visits/${visitId}/day`) : { date: known.date, technician: known.bundle.technician.id };
    return fetched(person, date, { visit: visitId, ...(own?.role === "TECHNICIAN" || !technician ? {} : { technician }) });
  });
  return found === null ? null : put(visitId, person, found.day, found.fresh);
}

/**
 * @param {any} bundle
 * @param {string} visitId that a visit of a round has from its stop
 */
function stopOf(bundle, visitId) {
  for (const round of bundle.rounds) {
    const stop = round.stops.find((/** @type {any} */ each) => each.id === visitId);
    if (stop) {
      return { round, stop };
    }
  }
  return null;
}

/**
 * What the server said, with what was entered here since.
 *
 * @param {string} visitId
 * @param {string} person
 * @param {kept.Day} day
 * @param {boolean} fresh
 * @returns {Promise<Loaded | null>}
 */
async function put(visitId, person, day, fresh) {
  const bundle = structuredClone(day.bundle);
  const at = stopOf(bundle, visitId);
  const known = bundle.visits.find((/** @type {any} */ each) => each.id === visitId);
  if (!known && !at) {
    return null;
  }
  const visit = known ?? { id: visitId, site: at?.stop.site, stop: at?.stop.id, round: at?.round.id, plannedVisits: at?.stop.plannedVisits, fields: {}, photosArrived: [], readings: {}, before: {}, perils: {}, contested: {} };
  visit.before ??= {};
  /** What was entered here of each reading, by its key, oldest first. @type {Record<string, kept.Item[]>} */
  visit.taken = {};
  byThisClock(visit, day.at - Date.parse(bundle.madeAt));
  const items = (await kept.about(visitId)).filter((item) => item.person === person);
  for (const item of items) {
    if (item.key?.startsWith("reading/") && item.result?.status !== "refused") {
      visit.taken[item.key] = [...(visit.taken[item.key] ?? []), item];
    }
    if (kept.isSince(item, bundle)) {
      overlay(visit, item);
    }
  }
  if (bundle.batches.length > 0) {
    drawnSince(bundle, visitId, await kept.from(0));
  }
  const words = spoken(day.words);
  for (const { entry, at: fell } of (await kept.waiting()).filter((item) => item.person === person && item.entry.kind === "instrument.dropped")) {
    const instrument = bundle.instruments.find((/** @type {any} */ each) => each.id === entry.subject);
    if (instrument) {
      dropped(instrument, fell);
      Object.assign(instrument, { status: "SUSPECT", statusWords: words("standing.SUSPECT"), decidesNothing: true, undecided: "SUSPECT" });
    }
  }
  const due = bundle.plannedVisits.filter((/** @type {any} */ each) => visit.plannedVisits.includes(each.id));
  const asFor = new Set(due.map((/** @type {any} */ each) => each.system));
  const here = bundle.systems.filter((/** @type {any} */ each) => each.site === visit.site);
  return {
    bundle,
    words,
    visit,
    stop: at?.stop ?? null,
    round: at?.round ?? null,
    site: bundle.sites.find((/** @type {any} */ each) => each.id === visit.site),
    due,
    // Systems something is due for; a visit without any is about whatever stands there.
    systems: asFor.size > 0 ? here.filter((/** @type {any} */ each) => asFor.has(each.id)) : here,
    person,
    drafts: await Drafts.load(visitId, person),
    at: day.at,
    fresh,
    started: visit.startedWords !== undefined,
  };
}

/**
 * @param {any} visit
 * @param {kept.Item} item
 */
function overlay(visit, item) {
  const { kind, body } = item.entry;
  const waiting = item.state === "waiting" ? item : undefined;
  enteredHere(visit, item);
  if (item.key !== null) {
    const first = visit.fields[item.key]?.body;
    if (kind === "visit.reading" && first && first.answer !== "NOT_MEASURED" && item.entry.base) {
      visit.before[item.key] = [...(visit.before[item.key] ?? []), visit.readings[item.key]?.words.asWritten ?? first];
    }
    visit.fields[item.key] = { body, kind, entry: item.entry.id, conflicts: visit.fields[item.key]?.conflicts ?? [], item: waiting };
    // Whoever signed has not seen what was entered since.
    visit.signatureOutdated = item.key !== "signature" && visit.fields.signature !== undefined;
    if (item.result?.args?.words && kind.endsWith("reading")) {
      visit.readings[item.key] = item.result.args;
    }
  } else if (kind === "visit.start") {
    visit.startedWords ??= timeOf(item.at);
  } else if (kind === "visit.finish") {
    visit.finishedWords ??= timeOf(item.at);
    visit.finishing = waiting;
  }
}

/**
 * What was taken out of batches of water at other visits on this device, and the server had not held yet.
 *
 * @param {any} bundle
 * @param {string} visitId
 * @param {kept.Item[]} items oldest first
 */
function drawnSince(bundle, visitId, items) {
  for (const { entry, key } of items.filter((item) => item.entry.kind === "visit.water-change" && item.entry.subject !== visitId && kept.isSince(item, bundle))) {
    for (const batch of bundle.batches) {
      batch.drawn = batch.drawn.filter((/** @type {any} */ each) => each.visit !== entry.subject || each.field !== key);
      if (batch.id === entry.body.batch) {
        batch.drawn.push({ visit: entry.subject, field: key, poured: entry.body.in ?? entry.body.out });
      }
    }
  }
}

/**
 * From then on what an instrument shows decides nothing.
 *
 * @param {any} instrument
 * @param {number} at when it fell, in milliseconds
 */
export function dropped(instrument, at) {
  const second = Math.floor(at / 1000);
  // A day that an older program gave says nothing of how to judge.
  instrument.judging?.suspicions.push({ sinceEpochMilli: second * 1000, condemned: false });
  instrument.judging?.history.droppedAtEpochSeconds.push(second);
}
