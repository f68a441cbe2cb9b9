// @ts-check
import { unionisedAmmoniaFraction } from "../chemistry/chemistry.js";

/** @typedef {{value: number, words: string}} Known */

/**
 * The un-ionised part of the ammonia that was found, from pH, temperature and salinity of this visit or the last known.
 *
 * @param {any} page
 * @param {any} system
 * @param {string} point where the ammonia was measured
 * @param {number|undefined} total mg/L; undefined where the answer is no number
 * @returns {string[]} sentences
 */
export function unionised(page, system, point, total) {
  const { words } = page;
  const ph = known(page, system, point, "PH");
  const warmth = known(page, system, point, "TEMPERATURE");
  const salinity = system.salt ? known(page, system, point, "SALINITY") : { value: 0, words: words("ammonia.fresh") };
  if (ph === null || warmth === null || salinity === null) {
    const missing = Object.entries({ PH: ph, TEMPERATURE: warmth, SALINITY: salinity })
      .filter(([, found]) => found === null)
      .map(([quantity]) => words(`ammonia.${quantity}`));
    return [words("ammonia.missing", missing.join(", "))];
  }
  let share;
  try {
    share = unionisedAmmoniaFraction(ph.value, warmth.value, salinity.value);
  } catch {
    return [words("ammonia.beyond", [ph.words, warmth.words, salinity.words].join("; "))];
  }
  const format = new Intl.NumberFormat(document.documentElement.lang, { maximumSignificantDigits: 2 });
  const part = total === undefined ? words("ammonia.share", format.format(share * 100)) : words("ammonia.part", format.format(share * 100), format.format(share * total));
  return [part, words("ammonia.from", [ph.words, warmth.words, salinity.words].join("; ")), words("ammonia.harms")];
}

/**
 * What was measured at this visit, at the same point where it was, else what was measured last.
 *
 * @param {any} page
 * @param {any} system
 * @param {string} point
 * @param {string} quantity
 * @returns {Known | null}
 */
export function known(page, system, point, quantity) {
  const { words } = page;
  const key = `reading/${system.id}/${quantity}`;
  const here = Object.entries(page.visit.readings)
    .filter(([field, args]) => (field === key || field.startsWith(`${key}/`)) && args.plain !== undefined)
    .sort(([one], [other]) => Number(other === `${key}/${point}`) - Number(one === `${key}/${point}`));
  if (here.length > 0) {
    const args = here[0][1];
    return { value: args.plain, words: words(args.trusted ? "ammonia.here" : "ammonia.here.untrusted", args.words.asWritten) };
  }
  const last = [...system.measures, ...(system.dosingKnown ?? [])].find((/** @type {any} */ each) => each.quantity === quantity)?.last.find((/** @type {any} */ each) => each.plain !== undefined);
  return last ? { value: last.plain, words: words(last.trusted ? "ammonia.last" : "ammonia.last.untrusted", last.asWritten, last.on) } : null;
}
