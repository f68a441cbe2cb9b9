// @ts-check
/**
 * What somebody switches off or opens for a while: a clock for each, a sound now and then, and an alarm on every page of
 * this tablet where it stays so.
 */
import { SavedField, entry, h, icon } from "./fields.js";
import * as kept from "./kept.js";
import { who } from "./store.js";
import { ageOf } from "./times.js";

/** @typedef {{since: number, system: string, thing: string, state: string}} Open since by the clock of this device */
/** @typedef {{key: string, system: any, thing: string, name: string, field: SavedField}} Thing */

const MINUTE_MS = 60_000;
const LOOK_MS = 5_000;
const SOUND_AGAIN_MS = 20_000;
const QUIET_MS = 5 * MINUTE_MS;
const YESTERDAY_MS = 24 * 60 * MINUTE_MS;

/**
 * Takes what the server said of a visit over to the clock of this device.
 *
 * @param {any} visit
 * @param {number} ahead how far this device is ahead of the server, in milliseconds
 */
export function byThisClock(visit, ahead) {
  visit.running = Object.fromEntries(Object.entries(visit.running ?? {}).map(([key, open]) => [key, { ...open, since: Date.parse(open.since) + ahead }]));
}

/**
 * Adds what was entered here since.
 *
 * @param {any} visit
 * @param {kept.Item} item
 */
export function enteredHere(visit, item) {
  const { kind, body } = item.entry;
  if (kind !== "visit.running" || item.key === null) {
    return;
  }
  if (body.state === "ENDED") {
    delete visit.running[item.key];
  } else {
    visit.running[item.key] = { system: body.system, thing: body.thing, state: body.state, since: visit.running[item.key]?.since ?? item.at };
  }
}

/**
 * Everything that can be off or running in these systems; what is asked before leaving is the same.
 *
 * @param {any} page
 * @param {any[]} systems
 */
