// @ts-check
/**
 * Shaking and waiting times of kits: started beside the field of the reading, several at once, seen from everywhere on every
 * page of this tablet, and heard when it is time to read. They are kept on this device alone, and go on after it was off; by
 * how much one was missed is kept with the reading.
 */
import { h, icon } from "./fields.js";
import { uuid7 } from "./ids.js";
import * as kept from "./kept.js";
import { canSound, sound } from "./running.js";
import { who } from "./store.js";
import { timeOf } from "./times.js";

/** @typedef {import("./kept.js").KitTimer} Timer */
/** @typedef {{state: 'shake'|'wait'|'due'|'late'|'read', until: number}} Phase until when it is so, or since when it is late */

const SECOND_MS = 1000;
const SOUND_AGAIN_MS = 20_000;
/** By then nobody waits for it any more. */
const FORGOTTEN_MS = 12 * 3600 * SECOND_MS;

class Kits {
  constructor() {
    /** @type {Timer[]} */
    this.timers = [];
    /** @type {(() => void)[]} */
    this.listeners = [];
    /** The state that was last sounded, and when it sounds again, by timer. @type {Map<string, {state: string, again: number}>} */
    this.sounded = new Map();
    this.others = new BroadcastChannel("tankround-kits");
    this.others.addEventListener("message", () => void this.load());
    this.loaded = this.load();
  }

  async load() {
    const person = await who();
    const all = (await kept.timers()).filter((each) => each.person === person);
    const old = all.filter((each) => Date.now() - each.at > FORGOTTEN_MS);
    old.forEach((each) => void kept.forgetTimer(each.id));
    this.timers = all.filter((each) => !old.includes(each));
    this.changed();
  }

  changed() {
    this.listeners.forEach((tell) => tell());
  }

  /**
   * @param {{visit: string, key: string, name: string}} place
   * @param {{shakeSeconds: number, waitSeconds: number, readWithinSeconds: number}} times
   */
  async start({ visit, key, name }, times) {
    await this.drop(key, visit);
    const timer = { id: uuid7(), person: await who(), visit, key, name, at: Date.now(), shake: times.shakeSeconds, wait: times.waitSeconds, within: times.readWithinSeconds, readAt: null };
    // It is shown only once it would be there again.
    await kept.keepTimer(timer);
    this.timers.push(timer);
    this.told();
  }

  /** @param {string} key @param {string} visit */
  async drop(key, visit) {
    const mine = this.timers.filter((each) => each.key === key && each.visit === visit);
    this.timers = this.timers.filter((each) => !mine.includes(each));
    await Promise.all(mine.map((each) => kept.forgetTimer(each.id)));
    if (mine.length > 0) {
      this.told();
    }
  }

  /**
   * By how much a reading that is taken now misses the time of its kit.
   *
   * @param {string} key
   * @param {string} visit
   * @returns {number} seconds, negative before it is over; 0 in time, and where no time runs
   */
  off(key, visit) {
    const timer = this.of(key, visit);
    if (!timer || timer.readAt !== null) {
      return 0;
    }
    const now = Date.now();
    const { due, latest } = ends(timer);
    return now < due ? -Math.ceil((due - now) / SECOND_MS) : now > latest ? Math.ceil((now - latest) / SECOND_MS) : 0;
  }

  /** The reading was taken; too early or too late is said. @param {string} key @param {string} visit */
  async read(key, visit) {
    const timer = this.of(key, visit);
    if (!timer || timer.readAt !== null) {
      return;
    }
    if (phase(timer, Date.now()).state === "due") {
      await this.drop(key, visit);
      return;
    }
    timer.readAt = Date.now();
    await kept.keepTimer(timer);
    this.told();
  }

  /** @param {string} key @param {string} visit */
  of(key, visit) {
    return this.timers.find((each) => each.key === key && each.visit === visit);
  }

  told() {
    this.others.postMessage(null);
    this.changed();
  }

  /**
   * The strip at the head of the window with everything that is waited for.
   *
   * @param {(key: string, ...args: any[]) => string} words
   */
  async show(words) {
    const list = h("ul", {});
    const mute = h("p", { class: "fine" }, words("running.alarm.no-sound"));
    const strip = h("section", { class: "kit-timers", id: "kit-timers", "aria-label": words("timer.strip"), hidden: true }, list, mute);
    const aloud = h("p", { class: "visually-hidden", role: "status" });
    document.getElementById("content")?.prepend(strip, aloud);
    /** @type {Map<string, {element: HTMLElement, tell: (now: number) => void}>} */
    const lines = new Map();
    const render = () => {
      const open = this.timers.filter((each) => each.readAt === null);
      [...lines.keys()].filter((id) => !open.some((each) => each.id === id)).forEach((id) => lines.delete(id));
      open.forEach((each) => lines.has(each.id) || lines.set(each.id, this.line(each, words, (said) => (aloud.textContent = said))));
      list.replaceChildren(...[...lines.values()].map((line) => line.element));
      strip.hidden = open.length === 0;
      tick();
    };
    const tick = () => {
      const now = Date.now();
      lines.forEach((line) => line.tell(now));
      this.ring(now);
      mute.hidden = canSound();
    };
    this.listeners.push(render);
    setInterval(tick, SECOND_MS);
    await this.loaded;
    render();
  }

