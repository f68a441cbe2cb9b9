// @ts-check
import { loadDay, spoken, wordsAlone } from "./bundle.js";
import { h, icon } from "./fields.js";
import { said } from "./frame.js";
import * as kept from "./kept.js";
import { cleanestFirst, suspectedIn } from "./order.js";
import { promised } from "./pages.js";
import { giveBack, send, signOut, who } from "./store.js";
import { ageOf, timeOf } from "./times.js";

const PATIENCE_MS = 1500;
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
  const { day } = loaded;
  const { bundle } = day;
  const words = spoken(day.words);
  document.documentElement.lang = bundle.locale;
  document.title = words("day.title");
  text("place", words("day.of", bundle.technician.name));
  text("number", new Date(`${bundle.date}T12:00`).toLocaleDateString(bundle.locale, { dateStyle: "full" }));
  text("person", bundle.technician.name);
  const here = /** @type {kept.Item[]} */ ((await kept.from(0)).filter((item) => item.person === day.person));
  root.replaceChildren(...bundle.rounds.map((/** @type {any} */ round) => roundOf(words, bundle, round, here)), unplanned(words, bundle), await device(words, day.person));
  root.prepend(h("div", { class: "actions" }, h("a", { href: "/emergencies", class: "button" }, words("emergencies"))));
  if (bundle.rounds.length === 0) {
    root.prepend(h("p", { class: "say" }, words("day.none")));
  }
  said(words, day);
  return words;
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
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any} bundle
 * @param {any} round
 * @param {kept.Item[]} here what this device has entered
 */
function roundOf(words, bundle, round, here) {
  const suspected = suspectedIn(bundle, here);
  const begun = new Set(
    round.stops
      .filter((/** @type {any} */ stop) => bundle.visits.some((/** @type {any} */ each) => each.id === stop.id) || here.some((item) => item.entry.subject === stop.id && item.entry.kind === "visit.start"))
      .map((/** @type {any} */ stop) => stop.id),
  );
  const inOrder = suspected.size === 0 ? round.stops : [...round.stops.filter((/** @type {any} */ stop) => begun.has(stop.id)), ...cleanestFirst(bundle, round.stops, begun, suspected)];
  const stops = inOrder.map((/** @type {any} */ stop) => {
    const site = bundle.sites.find((/** @type {any} */ each) => each.id === stop.site);
    const known = bundle.visits.find((/** @type {any} */ each) => each.id === stop.id);
    const entered = (/** @type {string} */ kind) => here.find((item) => item.entry.subject === stop.id && item.entry.kind === kind && item.result?.status !== "refused");
    const finished = known?.finishedWords ?? timeOfItem(entered("visit.finish"));
    const started = known?.startedWords ?? timeOfItem(entered("visit.start"));
    const state = finished ? words("day.finished", finished) : started ? words("day.started", started) : words("day.planned", stop.arrives.slice(0, 5), stop.departs.slice(0, 5));
    return h(
      "li",
      {},
      icon(finished ? "done" : "todo"),
      h("div", {}, h("a", { href: `/visits/${stop.id}` }, h("strong", {}, words("day.stop", stop.position, site.name))), h("p", { class: "facts" }, site.address), stop.sick ? h("p", { class: "facts" }, words("begin.sick")) : null),
      h("p", {}, state),
    );
  });
  return h(
    "section",
    { class: "section" },
    h("div", { class: "section-head" }, h("h2", {}, words("day.round", round.code, round.van)), h("p", {}, h("a", { href: `/rounds/${round.id}/load` }, words("bar.load")))),
    suspected.size === 0 ? null : h("p", { class: "say" }, words("day.suspected")),
    h("ol", { class: "day-stops" }, stops),
  );
}

/** @param {kept.Item | undefined} item */
function timeOfItem(item) {
  return item === undefined ? undefined : timeOf(item.at);
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
  const outcome = h("p", { role: "status" });
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
      h("button", { class: "button", type: "button", onclick: () => void save() }, words("device.file.save")),
      h("label", { class: "button" }, file, words("device.file.back")),
      h("button", { class: "button", type: "button", onclick: () => void leave(false) }, words("device.sign-out")),
    ),
    outcome,
    leaving,
  );

  async function save() {
    const unsent = await kept.unsent(person);
    const link = h("a", { href: URL.createObjectURL(new Blob([JSON.stringify(unsent)], { type: "application/json" })), download: `tankround-${new Date().toISOString().slice(0, 16).replace(":", "")}.json` });
    link.click();
    outcome.textContent = words("device.file.saved", unsent.items.length, unsent.photos.length);
  }

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