export function things(page, systems) {
  const { words } = page;
  /** @type {(() => void)[]} */
  const listeners = [];
  /** @type {Thing[]} */
  const all = systems.flatMap((system) => page.runningThings.map((/** @type {any} */ { thing }) => one(system, thing)));
  setInterval(tick, 1000);
  return { section, leaving, stillSo, listen: (/** @type {() => void} */ told) => void listeners.push(told) };

  /**
   * @param {any} system
   * @param {string} thing
   * @returns {Thing}
   */
  function one(system, thing) {
    const key = `running/${system.id}/${thing}`;
    const name = words(`running.${thing}`);
    const field = new SavedField(page, key, `${name}, ${system.name}`, { changed: () => changed(made), parts: () => partsOf.get(made) ?? {} });
    const made = { key, system, thing, name, field };
    return made;
  }

  /** @param {Thing} thing */
  function changed(thing) {
    const { state } = thing.field.body ?? {};
    if (isOpen(thing)) {
      page.visit.running[thing.key] = { system: thing.system.id, thing: thing.thing, state, since: page.visit.running[thing.key]?.since ?? Date.now() };
    } else {
      delete page.visit.running[thing.key];
    }
    listeners.forEach((told) => told());
  }

  /** @param {Thing} thing */
  function isOpen(thing) {
    return thing.field.body !== null && thing.field.body.state !== "ENDED";
  }

  /** @param {Thing} thing @param {string} state @param {any} [more] */
  function say(thing, state, more = {}) {
    void thing.field.save("visit.running", { system: thing.system.id, thing: thing.thing, state, ...more });
  }

  /** @param {Thing} thing */
  function clock(thing) {
    const element = h("span", { class: "running-clock", role: "timer" });
    element.dataset.since = String(page.visit.running[thing.key]?.since ?? Date.now());
    show(element);
    return element;
  }

  /** @param {Thing} thing */
  function end(thing) {
    return h("button", { class: "button button-strong", type: "button", onclick: () => say(thing, "ENDED") }, words("running.end"));
  }

  /** What can be switched off or opened in a system, and what is. @param {any} system */
  function section(system) {
    const own = all.filter((thing) => thing.system === system);
    const open = h("ul", { class: "running" });
    const closed = h("div", { class: "actions" });
    const render = () => {
      open.replaceChildren(
        ...own.filter(isOpen).map((thing) => h("li", { "data-thing": thing.thing }, h("span", {}, icon("waiting"), " ", h("strong", {}, thing.name)), clock(thing), end(thing))),
      );
      closed.replaceChildren(...own.filter((thing) => !isOpen(thing)).map((thing) => h("button", { class: "button", type: "button", onclick: () => say(thing, "RUNNING") }, thing.name)));
    };
    listeners.push(render);
    render();
    return h("div", { class: "running-part" }, h("p", { class: "fine" }, words("running.why")), open, closed);
  }

  /** The lines of the check before leaving: exactly what is still so. @param {() => void} told */
  function leaving(told) {
    /** @type {Map<Thing, HTMLElement>} */
    const lines = new Map();
    const list = h("ul", { class: "ticks ticks-departure" });
    const render = () => {
      const open = all.filter((thing) => isOpen(thing) || page.drafts.of(thing.key) !== null);
      const shown = open.map((thing) => lines.get(thing) ?? line(thing));
      open.forEach((thing, at) => lines.set(thing, shown[at]));
      list.hidden = shown.length === 0;
      if (shown.length !== list.childElementCount || shown.some((element, at) => list.children[at] !== element)) {
        list.replaceChildren(...shown);
      }
      told();
    };
    listeners.push(render);
    // Whoever asks is not ready to be told before it holds the answer.
    queueMicrotask(render);
    return { element: list, answers: () => all.filter(isOpen).map((thing) => (thing.field.body?.state === "LEFT" ? "LEFT" : "")) };
  }

  /** @param {Thing} thing */
  function line(thing) {
    const said = thing.field.shown?.state === "LEFT" ? thing.field.shown : {};
    const because = entry(words("running.because"), { value: said.because ?? "", onchange: () => hint.replaceChildren() });
    const until = entry(words("running.until"), { value: said.until ?? "", onchange: () => hint.replaceChildren() });
    until.input.type = "datetime-local";
    until.input.value = said.until ?? "";
    const hint = h("p", { class: "fine" });
    const facts = h("p", {});
    const leave = () => {
      const why = because.input.value.trim();
      if (why === "" || until.input.value === "") {
        hint.textContent = words("running.leave-half");
        (why === "" ? because : until).input.focus();
        return;
      }
      say(thing, "LEFT", { because: why, until: until.input.value });
    };
    const more = h(
      "details",
      { class: "reading-more", open: said.because !== undefined },
      h("summary", {}, words("running.leave")),
      h("div", { class: "columns-3" }, because.element, until.element),
      hint,
      h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: leave }, words("running.leave-save"))),
    );
    partsOf.set(thing, { because, until });
    const describe = () => {
      const { state, because: why, until: end } = thing.field.body ?? {};
      facts.replaceChildren(
        h("span", { class: state === "LEFT" ? "state state-strong" : "state state-strong state-signal" }, icon(state === "LEFT" ? "waiting" : "needed"), h("span", {}, `${thing.name}, ${thing.system.name}`)),
        " ",
        clock(thing),
        ...(state === "LEFT" ? [" ", h("span", { class: "facts" }, words("running.left", ageOf(Date.parse(end)), why))] : []),
      );
    };
    listeners.push(describe);
    describe();
    return h("li", { "data-running": thing.key }, facts, h("div", { class: "actions" }, end(thing)), more, thing.field.element);
  }

  /** What is so and nobody has left so on purpose, by name. @returns {string[]} */
  function stillSo() {
    return all.filter((thing) => thing.field.body?.state === "RUNNING").map((thing) => `${thing.name}, ${thing.system.name}`);
  }
}

/** The inputs of what is left so. @type {Map<Thing, Record<string, {label: string, input: HTMLElement}>>} */
const partsOf = new Map();

