// @ts-check
import { unionisedAmmoniaFraction } from "../chemistry/chemistry.js";
import { known } from "./ammonia.js";
import { madeAt } from "./ids.js";
import { restsOn } from "./resting.js";

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
 * @param {boolean} [reasoned] whether somebody said why it was given all the same
 * @returns {string} empty where nothing is known to speak against it
 */
export function advice(page, system, field, dose, reasoned = false) {
  const amount = Number(dose.amount.replace(",", "."));
  if (!system.dosing || !(amount > 0)) {
    return "";
  }
  const name = key(dose.product);
  const limit = system.dosing.limits.find((/** @type {any} */ each) => each.name === name);
  const against = ammonia(page, system, name, amount, dose, limit) || sum(page, system, field, name, amount, dose, limit);
  return against || reasoned ? against : (undecided(page, system, dose)?.words ?? "");
}

/**
 * What the server asks back where a dose rests on an instrument alone on which nothing may rest.
 *
 * @param {any} page
 * @param {any} system
 * @param {{product: string}} dose
 * @returns {import("./resting.js").Against | null}
 */
export function undecided(page, system, dose) {
  return restsOn(page, system, system.dosing?.salts?.raises[saltName(system.dosing, key(dose.product))] ?? null);
}

/**
 * What the guard over doses will ask back of a medicine, copper or an algicide, by its own rule and in its words: what nobody
 * gives before somebody has answered is not written down as given without a signal either.
 *
 * @param {any} page
 * @param {any} system
 * @param {string} field that holds the dose
 * @param {{product: string, amount: string, unit: string}} dose
 * @param {{prepared?: boolean, because?: string}} said
 * @returns {any} as the server refuses; null where it would not, or this device does not know
 */
export function heldBack(page, system, field, dose, said) {
  const facts = system.dosing?.medicines;
  const name = key(dose.product);
  if (!facts || name === "") {
    return null;
  }
  const kind = kindOf(facts, name);
  const against = said.because ? null : (eaten(system.dosing, name, kind, dose) ?? (kind === "COPPER" ? copper(page, system, facts) : null));
  if (against !== null) {
    return refused(page, "product", against.code, against.args);
  }
  if ((kind === "MEDICATION" || kind === "COPPER") && !said.prepared && !said.because) {
    return refused(page, "prepared", "plans.dose.before-medicine", []);
  }
  return said.because ? null : treated(page, system, field, name, dose);
}

/**
 * @param {any} facts
 * @param {string} name
 * @returns {string} what a product is, by what the office stated and by what its name gives away
 */
function kindOf(facts, name) {
  const stated = facts.stated.find((/** @type {any} */ each) => each.name === name)?.kind;
  const named = facts.named.filter((/** @type {any} */ each) => each.parts.some((/** @type {string} */ part) => name.includes(part)));
  const copper = named.some((/** @type {any} */ each) => each.kind === "COPPER");
  // Where the office says medicine and the name says copper, copper kills all the same.
  return copper && (stated === undefined || ["MEDICATION", "ALGICIDE", "OTHER"].includes(stated)) ? "COPPER" : (stated ?? named[0]?.kind ?? "OTHER");
}

/**
 * @param {any} dosing
 * @param {string} name
 * @param {string} kind
 * @param {{product: string}} dose
 */
function eaten(dosing, name, kind, dose) {
  const facts = dosing.medicines;
  if (!facts.eaten) {
    return null;
  }
  if (facts.named.some((/** @type {any} */ each) => each.kind === kind && each.needsOrder) && !facts.ordered.includes(name)) {
    return { code: "plans.dose.eaten", args: [dose.product] };
  }
  const known = facts.stated.some((/** @type {any} */ each) => each.name === name) || saltName(dosing, name) in dosing.salts.raises;
  return !known && kind === "OTHER" ? { code: "plans.dose.eaten-unknown", args: [dose.product] } : null;
}

/** @param {any} page @param {any} system @param {any} facts */
function copper(page, system, facts) {
  const against = facts.copper ?? null;
  const limit = facts.copperByAlkalinity ?? null;
  if (limit === null || against?.code === "plans.dose.copper-animals") {
    return against;
  }
  // It may have been measured since this day was fetched.
  const alkalinity = known(page, system, "", "ALKALINITY")?.value;
  if (alkalinity === undefined) {
    return against;
  }
  return alkalinity < limit ? { code: "plans.dose.copper-soft", args: [shown(alkalinity), shown(limit)] } : null;
}

