// @ts-check
import { loadDay, spoken, wordsAlone } from "./bundle.js";
import { h, icon } from "./fields.js";
import { saving } from "./file.js";
import { said } from "./frame.js";
import * as kept from "./kept.js";
import { checkDue } from "./checks.js";
import { cleanestFirst, suspectedIn } from "./order.js";
import { timesAhead } from "./pace.js";
import { promised } from "./pages.js";
import { giveBack, send, signOut, who } from "./store.js";
import { ageOf } from "./times.js";

const PATIENCE_MS = 1500;
const MINUTE_MS = 60_000;
const root = /** @type {HTMLElement} */ (document.getElementById("visit"));

/**
 * The day of whoever is signed in: where to go, and what this device holds.
 *
 * @returns {Promise<((key: string, ...args: any[]) => string) | null>} the words of the page; null where there is none
 */
export async function showDay() {
  const loaded = await loadDay();
  if (loaded === null) {
    return null;
  }
  let { day } = loaded;
  const words = spoken(day.words);
  const rounds = h("div", {});
  await show();
  // Time goes on, and another page of this device may begin or finish something.
  setInterval(() => void render(), MINUTE_MS);
  new BroadcastChannel(kept.NEWS).addEventListener("message", () => void render());
  // What a slow server says at last is newer than what this device kept.
  void loaded.later.then(
    (newer) => {
      if (newer !== null) {
        day = newer;
        void show();
      }
    },
    // Where the office has barred this device, the next page says so.
    () => {},
  );
  return words;

  async function show() {
    const { bundle } = day;
    document.documentElement.lang = bundle.locale;
    document.title = words("day.title");
    text("place", words("day.of", bundle.technician.name));
    text("number", new Date(`${bundle.date}T12:00`).toLocaleDateString(bundle.locale, { dateStyle: "full" }));
    text("person", bundle.technician.name);
    await render();
    const none = bundle.rounds.length > 0 ? [] : [h("p", { class: "say" }, words("day.none"))];
    const emergencies = h("div", { class: "actions" }, h("a", { href: "/emergencies", class: "button" }, words("emergencies")));
    root.replaceChildren(...none, emergencies, rounds, unplanned(words, bundle), await device(words, day.person));
    said(words, day);
  }

  async function render() {
    const { bundle } = day;
    const here = (await kept.from(0)).filter((item) => item.person === day.person);
    const ahead = (await kept.fact("clock"))?.ahead ?? 0;
    /** @type {Map<string, number | undefined>} when the van is back from each round */
    const backs = new Map();
    // One place to go next, however many rounds the day has.
    let leads = true;
    rounds.replaceChildren(
      ...bundle.rounds.map((/** @type {any} */ round) => {
        const { section, back, open } = roundOf(words, bundle, round, here, { now: Date.now() - ahead, ahead }, backs.get(round.after), leads);
        leads &&= !open;
        backs.set(round.id, back);
        return section;
      }),
    );
  }
}

/** The office has barred this device: what it has not sent can still be saved. */
export async function showBarred() {
  const words = await wordsAlone();
  root.replaceChildren(h("p", { class: "say" }, words("barred")), await device(words, await who()));
  return words;
}

/**
 * @param {string} id
 * @param {string} value
 */
function text(id, value) {
  const element = document.getElementById(id);
  if (element) {
    element.textContent = value;
  }
}

/**
 * A round as this device knows it, with the times of what is still to come.
 *
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any} bundle
 * @param {any} round
 * @param {kept.Item[]} here what this device has entered
 * @param {{now: number, ahead: number}} clock of the server, and how far this device is ahead of it, in milliseconds
 * @param {number | undefined} backBefore when the van is back from its round before, if it has one on that day
 * @param {boolean} leads whether no round before has a stop left
 */
