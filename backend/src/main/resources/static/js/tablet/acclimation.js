// @ts-check
/** Bringing animals from a bag to the water of a tank: what follows is worked out here as the server works it out. */
import * as chemistry from "../chemistry/chemistry.js";
import { known } from "./ammonia.js";
import { linesOf } from "./drafts.js";
import { firstAsked, numberAsked, numberNeeded, quantityAsked, wordsNeeded } from "./asking.js";
import { SavedField, choice, entry, h, icon, oneOf } from "./fields.js";
import { uuid7 } from "./ids.js";
import { label } from "./readings.js";
import { LITRES_PER_GALLON, celsius, litres, practical, scaleOf } from "./water.js";

/** As lines with a large drop chamber drip; common practice, to be counted. */
const USUAL_DROPS = "20";

/** Longer than that nobody stands beside a line, and the water cools: own choice. */
const LONG_MINUTES = 240;
const HOURS_FROM_MINUTES = 90;

/**
 * @param {any} page
 * @param {any} system
 */
export function acclimation(page, system) {
  const { words } = page;
  const list = h("div", {});
  linesOf(page, "acclimation/", system).forEach((line) => list.append(one(page, system, line)));
  return h(
    "details",
    { class: "reading-more", "data-acclimation": system.id, open: list.hasChildNodes() },
    h("summary", {}, words("acclimation")),
    list,
    h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(page, system, uuid7())) }, words("acclimation.add"))),
  );
}

/**
 * @param {any} page
 * @param {any} system
 * @param {string} line
 */