/**
 * @param {any} page
 * @param {any} system
 * @param {string} field
 * @param {string} name
 * @param {{product: string, amount: string, unit: string}} dose
 */
function treated(page, system, field, name, dose) {
  const treatment = (system.treatments ?? []).find((/** @type {any} */ each) => each.open && each.name === name);
  if (!treatment) {
    return null;
  }
  const on = treatment.things.filter((/** @type {any} */ thing) => (page.visit.fields[`treatment-thing/${treatment.id}/${thing.code}`]?.body.state ?? thing.state) !== "OFF");
  if (on.length > 0) {
    return refused(page, "product", "plans.treatment.still-on", [on.map((/** @type {any} */ thing) => thing.name).join(", ")]);
  }
  if (dose.unit !== treatment.unit) {
    return refused(page, "unit", "plans.dose.other-unit", [dose.unit, treatment.unit]);
  }
  const given = entered(page, system, name).some((each) => each.field !== field);
  const read = treatment.copper ? readHere(page, system) : undefined;
  // What was given here since is not in what was read before it, and this device does not know which came first.
  const left = read ?? (given ? undefined : treatment.residual);
  if (left === undefined && treatment.copper) {
    return refused(page, "product", "plans.treatment.residual-first", [dose.product]);
  }
  const amount = Number(dose.amount.replace(",", "."));
  const most = Math.max(0, treatment.high - (left ?? 0)) / treatment.perUnit;
  return amount > most * (1 + ROUNDING) ? refused(page, "amount", "plans.treatment.too-much", [shown(amount), shown(most), treatment.unit, shown(left ?? 0), shown(treatment.high)]) : null;
}

/** Copper that was read at this visit, mg/L. @param {any} page @param {any} system @returns {number | undefined} */
function readHere(page, system) {
  return Object.entries(page.visit.readings).find(([field, args]) => field.startsWith(`reading/${system.id}/COPPER`) && args.plain !== undefined)?.[1].plain;
}

/**
 * @param {any} page
 * @param {string} field
 * @param {string} code
 * @param {string[]} args
 */
function refused(page, field, code, args) {
  return { status: "refused", code, args: { field, args, words: `${page.words(code, ...args)} ${page.words("dose-guard.here", page.known)}` } };
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

/** The name under which a salt is known, without what says nothing of it. @param {any} dosing @param {string} name */
function saltName(dosing, name) {
  const fillers = dosing.salts?.fillers ?? [];
  return letters(name.replace(/\b[a-z]+\b/g, (word) => (fillers.includes(word) ? " " : word)));
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
  const salt = facts.alkalinitySalts.find((/** @type {any} */ each) => each.names.includes(saltName(facts, name)));
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
 * What was given to a system between two moments, as far as this device knows: at earlier visits, and at this one.
 *
 * @param {any} page
 * @param {any} system
 * @param {number} from in milliseconds
 * @param {number} until likewise
 * @returns {{at: number, product: string, rise: number | null}[]} rise in dKH of what raises alkalinity by a known strength
 */
export function givenBetween(page, system, from, until) {
  const before = (system.dosing?.given ?? []).filter((/** @type {any} */ each) => !each.key.startsWith(`${page.visit.id}/`));
  const here = Object.entries(page.visit.fields).flatMap(([field, each]) => {
    const { body, entry } = /** @type {any} */ (each);
    const at = entry ? madeAt(entry) : Date.now();
    const task = page.agreedDoses.find((/** @type {any} */ agreed) => agreed.field === field && agreed.system === system.id);
    const dose = field.startsWith("dose/") && body.system === system.id ? body : task && body.state === "DONE" ? { product: task.item, amount: task.amount, unit: task.unit } : null;
    return dose === null ? [] : [{ at, name: key(dose.product ?? ""), amount: Number(String(dose.amount).replace(",", ".")), unit: dose.unit }];
  });
  return [...before, ...here]
    .filter(({ at }) => at > from && at <= until)
    .map(({ at, name, amount, unit }) => {
      const salt = system.dosing.alkalinitySalts.find((/** @type {any} */ each) => each.names.includes(saltName(system.dosing, name)));
      return { at, product: name, rise: salt && unit === "g" && amount > 0 ? amount / salt.gramsPerDegree : null };
    });
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