function roundOf(words, bundle, round, here, clock, backBefore, leads) {
  const suspected = suspectedIn(bundle, here);
  const entered = (/** @type {any} */ stop, /** @type {string} */ kind) => here.find((item) => item.entry.subject === stop.id && item.entry.kind === kind && item.result?.status !== "refused");
  /** @type {Map<string, import("./pace.js").Begun>} */
  const begun = new Map();
  for (const stop of round.stops) {
    const known = bundle.visits.find((/** @type {any} */ each) => each.id === stop.id);
    const at = (/** @type {string | undefined} */ told, /** @type {kept.Item | undefined} */ item) => (told === undefined ? item && item.at - clock.ahead : Date.parse(told));
    const startedAt = at(known?.startedAt, entered(stop, "visit.start"));
    if (startedAt !== undefined) {
      begun.set(stop.id, { startedAt, finishedAt: at(known?.finishedAt, entered(stop, "visit.finish")) });
    }
  }
  const done = new Set(begun.keys());
  const inOrder = suspected.size === 0 ? round.stops : [...round.stops.filter((/** @type {any} */ stop) => done.has(stop.id)), ...cleanestFirst(bundle, round.stops, done, suspected)];
  // A day that an older program gave says nothing of how long each takes; one gone by is not driven any more.
  const anew = round.pace && new Date(clock.now).toLocaleDateString("sv", { timeZone: bundle.zone }) === bundle.date ? timesAhead(round.pace, inOrder.map((/** @type {any} */ stop) => stop.id), begun, clock.now, backBefore) : null;
  const time = (/** @type {number} */ at) => new Date(at).toLocaleTimeString(bundle.locale, { hour: "2-digit", minute: "2-digit", timeZone: bundle.zone });
  const next = inOrder.find((/** @type {any} */ stop) => !begun.get(stop.id)?.finishedAt);
  const stops = inOrder.map((/** @type {any} */ stop) => {
    const site = siteOf(bundle, stop);
    const { startedAt, finishedAt } = begun.get(stop.id) ?? {};
    return h(
      "li",
      { "data-stop": stop.id },
      icon(finishedAt === undefined ? (leads && stop === next ? "next" : "todo") : "done"),
      h("div", {}, h("a", { href: `/visits/${stop.id}` }, h("strong", {}, words("day.stop", stop.position, site.name))), site.address ? h("p", { class: "facts" }, site.address) : null, stop.sick ? h("p", { class: "facts" }, words("begin.sick")) : null),
      h("div", { class: "day-times" }, finishedAt !== undefined ? h("p", {}, words("day.finished", time(finishedAt))) : startedAt !== undefined ? h("p", {}, words("day.started", time(startedAt))) : whenThere(words, round, stop, anew, time)),
    );
  });
  const title = round.trip > 1 ? words("day.round-further", round.code, round.van, round.trip) : words("day.round", round.code, round.van);
  const section = h(
    "section",
    { class: "section" },
    h("div", { class: "section-head" }, h("h2", {}, title), h("p", {}, h("a", { href: `/rounds/${round.id}/load` }, words("bar.load")))),
    begun.size === 0 && round.checks?.length > 0 ? h("section", { class: "notice", "data-checks": "" }, h("h3", { class: "notice-title" }, words("day.checks")), round.checks.map((/** @type {any} */ check) => checkDue(words, check))) : null,
    leads && next ? nextStop(words, bundle, round, next, begun.get(next.id), anew, time) : null,
    suspected.size === 0 ? null : h("p", { class: "say" }, words("day.suspected")),
    h("ol", { class: "day-stops" }, stops),
    anew ? h("p", { class: "facts" }, words(begun.size > 0 ? "day.back-anew" : "day.back", time(anew.back))) : null,
  );
  return { section, back: anew?.back, open: next !== undefined };
}

/**
 * When a stop that nobody has begun is reached, and plainly where that is too late for it.
 *
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any} round
 * @param {any} stop
 * @param {{ahead: Map<string, import("./pace.js").Times>} | null} anew
 * @param {(at: number) => string} time
 * @returns {any[]}
 */
function whenThere(words, round, stop, anew, time) {
  const planned = words("day.planned", stop.arrives.slice(0, 5), stop.departs.slice(0, 5));
  const times = anew?.ahead.get(stop.id);
  if (!times) {
    return [h("p", {}, planned)];
  }
  const now = words("day.planned", time(times.arrives), time(times.departs));
  const { closesAt, toldFrom, toldUntil } = round.pace.stops.find((/** @type {any} */ each) => each.id === stop.id);
  const signal = (/** @type {string} */ said) => h("p", { class: "state state-strong state-signal" }, icon("late"), h("span", {}, said));
  // A time is told to the minute.
  const broken = toldUntil !== undefined && times.starts >= Date.parse(toldUntil) + MINUTE_MS;
  return [
    h("p", {}, now),
    now === planned ? null : h("p", { class: "facts" }, words("day.was-planned", planned)),
    times.lateMinutes > 0 ? signal(words("day.late", time(Date.parse(closesAt)), times.lateMinutes)) : null,
    broken ? signal(words("day.told-late", time(Date.parse(toldFrom)), time(Date.parse(toldUntil)))) : null,
  ].filter((each) => each !== null);
}

/**
 * Where to go now: when, how to get in, and what begins and ends the work there.
 *
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any} bundle
 * @param {any} round
 * @param {any} stop
 * @param {import("./pace.js").Begun | undefined} begun
 * @param {{ahead: Map<string, import("./pace.js").Times>} | null} anew
 * @param {(at: number) => string} time
 */