function tick() {
  document.querySelectorAll("[data-since]").forEach((element) => show(/** @type {HTMLElement} */ (element)));
}

/** @param {HTMLElement} element */
function show(element) {
  const seconds = Math.max(0, Math.floor((Date.now() - Number(element.dataset.since)) / 1000));
  const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
  const hours = Math.floor(seconds / 3600);
  element.textContent = `${hours > 0 ? `${hours}:` : ""}${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}

/** @type {AudioContext | null} */
let audio = null;

/**
 * A browser lets a page sound only once somebody has touched it.
 *
 * @returns {Promise<boolean>} whether it may from now on, and might not before
 */
async function touched() {
  const before = canSound();
  audio ??= new AudioContext();
  await audio.resume();
  return !before && canSound();
}

/** Whether this page may sound by now. */
export function canSound() {
  return audio !== null && audio.state === "running";
}

/** @param {number} times */
export function sound(times) {
  if (audio === null || !canSound()) {
    return;
  }
  for (let n = 0; n < times; n++) {
    const tone = audio.createOscillator();
    const loud = audio.createGain();
    const at = audio.currentTime + n * 0.4;
    tone.frequency.value = 880;
    loud.gain.setValueAtTime(0.4, at);
    loud.gain.setValueAtTime(0, at + 0.25);
    tone.connect(loud).connect(audio.destination);
    tone.start(at);
    tone.stop(at + 0.3);
  }
  navigator.vibrate?.(Array(times).fill([250, 150]).flat());
}

/**
 * Keeps an eye on everything that this person has running or off, whichever page of the tablet is open.
 *
 * @param {(key: string, ...args: any[]) => string} words
 */
export function watch(words) {
  const touch = () => void touched().then((now) => (now ? look() : undefined));
  document.addEventListener("pointerdown", touch, true);
  document.addEventListener("keydown", touch, true);
  const facts = h("div", {});
  const mute = h("p", { class: "fine" }, words("running.alarm.no-sound"));
  const banner = h(
    "section",
    { class: "notice notice-signal", id: "alarm", role: "alert", hidden: true },
    h("h2", { class: "notice-title" }, words("running.alarm.title")),
    facts,
    mute,
    h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => quiet() }, words("running.alarm.quiet"))),
  );
  document.getElementById("danger")?.before(banner);
  const openedAt = Date.now();
  let soundAt = 0;
  /** How often each was reminded of. @type {Map<string, number>} */
  const reminded = new Map();
  let shown = "";
  /** What is running or off, as it was last read from the store. @type {Watched[]} */
  let open = [];
  /** Runs only while something does. @type {ReturnType<typeof setInterval> | undefined} */
  let looking;
  let reading = Promise.resolve();
  /** Whether a reading is to come that has not begun. */
  let asked = false;
  /** @type {kept.Day[]} */
  let days = [];
  /** Whether a day was kept since they were read. */
  let newDay = true;
  new BroadcastChannel(kept.NEWS).addEventListener("message", ({ data }) => {
    newDay ||= data === "day";
    read();
  });
  read();

  function quiet() {
    soundAt = Date.now() + QUIET_MS;
  }

  /** What was entered here or elsewhere on this device, one reading after the other. */
  function read() {
    if (asked) {
      return;
    }
    asked = true;
    // Whatever went wrong once, it is looked at again the next time.
    reading = reading.catch(() => {}).then(async () => {
      asked = false;
      const person = await who();
      const from = await kept.today(YESTERDAY_MS);
      if (newDay) {
        newDay = false;
        days = await kept.days(person);
      }
      open = await openOnes(
        days.filter((day) => day.date >= from),
        person,
      );
      clearInterval(looking);
      looking = open.length > 0 ? setInterval(look, LOOK_MS) : undefined;
      look();
    });
  }

  function look() {
    const now = Date.now();
    open.forEach((each) => remind(each, now));
    const alarming = open.filter((each) => each.left || now - each.since > each.limitMs);
    tell(alarming, now);
    if (alarming.length > 0 && now >= soundAt && canSound()) {
      soundAt = now + SOUND_AGAIN_MS;
      sound(3);
    }
    mute.hidden = canSound();
  }

  /**
   * @param {Watched} each
   * @param {number} now
   */
  function remind(each, now) {
    const key = `${each.visit}/${each.key}/${each.since}`;
    const times = Math.floor((now - each.since) / each.remindMs);
    // What was begun before this page was opened has been reminded of elsewhere.
    const before = reminded.get(key) ?? (each.since >= openedAt ? 0 : times);
    if (times > before) {
      if (!canSound()) {
        return;
      }
      sound(1);
    }
    reminded.set(key, times);
  }

  /**
   * @param {Watched[]} alarming
   * @param {number} now
   */
  function tell(alarming, now) {
    const lines = alarming.map((each) => [words("running.alarm", `${each.site}, ${each.system}`, words(`running.${each.thing}`), Math.floor((now - each.since) / MINUTE_MS)), each.left ? words("running.alarm.left") : ""].filter(Boolean).join(" "));
    banner.hidden = lines.length === 0;
    // What is said already is not said again every minute to somebody who listens.
    if (shown !== lines.join("\n")) {
      shown = lines.join("\n");
      facts.replaceChildren(
        ...alarming.map((each, at) => h("p", {}, icon("late"), " ", h("strong", {}, lines[at]), " ", h("a", { href: `/visits/${each.visit}#leaving` }, words("running.alarm.go")))),
      );
    }
  }
}

