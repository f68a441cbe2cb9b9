// @ts-check
import { unionisedAmmoniaFraction } from "../chemistry/chemistry.js";
import { known } from "./ammonia.js";

const DAY_HOURS = 24;
const HIGHEST_PH = 11;
const ROUNDING = 0.02;
const HOUR_MS = 3600000;

/**
 * What the guard over doses will say of a dose, as far as the device knows without a connection. It is said at once, before
 * the server has answered; the server decides.
 *
 * @param {any} page
 * @param {any} system
 * @param {string} field that holds the dose, such as dose/LINE
 * @param {{product: string, amount: string, unit: string}} dose
 * @returns {string} empty where nothing is known to speak against it
 */
export function advice(page, system, field, dose) {
  const amount = Number(dose.amount.replace(",", "."));
  if (!system.dosing || !(amount > 0)) {
    return "";
  }
  const name = key(dose.product);
  const limit = system.dosing.limits.find((/** @type {any} */ each) => each.name === name);
  return ammonia(page, system, name, amount, dose, limit) || sum(page, system, field, name, amount, dose, limit);
}

/** As the guard knows names: without capitals, kinds of blanks and hyphens, and what nobody sees. @param {string} product */
function key(product) {
  return product
    .normalize("NFKC")
    .replace(/\p{Cf}+/gu, "")
    .replace(/[\s\p{Z}\p{Cc}\p{Pd}_]+/gu, " ")
    .trim()
    .toLowerCase();
}

/** @param {string} name */
function letters(name) {
  return name.replace(/[^a-z0-9]/g, "").replace("sulph", "sulf");
}

/**
 * @param {any} page
 * @param {any} system
 * @param {string} name
 * @param {number} amount
 * @param {{product: string, unit: string}} dose
 * @param {any} limit
 */
function ammonia(page, system, name, amount, dose, limit) {
  const { words } = page;
  const facts = system.dosing;
  const plain = letters(name);
  const salt = facts.alkalinitySalts.find((/** @type {any} */ each) => each.names.includes(plain));
  const raises = salt || limit?.raisesPh || facts.raisePh.some((/** @type {string} */ part) => plain.includes(part));
  const total = raises ? (known(page, system, "", "AMMONIA")?.value ?? 0) : 0;
  if (total === 0) {
    return "";
  }
  const ph = known(page, system, "", "PH");
  const warmth = known(page, system, "", "TEMPERATURE");
  const salinity = system.salt ? (known(page, system, "", "SALINITY")?.value ?? 35) : 0;
  const alkalinity = known(page, system, "", "ALKALINITY")?.value ?? 0;
  let now;
  let then;
  if (ph !== null && warmth !== null) {
    const weighed = salt && dose.unit === "g" && alkalinity > 0;
    const rise = weighed ? Math.log10((alkalinity + amount / salt.gramsPerDegree) / alkalinity) : facts.phPerDay;
    try {
      now = total * unionisedAmmoniaFraction(ph.value, warmth.value, salinity);
      then = total * unionisedAmmoniaFraction(Math.min(HIGHEST_PH, ph.value + rise), warmth.value, salinity);
    } catch {
      now = undefined;
    }
  }
  if (now === undefined || then === undefined) {
    return total >= facts.ammonia.noticeable ? words("dose-guard.ammonia-blind", dose.product, shown(total)) : "";
  }
  return then >= facts.ammonia.harms || total >= facts.ammonia.much ? words("dose-guard.ammonia", dose.product, shown(total), shown(now), shown(then)) : "";
}

/**
 * @param {any} page
 * @param {any} system
 * @param {string} field
 * @param {string} name
 * @param {number} amount
 * @param {{product: string, unit: string}} dose
 * @param {any} limit
 */
function sum(page, system, field, name, amount, dose, limit) {
  const { words } = page;
  if (!limit) {
    return "";
  }
  const visit = page.visit.id;
  const before = system.dosing.given.filter((/** @type {any} */ each) => each.name === name && !each.key.startsWith(`${visit}/`));
  const age = (/** @type {any} */ each) => (Date.now() - each.at) / HOUR_MS;
  const here = entered(page, system, name).filter((each) => each.field !== field);
  if (limit.leastHours > 0 && (here.length > 0 || before.some((/** @type {any} */ each) => age(each) < limit.leastHours))) {
    return words("dose-guard.too-soon", dose.product, limit.leastHours);
  }
  if (limit.most > 0 && limit.unit === dose.unit) {
    const today = before.filter((/** @type {any} */ each) => age(each) < DAY_HOURS && each.unit === dose.unit);
    const given = [...today, ...here.filter((each) => each.unit === dose.unit)].reduce((all, each) => all + Number(each.amount), 0);
    if (amount > limit.most - given + limit.most * ROUNDING) {
      return words("dose-guard.too-much", shown(amount), shown(Math.max(0, limit.most - given)), dose.unit);
    }
  }
  return "";
}

/**
 * What this visit tells of a product so far, saved or not: entries, and ticks where no entry says more.
 *
 * @param {any} page
 * @param {any} system
 * @param {string} name
 * @returns {{field: string, amount: number, unit: string}[]}
 */
function entered(page, system, name) {
  const fields = new Map(Object.entries(page.visit.fields).map(([field, each]) => [field, /** @type {any} */ (each).body]));
  page.drafts.keys("").forEach((/** @type {string} */ field) => fields.set(field, page.drafts.of(field).body));
  const entries = [...fields]
    .filter(([field, body]) => field.startsWith("dose/") && body?.system === system.id && key(body.product ?? "") === name)
    .map(([field, body]) => ({ field, amount: Number(String(body.amount).replace(",", ".")), unit: body.unit, further: body.further === true }));
  const ticks = page.agreedDoses
    .filter((/** @type {any} */ task) => task.system === system.id && key(task.item ?? "") === name && fields.get(task.field)?.state === "DONE")
    .map((/** @type {any} */ task) => ({ field: task.field, amount: Number(task.amount), unit: task.unit, further: false }));
  return entries.some((each) => !each.further) ? entries : [...entries, ...ticks];
}

/** @param {number} value */
function shown(value) {
  return new Intl.NumberFormat(document.documentElement.lang, { maximumSignificantDigits: 3 }).format(value);
}