function nextStop(words, bundle, round, stop, begun, anew, time) {
  const site = siteOf(bundle, stop);
  const pace = round.pace?.stops.find((/** @type {any} */ each) => each.id === stop.id);
  const systems = bundle.plannedVisits
    .filter((/** @type {any} */ each) => stop.plannedVisits.includes(each.id))
    .map((/** @type {any} */ each) => bundle.systems.find((/** @type {any} */ system) => system.id === each.system)?.name)
    .filter(Boolean);
  const part = (/** @type {string} */ key, /** @type {any} */ value, /** @type {string | undefined} */ id = undefined) => (value ? h("div", {}, h("dt", {}, words(key)), h("dd", { id }, value)) : null);
  return h(
    "section",
    { class: "next-stop", "data-next": stop.id },
    h("div", { class: "next-stop-number" }, words("day.next"), " ", h("b", {}, String(stop.position)), " ", words("day.next-of", round.stops.length)),
    h(
      "div",
      { class: "next-stop-body" },
      h("h3", {}, site.name),
      systems.length > 0 ? h("p", {}, [...new Set(systems)].join(", ")) : null,
      h(
        "dl",
        { class: "details" },
        part("day.arrive", begun ? words("day.started", time(/** @type {number} */ (begun.startedAt))) : whenThere(words, round, stop, anew, time)),
        part("day.window", pace?.opensAt && words("day.planned", time(Date.parse(pace.opensAt)), time(Date.parse(pace.closesAt)))),
        part("day.told", pace?.toldFrom && words("day.planned", time(Date.parse(pace.toldFrom)), time(Date.parse(pace.toldUntil)))),
        part("address", site.address),
        part("access", site.access, "access"),
      ),
      h(
        "div",
        { class: "actions" },
        h("a", { class: "button button-main button-large", href: `/visits/${stop.id}` }, words(begun ? "day.resume" : "day.start")),
        begun ? h("a", { class: "button button-strong button-large", href: `/visits/${stop.id}#leaving` }, words("day.finish")) : null,
        site.latitude === undefined ? null : h("a", { class: "button button-large", href: `geo:${site.latitude},${site.longitude}` }, words("day.map")),
      ),
    ),
  );
}

/**
 * @param {any} bundle
 * @param {any} stop
 */
function siteOf(bundle, stop) {
  return bundle.sites.find((/** @type {any} */ each) => each.id === stop.site);
}

/**
 * Visits that are on no round of the day, such as one that was begun elsewhere and is to be finished.
 *
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any} bundle
 */
function unplanned(words, bundle) {
  const stops = new Set(bundle.rounds.flatMap((/** @type {any} */ round) => round.stops.map((/** @type {any} */ stop) => stop.id)));
  const others = bundle.visits.filter((/** @type {any} */ visit) => !stops.has(visit.id));
  if (others.length === 0) {
    return h("div", {});
  }
  const line = (/** @type {any} */ visit) =>
    h(
      "li",
      {},
      icon(visit.finishedWords ? "done" : "todo"),
      h("a", { href: `/visits/${visit.id}` }, bundle.sites.find((/** @type {any} */ site) => site.id === visit.site)?.name ?? visit.code),
      h("p", {}, visit.finishedWords ? words("day.finished", visit.finishedWords) : words("day.started", visit.startedWords ?? "")),
    );
  return h("section", { class: "section" }, h("h2", {}, words("day.others")), h("ul", { class: "day-stops" }, others.map(line)));
}

/**
 * What this device holds, and whether it is safe there.
 *
 * @param {(key: string, ...args: any[]) => string} words
 * @param {string} person
 */
async function device(words, person) {
  const { id, since } = await kept.device();
  const safe = await promised();
  const { button: save, outcome } = saving(words);
  const file = h("input", { type: "file", accept: "application/json", class: "visually-hidden", onchange: () => void back() });
  const leaving = h("div", { role: "alert" });
  return h(
    "section",
    { class: "section", id: "device" },
    h("h2", {}, words("device")),
    h("p", {}, words("device.since", ageOf(since)), " ", words("device.sign", id.slice(-4).toUpperCase())),
    safe ? h("p", {}, words("device.safe")) : h("p", { class: "state state-strong" }, icon("needed"), h("span", {}, words("device.unsafe"))),
    h("p", { class: "fine" }, words("device.file.why")),
    h(
      "div",
      { class: "actions" },
      save,
      h("label", { class: "button" }, file, words("device.file.back")),
      h("button", { class: "button", type: "button", onclick: () => void leave(false) }, words("device.sign-out")),
    ),
    outcome,
    leaving,
  );

  async function back() {
    const chosen = file.files?.[0];
    if (!chosen) {
      return;
    }
    const { taken, refused, trouble } = await giveBack(await chosen.text(), person);
    outcome.textContent = trouble === null ? words("device.file.given", taken, refused) : words(`device.file.${trouble}`);
    file.value = "";
  }

  /** @param {boolean} allTheSame */
  async function leave(allTheSame) {
    // Whoever stands there without a signal is told at once.
    await Promise.race([send(), new Promise((resolve) => setTimeout(resolve, PATIENCE_MS))]);
    const waiting = (await kept.waiting()).filter((item) => item.person === person);
    if (waiting.length > 0 && !allTheSame) {
      leaving.replaceChildren(
        h("p", { class: "field-error" }, icon("needed"), h("span", {}, words("device.unsent", waiting.length))),
        h("button", { class: "button", type: "button", onclick: () => void leave(true) }, words("device.sign-out.all-the-same")),
      );
      return;
    }
    leaving.replaceChildren();
    if (!(await signOut())) {
      leaving.replaceChildren(h("p", { class: "field-error" }, words("failed")));
    }
  }
}