  /**
   * @param {Timer} timer
   * @param {(key: string, ...args: any[]) => string} words
   * @param {(said: string) => void} say to whoever does not look
   */
  line(timer, words, say) {
    const fact = h("span", {});
    const clock = h("span", { class: "running-clock", role: "timer" });
    const mark = h("span", {});
    let state = "";
    const tell = (/** @type {number} */ now) => {
      const at = phase(timer, now);
      clock.textContent = clockOf(at, now);
      if (state !== at.state) {
        const before = state;
        state = at.state;
        element.classList.toggle("state-signal", state === "due" || state === "late");
        mark.replaceChildren(icon(state === "due" ? "needed" : state === "late" ? "late" : "waiting"));
        fact.textContent = said(timer, at, words);
        if (before !== "") {
          say(`${timer.name}: ${fact.textContent}`);
        }
      }
    };
    const element = h(
      "li",
      { "data-timer": timer.key },
      h("a", { href: `/visits/${timer.visit}#${timer.key}` }, mark, " ", h("strong", {}, timer.name), ": ", fact),
      clock,
      h("button", { class: "button", type: "button", onclick: () => void this.drop(timer.key, timer.visit) }, words("timer.stop")),
    );
    return { element, tell };
  }

  /** Sounds at each change, and when to read until somebody does. @param {number} now */
  ring(now) {
    for (const timer of this.timers.filter((each) => each.readAt === null)) {
      const { state } = phase(timer, now);
      const before = this.sounded.get(timer.id) ?? { state: now - timer.at < SECOND_MS * 2 ? state : "", again: Infinity };
      // A sample that stands needs nobody when the page is opened again.
      const news = before.state !== state && !(before.state === "" && (state === "shake" || state === "wait"));
      if ((news || now >= before.again) && canSound()) {
        sound(state === "due" ? 3 : state === "late" ? 2 : 1);
        this.sounded.set(timer.id, { state, again: state === "due" ? now + SOUND_AGAIN_MS : Infinity });
      } else if (!news) {
        this.sounded.set(timer.id, { state, again: before.again });
      }
    }
  }

  /**
   * What starts the time of the kit in use beside a reading, and says how far it is.
   *
   * @param {any} page
   * @param {string} key
   * @param {string} name
   * @param {() => any} tool
   * @param {() => number} off by how much what is saved missed its time, in seconds, as kept with the reading
   */
  beside(page, key, name, tool, off) {
    const { words, visit } = page;
    const place = { visit: visit.id, key, name };
    const element = h("div", { class: "kit-timer" });
    const render = () => {
      const times = tool()?.times;
      const timer = this.of(key, visit.id);
      const needed = times && times.shakeSeconds + times.waitSeconds > 0;
      const missed = off();
      element.hidden = !needed && !timer && missed === 0;
      const start = needed ? h("button", { class: "button", type: "button", onclick: () => void this.start(place, times) }, timer ? words("timer.again") : words("timer.start", steps(times, words))) : null;
      const fact = missed !== 0 && (!timer || timer.readAt !== null) ? h("p", { class: "state state-strong state-signal" }, icon("untrusted"), h("span", {}, readWrong(missed, words))) : timer && timer.readAt === null ? h("p", { class: "fine" }, words("timer.runs", timeOf(ends(timer).due))) : null;
      element.replaceChildren(...[fact, start].filter((part) => part !== null));
    };
    this.listeners.push(render);
    render();
    return { element, render, off: () => this.off(key, visit.id), read: () => void this.read(key, visit.id) };
  }
}

/** @param {Timer} timer */
function ends(timer) {
  const shaken = timer.at + timer.shake * SECOND_MS;
  const due = shaken + timer.wait * SECOND_MS;
  return { shaken, due, latest: timer.within > 0 ? due + timer.within * SECOND_MS : Infinity };
}

/** @param {Timer} timer @param {number} now @returns {Phase} */
function phase(timer, now) {
  const { shaken, due, latest } = ends(timer);
  if (now < shaken) {
    return { state: "shake", until: shaken };
  }
  if (now < due) {
    return { state: "wait", until: due };
  }
  return now <= latest ? { state: "due", until: latest } : { state: "late", until: latest };
}

/** @param {Timer} timer @param {Phase} at @param {(key: string, ...args: any[]) => string} words */
function said(timer, at, words) {
  if (at.state === "due") {
    return timer.within > 0 ? words("timer.due-until", timeOf(at.until)) : words("timer.due");
  }
  return at.state === "late" ? words("timer.late", timeOf(at.until)) : words(`timer.${at.state}`);
}

/** What is left of it, or for how long it is late. @param {Phase} at @param {number} now */
function clockOf(at, now) {
  if (at.until === Infinity) {
    return "";
  }
  const seconds = Math.ceil(Math.abs(at.until - now) / SECOND_MS);
  return `${at.state === "late" ? "+" : ""}${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

/** @param {number} missed @param {(key: string, ...args: any[]) => string} words */
function readWrong(missed, words) {
  return words(missed < 0 ? "timer.read-early" : "timer.read-late", span(Math.abs(missed), words));
}

/** @param {{shakeSeconds: number, waitSeconds: number}} times @param {(key: string, ...args: any[]) => string} words */
function steps({ shakeSeconds, waitSeconds }, words) {
  return [shakeSeconds > 0 ? words("timer.step.shake", span(shakeSeconds, words)) : "", waitSeconds > 0 ? words("timer.step.wait", span(waitSeconds, words)) : ""].filter(Boolean).join(", ");
}

/** @param {number} seconds @param {(key: string, ...args: any[]) => string} words */
function span(seconds, words) {
  const whole = Math.ceil(seconds);
  return whole % 60 === 0 || whole > 600 ? words("timer.minutes", Math.round(whole / 60)) : whole < 120 ? words("timer.seconds", whole) : words("timer.both", Math.floor(whole / 60), whole % 60);
}

export const kits = new Kits();
