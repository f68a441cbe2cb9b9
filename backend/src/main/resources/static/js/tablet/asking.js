// @ts-check
/**
 * What the server will ask back of the numbers of a field, said before anything is kept: by its own rules and in its words, so
 * that nobody walks away from a number that it does not take.
 */
import { askedBack, typedNumber } from "../chemistry/chemistry.js";

const LITRES_PER_GALLON = 3.785411784;
/** Digits to which the server rounds a volume. */
const DIGITS = 6;

/** @typedef {{words: (code: string, ...args: any[]) => string}} Speaking */
/** @typedef {{status: 'refused', code: string, args: {field: string, args: string[], words: string}} | null} Asked */

/** Whether this person writes decimals after a comma. */
export function comma() {
  return new Intl.NumberFormat(document.documentElement.lang).format(1.5).includes(",");
}

/**
 * The first of several that asks something.
 *
 * @param {...(() => any)} asking
 * @returns {any} as the server refuses; null where it would take all
 */
export function firstAsked(...asking) {
  for (const ask of asking) {
    const asked = ask();
    if (asked !== null) {
      return asked;
    }
  }
  return null;
}

/**
 * @param {Speaking} page
 * @param {string} field
 * @param {string} code
 * @param {string[]} args
 */
function refusal(page, field, code, args) {
  return { status: /** @type {const} */ ("refused"), code, args: { field, args, words: page.words(code, ...args) } };
}

/**
 * Words that have to be there.
 *
 * @param {Speaking} page
 * @param {any} body as it would be sent
 * @param {string} field
 * @param {string} name what the person calls it
 * @returns {any}
 */
export function wordsNeeded(page, body, field, name) {
  return body[field] ? null : refusal(page, field, "visits.missing", [name]);
}

/**
 * A number of a quantity, held against what is plausible for it.
 *
 * @param {Speaking} page
 * @param {any} body as it would be sent
 * @param {string} field
 * @param {string} quantity
 * @param {string} unit
 * @returns {any}
 */
export function quantityAsked(page, body, field, quantity, unit) {
  if (!body[field]) {
    return null;
  }
  const found = askedBack({ quantity, unit, exact: true, belowDetection: false, value: body[field] }, comma());
  return found && refusal(page, field, found.code, found.args);
}

/**
 * A number from one bound to another.
 *
 * @param {Speaking} page
 * @param {any} body
 * @param {string} field
 * @param {string} low
 * @param {string} high
 * @param {boolean} [whole]
 * @returns {any}
 */
export function numberAsked(page, body, field, low, high, whole = false) {
  if (!body[field]) {
    return null;
  }
  const typed = typedNumber(body[field], comma());
  if (typed.refusal) {
    return refusal(page, field, `web.${typed.refusal}`, [body[field]]);
  }
  if (typed.value < Number(low) || typed.value > Number(high)) {
    return refusal(page, field, "visits.number-out-of-range", [plain(typed), low, high]);
  }
  return whole && !Number.isInteger(typed.value) ? refusal(page, field, "web.number-not-whole", [plain(typed)]) : null;
}

/**
 * A number that has to be there.
 *
 * @param {Speaking} page
 * @param {any} body as it would be sent
 * @param {string} field
 * @param {string} low
 * @param {string} high
 * @returns {any}
 */
export function numberNeeded(page, body, field, low, high) {
  return body[field] ? numberAsked(page, body, field, low, high) : refusal(page, field, "visits.number-missing", [low, high]);
}

/**
 * A volume above nothing and up to twice what the system holds.
 *
 * @param {Speaking} page
 * @param {any} body with its unit
 * @param {string} field
 * @param {any} system
 * @returns {any}
 */
export function volumeAsked(page, body, field, system) {
  if (!body[field]) {
    return null;
  }
  const typed = typedNumber(body[field], comma());
  if (typed.refusal) {
    return refusal(page, field, `web.${typed.refusal}`, [body[field]]);
  }
  const most = (2 * system.netVolumeL) / (body.unit === "gal" ? LITRES_PER_GALLON : 1);
  return typed.value > 0 && typed.value <= most ? null : refusal(page, field, "visits.volume-out-of-range", [plain(typed), String(Number(most.toPrecision(DIGITS))), system.name]);
}

/** @param {{value: number, decimals: number}} typed */
function plain({ value, decimals }) {
  return value.toFixed(decimals);
}