/**
 * @typedef {{visit: string, key: string, thing: string, site: string, system: string, since: number, left: boolean,
 *   at: string, last: number, remindMs: number, limitMs: number}} Watched
 */

/**
 * What is running or off as far as this device knows, and nobody has left so on purpose.
 *
 * @param {kept.Day[]} days
 * @param {string} person
 * @returns {Promise<Watched[]>}
 */
async function openOnes(days, person) {
  /** @type {Watched[]} */
  const open = [];
  const seen = new Set();
  /** What this person began, and where. @type {{site: string, at: number}[]} */
  const begun = [];
  for (const { bundle, at } of days) {
    const stops = bundle.rounds.flatMap((/** @type {any} */ round) => round.stops).map((/** @type {any} */ stop) => ({ id: stop.id, site: stop.site }));
    for (const known of [...bundle.visits, ...stops]) {
      if (seen.has(known.id)) {
        continue;
      }
      seen.add(known.id);
      const visit = { running: { ...known.running }, finished: known.finishedAt !== undefined };
      byThisClock(visit, at - Date.parse(bundle.madeAt));
      const own = (await kept.about(known.id)).filter((item) => item.person === person);
      begun.push(...own.filter((item) => item.entry.kind === "visit.start").map((item) => ({ site: known.site, at: item.at })));
      for (const item of own) {
        if (kept.isSince(item, bundle)) {
          enteredHere(visit, item);
          visit.finished ||= item.entry.kind === "visit.finish";
        }
      }
      for (const [key, each] of Object.entries(visit.running)) {
        const times = bundle.runningThings?.find((/** @type {any} */ thing) => thing.thing === each.thing);
        if (each.state === "RUNNING" && times) {
          open.push({
            visit: known.id,
            key,
            thing: each.thing,
            site: bundle.sites.find((/** @type {any} */ site) => site.id === known.site)?.name ?? "",
            system: bundle.systems.find((/** @type {any} */ system) => system.id === each.system)?.name ?? "",
            since: each.since,
            left: visit.finished,
            at: known.site,
            last: Math.max(each.since, ...own.map((item) => item.at)),
            remindMs: times.remindMinutes * MINUTE_MS,
            limitMs: times.limitMinutes * MINUTE_MS,
          });
        }
      }
    }
  }
  // Who has begun a visit at another site is no longer there, though nobody finished this one.
  return open.map((each) => ({ ...each, left: each.left || begun.some((visit) => visit.site !== each.at && visit.at > each.last) }));
}