function one(page, system, line) {
  const { words } = page;
  const field = new SavedField(page, `acclimation/${line}`, words("acclimation"), { asked, parts: () => parts });
  const stored = field.shown ?? {};
  const measure = system.measures.find((/** @type {any} */ each) => each.quantity === "SALINITY");
  const degrees = system.measures.find((/** @type {any} */ each) => each.quantity === "TEMPERATURE");
  const warmth = degrees?.units.find((/** @type {any} */ each) => each.code === degrees.unit);
  const changed = () => describe();
  const number = (/** @type {string} */ key, /** @type {string} */ name, /** @type {string | undefined} */ unit = undefined, usual = "") =>
    entry(words(`acclimation.${key}`), { inputmode: "decimal", value: stored[name] ?? usual, onchange: changed }, unit);
  const told = (/** @type {string} */ quantity) => {
    const found = known(page, system, "", quantity);
    return found === null ? "" : String(Math.round(found.value * 100) / 100);
  };
  const name = entry(words("name"), { value: stored.name ?? "", onchange: changed });
  const bag = number("bag", "bag", page.volumeUnit);
  const salinity = number("salinity", "salinity");
  const scale = scaleOf(page, measure, stored.salinityUnit, words("acclimation.scale"), changed);
  const bagTemperature = number("bag-temperature", "bagTemperature", warmth?.symbol);
  const bagPh = number("bag-ph", "bagPh");
  const hours = number("hours", "hours", "h");
  const ammonia = number("ammonia", "ammonia", "mg/L");
  const tankTemperature = number("tank-temperature", "tankTemperature", warmth?.symbol, warmth?.code === "degC" ? told("TEMPERATURE") : "");
  const tankPh = number("tank-ph", "tankPh", undefined, told("PH"));
  const vessel = number("vessel", "vessel", page.volumeUnit);
  const drops = number("drops", "dropsPerMl", undefined, USUAL_DROPS);
  const parts = { name, bag, salinity, salinityUnit: scale, bagTemperature, bagPh, hours, ammonia, tankTemperature, tankPh, vessel, dropsPerMl: drops };
  let mode = stored.mode ?? "GROWING";
  const result = h("div", { class: "acclimation", role: "status" });
  const keep = h("button", { class: "button button-strong", type: "button", onclick: () => save() }, words("acclimation.keep"));
  const typed = (/** @type {{input: HTMLInputElement}} */ input) => input.input.value.trim();
  const gravityReference = measure?.gravityReference ?? page.gravityReference;
  page.measured.push(() => describe());
  describe();
  return h(
    "div",
    {},
    h("p", { class: "say" }, words("acclimation.drain")),
    h("div", { class: "columns-3" }, name.element, bag.element, hours.element, ...(system.salt ? [salinity.element, scale.element] : []), bagTemperature.element, bagPh.element, ammonia.element),
    h("div", { class: "columns-3" }, tankTemperature.element, tankPh.element, vessel.element, drops.element),
    oneOf(
      words("acclimation.mode"),
      ["GROWING", "CONSTANT"].map((code) => ({ value: code, text: words(`acclimation.mode.${code}`) })),
      mode,
      (value) => {
        mode = value;
        describe();
      },
    ),
    result,
    h("div", { class: "actions" }, keep),
    field.element,
  );

  /** What is no such quantity, or likely one on another scale: nothing follows from it. @param {any} body */
  function oddOnes(body) {
    return firstAsked(
      () => quantityAsked(page, body, "salinity", "SALINITY", body.salinityUnit),
      () => quantityAsked(page, body, "bagTemperature", "TEMPERATURE", body.temperatureUnit),
      () => quantityAsked(page, body, "tankTemperature", "TEMPERATURE", body.temperatureUnit),
    );
  }

  /** @param {any} body */
  function asked(body) {
    return firstAsked(
      () => oddOnes(body),
      () => wordsNeeded(page, body, "name", name.label),
      () => numberNeeded(page, body, "bag", "0.01", "1000"),
      () => (system.salt ? numberNeeded(page, body, "salinity", "0", "300") : null),
      () => numberAsked(page, body, "ammonia", "0", "100"),
      () => numberNeeded(page, body, "hours", "0", "240"),
      () => numberNeeded(page, body, "dropsPerMl", "5", "100"),
      () => numberNeeded(page, body, "bagTemperature", "-50", "150"),
      () => numberNeeded(page, body, "bagPh", "4", "11"),
      () => numberNeeded(page, body, "tankTemperature", "-50", "150"),
      () => numberNeeded(page, body, "tankPh", "4", "11"),
      () => numberNeeded(page, body, "vessel", "0.01", "1000"),
    );
  }

  function save() {
    void field.save("visit.acclimation", said());
  }

  function said() {
    return {
      system: system.id,
      line,
      name: typed(name),
      unit: page.volumeUnit,
      bag: typed(bag),
      ...(system.salt ? { salinity: typed(salinity), salinityUnit: scale.select.value, ...(scale.select.value === "SG" ? { gravityReference } : {}) } : {}),
      temperatureUnit: degrees?.unit ?? "degC",
      bagTemperature: typed(bagTemperature),
      bagPh: typed(bagPh),
      hours: typed(hours),
      ...(typed(ammonia) ? { ammonia: typed(ammonia) } : {}),
      tankTemperature: typed(tankTemperature),
      tankPh: typed(tankPh),
      vessel: typed(vessel),
      dropsPerMl: typed(drops),
      mode,
    };
  }

  /** Instead of advice, what it waits for. @param {string} text */
  function ask(text) {
    result.replaceChildren(h("p", { class: "state state-strong state-signal" }, icon("needed"), h("span", {}, text)));
  }

  /** What follows from it, as far as it is all there. */
  function describe() {
    const tank = tankSalinity(page, system);
    keep.disabled = tank === null;
    if (tank === null) {
      ask(untrusted(page, system));
      return;
    }
    const odd = oddOnes(said());
    if (odd) {
      ask(odd.args.words);
      return;
    }
    const warm = (/** @type {{input: HTMLInputElement}} */ input) => celsius(read(input), degrees?.unit);
    const of = system.salt ? practical(read(salinity), scale.select.value, gravityReference) : 0;
    const total = typed(ammonia) === "" ? null : read(ammonia);
    /** @type {any} */
    let plan;
    try {
      plan = chemistry.acclimation(
        { litres: litres(page, read(bag)), salinity: of, celsius: warm(bagTemperature), ph: read(bagPh), totalAmmonia: total, hoursInBag: read(hours) },
        { salinity: tank, celsius: warm(tankTemperature), ph: read(tankPh) },
        { litres: litres(page, read(vessel)), growing: mode === "GROWING" ? 1 : 0, dropsPerMillilitre: read(drops) },
      );
    } catch {
      result.replaceChildren(h("p", { class: "facts" }, words("acclimation.missing")));
      return;
    }
    result.replaceChildren(...sentences(page, plan, of).map((text) => h("p", { class: "say" }, text)));
  }
}

