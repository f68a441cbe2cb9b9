// @ts-check
/**
 * What rests on an instrument alone on which nothing may rest, asked back before the server does, by its own rule and in its
 * words. What stands from before the visit the server has judged already, and the day's bundle tells.
 */
import * as kept from "./kept.js";

/** Nobody reads these off a kit. */
const BY_INSTRUMENT = new Set(["SALINITY", "TEMPERATURE"]);

/**
 * @typedef {{code: string, words: string}} Against
 * @typedef {{quantity: string, named: boolean, instrument?: string, why?: string, salinity?: number, item?: import("./kept.js").Item}} Measured
 *   why nothing may rest on it; the salinity as the server told it, or the item that waits to be judged by it
 */

/**
 * @param {any} page
 * @param {any} system
 * @param {string | null} about the quantity that is changed; null where nobody knows
 * @returns {Against | null}
 */
export function restsOn(page, system, about) {
  const here = measuredHere(page, system);
  const nearest = here.filter((each) => each.quantity === about);
  // A number of which nobody said what showed it is no evidence, for or against.
  const named = (nearest.length > 0 ? nearest : here.filter((each) => each.quantity === "SALINITY")).filter((each) => each.named);
  if (named.length === 0 && nearest.length > 0) {
    return alone(page, "NOT_STATED", /** @type {string} */ (about), undefined);
  }
  const last = undecided(named.length > 0 ? named : before(page, system));
  return last && alone(page, /** @type {string} */ (last.why), "SALINITY", last.instrument);
}

/**
 * That the salinity of salt water that is changed was read too long ago to match new water to it.
 *
 * @param {any} page
 * @param {any} system
 * @returns {Against | null}
 */
export function tooOld(page, system) {
  const { at, on } = system.lastSalinity;
  const code = "visits.salinity-too-old";
  const known = !system.salt || at === undefined || holds(page, system, at) || measuredHere(page, system).some((each) => each.quantity === "SALINITY");
  return known ? null : { code, words: page.words(code, system.name, on) };
}

/**
 * Whether a salinity that was read then still tells of the water.
 *
 * @param {any} page
 * @param {any} system
 * @param {number | undefined} at in milliseconds of the server's clock; undefined where none was read
 */
export function holds(page, system, at) {
  return at !== undefined && at >= page.now() - system.changeLimits.salinityHoldsMs;
}

/**
 * That tank and new water were both measured by one instrument that decides nothing: they only matched.
 *
 * @param {any} page
 * @param {any} system
 * @param {string | undefined} newWater the instrument that measured it
 * @returns {Against | null}
 */
export function onlyMatched(page, system, newWater) {
  const here = measuredHere(page, system).filter((each) => each.quantity === "SALINITY" && each.named);
  const tank = here.length > 0 ? here : before(page, system);
  const last = undecided(tank) && tank.findLast((each) => each.instrument === newWater);
  if (!last) {
    return null;
  }
  const code = `visits.water-change.only-matched.${last.why}`;
  return { code, words: page.words(code, find(page, newWater)?.code ?? "") };
}

/**
 * That what was put in was measured by an instrument that decides nothing.
 *
 * @param {any} page
 * @param {any} instrument undefined where none is named
 * @returns {Against | null}
 */
export function newWaterUndecided(page, instrument) {
  return instrument?.undecided ? alone(page, instrument.undecided, instrument.quantity, instrument.id) : null;
}

/**
 * What speaks against a batch of water going into a system.
 *
 * @param {any} page
 * @param {any} system
 * @param {any} batch undefined where none is named
 * @param {boolean} measured whether the new water was measured at the visit
 * @returns {{unfit: Against | null, doubted: Against | null}}
 */
export function againstBatch(page, system, batch, measured) {
  const fit = !batch?.salt || system.salt;
  const salt = "visits.batch-salt-into-fresh";
  const unfit = fit ? null : { code: salt, words: page.words(salt, batch.number, system.name) };
  if (batch?.unmeasured && !measured) {
    return { unfit, doubted: { code: batch.unmeasured, words: page.words(batch.unmeasured, batch.number) } };
  }
  const used = find(page, batch?.instrument);
  return { unfit, doubted: batch?.doubted && used ? asked(page, "visits.batch-doubted", used.quantity, used.id, batch.number) : null };
}

/** @param {any} page @param {string} why @param {string} quantity @param {string | undefined} instrument */
function alone(page, why, quantity, instrument) {
  return asked(page, `visits.rests-on-alone.${why}`, find(page, instrument)?.quantity ?? quantity, instrument, "");
}

/**
 * @param {any} page
 * @param {string} code
 * @param {string} quantity of the instruments that could be used instead
 * @param {string | undefined} instrument
 * @param {string} batch
 * @returns {Against}
 */
function asked(page, code, quantity, instrument, batch) {
  const others = page.instruments.filter((/** @type {any} */ one) => one.quantity === quantity && !one.undecided && one.id !== instrument).map((/** @type {any} */ one) => one.code);
  const whole = others.length > 0 ? code : `${code}.none`;
  return { code: whole, words: page.words(whole, find(page, instrument)?.code ?? "", others.join(", "), batch) };
}

/** The last of these where none of them decides anything. @param {Measured[]} readings */
function undecided(readings) {
  return readings.every((each) => each.why) ? (readings.at(-1) ?? null) : null;
}

/** @param {any} page @param {any} system @returns {Measured[]} */
function before(page, system) {
  return holds(page, system, system.saltUndecided?.at) ? [{ quantity: "SALINITY", named: true, ...system.saltUndecided }] : [];
}

/** @param {any} page @param {string | undefined} id */
function find(page, id) {
  return page.instruments.find((/** @type {any} */ each) => each.id === id);
}

/**
 * What was measured of a system at this visit and counts: as the server told, and on this device since.
 *
 * @param {any} page
 * @param {any} system
 * @returns {Measured[]}
 */
export function measuredHere(page, system) {
  const items = Object.entries(page.visit.taken)
    .filter(([key]) => key.startsWith(`reading/${system.id}/`))
    .flatMap(([, taken]) => /** @type {import("./kept.js").Item[]} */ (taken))
    .filter((item) => kept.isSince(item, page.day))
    .sort((one, other) => one.sequence - other.sequence);
  const corrected = new Set(items.map((item) => item.entry.body.reading));
  const told = (page.visit.measured ?? []).filter((/** @type {any} */ each) => each.system === system.id && !items.some((item) => item.entry.id === each.reading));
  const since = items.filter((item) => item.entry.body.answer !== "NOT_MEASURED").map((item) => read(page, item));
  return [...told, ...since].filter((each) => !corrected.has(each.reading));
}

/** @param {any} page @param {import("./kept.js").Item} item */
function read(page, item) {
  const { quantity, instrument, kitLot } = item.entry.body;
  return { reading: item.entry.id, item, quantity, instrument, named: Boolean(instrument) || (!BY_INSTRUMENT.has(quantity) && isLot(kitLot ?? "")), why: find(page, instrument)?.undecided };
}

/** Two letters or digits, one of them a digit, as at the server. @param {string} lot */
function isLot(lot) {
  return /\p{Nd}/u.test(lot) && (lot.match(/[\p{L}\p{Nd}]/gu) ?? []).length >= 2;
}