/** @param {{input: HTMLInputElement}} input */
function read(input) {
  const text = input.input.value.trim().replace(",", ".");
  return text === "" ? Number.NaN : Number(text);
}

/**
 * @param {any} page
 * @param {any} plan
 * @param {number} bagSalinity practical
 * @returns {string[]}
 */
function sentences(page, plan, bagSalinity) {
  const { words } = page;
  const shown = (/** @type {number} */ value, digits = 2) => new Intl.NumberFormat(document.documentElement.lang, { maximumSignificantDigits: digits }).format(value);
  const volume = (/** @type {number} */ litres) => `${shown(page.volumeUnit === "gal" ? litres / LITRES_PER_GALLON : litres)} ${page.volumeUnit}`;
  const said = [];
  if (plan.way !== "DRIP") {
    said.push(plan.ammoniaAfter === null ? words("acclimation.long") : words("acclimation.ammonia-high", shown(plan.ammoniaBefore), shown(plan.ammoniaAfter)));
  } else if (plan.ammoniaAfter !== null) {
    said.push(words("acclimation.ammonia-low", shown(plan.ammoniaAfter)));
  }
  said.push(words("acclimation.float", plan.floatMinutes));
  if (plan.way === "MATCH") {
    said.push(words("acclimation.match", shown(plan.reachedSalinity, 3)));
    return said;
  }
  const long = plan.dripMinutes >= HOURS_FROM_MINUTES ? words("acclimation.for-hours", shown(plan.dripMinutes / 60)) : words("acclimation.for-minutes", plan.dripMinutes);
  said.push(words(`acclimation.${plan.way}`, long, volume(plan.added), shown(plan.millilitresPerMinute), shown(plan.dropsPerSecond), shown(plan.reachedSalinity, 3)));
  if (plan.pourOffs > 0) {
    said.push(words("acclimation.pour-off", plan.pourOffs));
  }
  if (plan.dripMinutes > LONG_MINUTES) {
    said.push(words("acclimation.far", shown(bagSalinity, 3)));
  }
  return said;
}

/**
 * What an instrument read at this visit that is trusted; of fresh water none.
 *
 * @param {any} page
 * @param {any} system
 * @returns {number | null}
 */
function tankSalinity(page, system) {
  if (!system.salt) {
    return 0;
  }
  const key = `reading/${system.id}/SALINITY`;
  const here = Object.entries(page.visit.readings).filter(([field, args]) => (field === key || field.startsWith(`${key}/`)) && /** @type {any} */ (args).trusted && /** @type {any} */ (args).plain !== undefined);
  return here.length === 0 ? null : /** @type {any} */ (here[here.length - 1][1]).plain;
}

/**
 * @param {any} page
 * @param {any} system
 */
function untrusted(page, system) {
  const { words } = page;
  const would = page.instruments.filter((/** @type {any} */ each) => each.quantity === "SALINITY" && !each.decidesNothing && each.status === "SOUND").map((/** @type {any} */ each) => label(each, words));
  const read = Object.keys(page.visit.readings).some((field) => field.startsWith(`reading/${system.id}/SALINITY`));
  return words(`acclimation.${read ? "untrusted" : "unread"}`, would.length > 0 ? words("acclimation.with", would.join("; ")) : words("acclimation.none"));
}
