// @ts-check
/**
 * The verdict on a reading before the server has given one: worked out on this device by the same rule, from what the day's
 * bundle tells of instruments and targets. What the server says stands once it has said it.
 */
import { askedBack as asked, comparison, readingVerdict, salinityWay, scaleReading, surprise, typedNumber } from "../chemistry/chemistry.js";
import { comma } from "./asking.js";
import { givenBetween } from "./dosing.js";
import { h } from "./fields.js";
import { madeAt } from "./ids.js";
import { celsius as inCelsius, practical, share } from "./water.js";

/** Two readings this far apart are still of the same water, as at the server. */
const ONE_SAMPLE_MS = 10 * 60_000;

/** With a connection the server's answer comes sooner, and nothing is said twice. */
const SILENCE_MS = 1500;

/**
 * What is entered before the server has said anything of it, as it will be judged.
 *
 * @typedef {{instruments: any[], decisionRule: string, words: (code: string, ...args: any[]) => string, visit: any, perils: Record<string, any>}} Known
 * @param {Known} page
 * @param {any} system
 * @param {any} measure
 * @param {any} body as it is sent
 * @param {string} id of the entry, and so of the reading
 * @param {number} at when it was taken, in milliseconds
 * @returns {any} as the server answers; null where it would refuse what was typed, or not enough is known
 */
export function judge(page, system, measure, body, id, at) {
  const lower = ["VALUE", "ABOVE_RANGE", "BETWEEN"].includes(body.answer) ? typed(body.value) : null;
  const upper = body.answer === "BETWEEN" ? typed(body.upperValue) : body.answer === "BELOW_DETECTION" ? typed(body.value) : body.answer === "VALUE" ? lower : null;
  const celsius = body.sampleTemperature ? typed(body.sampleTemperature) : null;
  const used = page.instruments.find((each) => each.id === body.instrument);
  // A day that an older program gave says nothing of how to judge.
  if ([lower, upper, celsius].some((number) => number?.refusal) || (body.instrument && !used) || !measure.judging) {
    return null;
  }
  const { target, pointTargets, danger, plans } = measure.judging;
  const reading = {
    quantity: body.quantity,
    unit: body.unit,
    gravityReference: body.gravityReference,
    lower: lower?.value,
    lowerDecimals: lower?.decimals,
    upper: upper?.value,
    upperDecimals: upper?.decimals,
    because: body.because,
    atEpochMilli: at,
    sampleCelsius: celsius?.value,
    lotStated: Boolean(body.kitLot),
  };
  const instrument = used && { ...used.judging, rangeLowWords: used.rangeLowWords, rangeHighWords: used.rangeHighWords, expiresWords: used.expiresWords };
  let found;
  try {
    found = readingVerdict(reading, instrument, pointTargets[body.samplePoint] ?? target, danger, page.decisionRule, speaker(page));
  } catch {
    return null;
  }
  const known = { reading: id, answer: body.answer, ...found, sign: sign(found) };
  // The message about what is missing is the server's.
  for (const absent of ["corrected", "uncertainty", "salinity", "salinityUncertainty", "plain"]) {
    if (known[absent] === null) {
      delete known[absent];
    }
  }
  if (body.quantity === "SALINITY" && isLow(page, system)) {
    return notJudged(page, known);
  }
  return found.asksBeforeLeaving ? { ...known, peril: { certain: found.endangers, words: found.words.danger, ...plans[found.verdict] } } : known;
}

/** What was read while the sump was low is no salinity to judge: the water that is missing was pure. @param {Known} page @param {any} system */
export function isLow(page, system) {
  return page.visit.fields[`top-up/${system.id}`]?.body.atMark === false;
}

/** @param {Known} page @param {any} known */
function notJudged(page, known) {
  const said = (/** @type {string} */ part) => page.words(`low-sump.row${part}`);
  const words = { asWritten: known.words.asWritten, target: known.words.target, word: said(""), sentence: said(".sentence"), advice: [said(".advice")] };
  return { ...known, words, sign: null, overLowSump: true, trusted: false, verdict: "UNDECIDED" };
}

/** The state beside the word, as the drawn verdict has it. @param {any} found */
function sign(found) {
  if (found.corrected === null || found.verdict === "NO_TARGET") {
    return null;
  }
  if (!found.trusted) {
    return { icon: "untrusted", signal: true };
  }
  return found.verdict === "ABOVE" || found.verdict === "BELOW" ? { icon: "needed", signal: true } : null;
}

/** @param {string} text */
function typed(text) {
  return typedNumber(text, comma());
}

/**
 * What the server would ask back of a reading, by the same rule and in its words, so that nobody walks away from a number
 * that cannot be.
 *
 * @param {{words: (code: string, ...args: any[]) => string}} page
 * @param {any} body as it would be sent
 * @returns {any} as the server refuses; null where it would take the reading
 */
export function askedBack(page, body) {
  const measured = body.answer !== "NOT_MEASURED";
  const found = asked(
    {
      quantity: body.quantity,
      unit: body.unit,
      exact: body.answer === "VALUE",
      belowDetection: body.answer === "BELOW_DETECTION",
      value: measured ? body.value : null,
      upperValue: body.upperValue,
      sampleTemperature: body.sampleTemperature,
    },
    comma(),
  );
  return found && { status: "refused", code: found.code, args: { field: found.field, args: found.args, words: page.words(found.code, ...found.args) } };
}

/**
 * What is said where a reading lies further from the last trusted one than such water moves.
 *
 * @param {any} page
 * @param {any} system
 * @param {any} measure
 * @param {string} point
 * @param {any} args the verdict on the reading
 * @param {any} body of the reading
 * @returns {string} "" where nothing surprises, or too little is known
 */
export function surprising(page, system, measure, point, args, body) {
  const earlier = measure.earlier?.[point];
  const salt = body.quantity === "SALINITY";
  const value = salt ? args.salinity : args.corrected;
  const uncertainty = salt ? args.salinityUncertainty : args.uncertainty;
  if (!earlier || body.answer !== "VALUE" || !args.trusted || args.peril || args.overLowSump || typeof value !== "number" || typeof uncertainty !== "number") {
    return "";
  }
  const at = madeAt(args.reading);
  const done = { salt: system.salt, acts: doneSince(page, system, body.quantity, earlier.readings.at(-1).atEpochMilli, at) };
  const found = surprise(body.quantity, salt ? "S" : body.unit, { value, uncertainty, atEpochMilli: at }, earlier.readings, earlier.planned ?? null, done);
  if (!found) {
    return "";
  }
  const amount = (/** @type {number} */ number) => `${written(number, number < 1 ? 2 : 1)} ${measure.plainUnit}`.trim();
  const why = page.words("surprise.why", earlier.asWritten, earlier.on, amount(found.movement), amount(found.methods));
  const planned = found.planned === null ? "" : page.words("surprise.planned", amount(found.planned));
  const bound = (/** @type {number | null} */ number) => (number === null ? "…" : amount(number));
  const acts = done.acts.length === 0 ? "" : page.words("surprise.done", bound(found.lowest), bound(found.highest));
  return [why, planned, acts].filter(Boolean).join(" ");
}

/**
 * What was changed and dosed since the last reading and before this one, in the order of it.
 *
 * @param {any} page
 * @param {any} system
 * @param {string} quantity
 * @param {number} from in milliseconds
 * @param {number} until likewise
 */
function doneSince(page, system, quantity, from, until) {
  const fresh = (/** @type {any} */ change) => (quantity === "SALINITY" ? (change.salinity ?? null) : quantity === "TEMPERATURE" ? (change.celsius ?? null) : null);
  const before = (system.changes ?? []).filter((/** @type {any} */ change) => change.visit !== page.visit.id);
  const here = page.visit.fields[`water-change/${system.id}`];
  const changes = [...before, ...(here?.entry ? [{ at: madeAt(here.entry), ...changedHere(page, system, here.body) }] : [])]
    .filter(({ at }) => at > from && at <= until)
    .map((change) => ({ at: change.at, share: change.share, fresh: fresh(change) }));
  const doses = givenBetween(page, system, from, until).map(({ at, product, rise }) => ({ at, product, rise: quantity === "ALKALINITY" ? rise : null }));
  return [...changes, ...doses].sort((one, other) => one.at - other.at);
}

/** @param {any} page @param {any} system @param {any} body of a change of water at this visit */
function changedHere(page, system, body) {
  const read = (/** @type {string | undefined} */ text) => (text ? typed(text).value : undefined);
  return {
    share: share(page, system, read(body.out) ?? 0, read(body.in) ?? read(body.out) ?? 0),
    salinity: practical(read(body.salinity), body.salinityUnit, body.gravityReference),
    celsius: inCelsius(read(body.temperature), body.temperatureUnit),
  };
}

/**
 * What another instrument showed of the same sample, where the two disagree by more than their uncertainties allow.
 *
 * @param {any} page
 * @param {any} system
 * @param {any} measure
 * @param {string} key
 * @param {import("./kept.js").Item} item the reading
 * @param {any} args its verdict
 * @returns {any} as the server words it; undefined where they agree, or no other read it
 */
function disagreeing(page, system, measure, key, item, args) {
  const taken = page.visit.taken[key] ?? [];
  const corrected = taken.map((/** @type {any} */ each) => each.entry.body.reading);
  const own = sideOf(page, item, args);
  if (own === null) {
    return undefined;
  }
  for (const other of taken) {
    const { id, body } = other.entry;
    const apart = Math.abs(other.at - item.at);
    if (id === item.entry.id || corrected.includes(id) || apart > ONE_SAMPLE_MS || body.instrument === item.entry.body.instrument || body.answer !== "VALUE") {
      continue;
    }
    const judged = judge(page, system, measure, body, id, other.at);
    const side = judged && sideOf(page, other, judged);
    const found = side && comparison(own.side, side.side);
    if (found && !found.agree) {
      return compared(page, found, own.code, side.code);
    }
  }
  return undefined;
}

/** What an instrument said, as it is compared. @param {any} page @param {any} item @param {any} args */
function sideOf(page, item, args) {
  const { body } = item.entry;
  const used = page.instruments.find((/** @type {any} */ each) => each.id === body.instrument);
  const salt = body.quantity === "SALINITY";
  const value = salt ? args.salinity : args.corrected;
  const uncertainty = salt ? args.salinityUncertainty : args.uncertainty;
  if (!used?.judging || body.answer !== "VALUE" || typeof value !== "number" || !(uncertainty > 0)) {
    return null;
  }
  const side = { value, uncertainty, unit: salt ? "S" : body.unit, read: typed(body.value).value, history: used.judging.history, status: args.status, atEpochSecond: Math.floor(item.at / 1000) };
  return { code: used.code, side };
}

/**
 * @param {any} page
 * @param {any} found
 * @param {string} code of the instrument that the reading was taken with
 * @param {string} otherCode
 */
function compared(page, found, code, otherCode) {
  const { words } = page;
  /** @type {Record<string, string>} */
  const codes = { FIRST: code, SECOND: otherCode };
  const likelier = codes[found.likelierWrong] ? words("readings.second.likelier", codes[found.likelierWrong]) : words("readings.second.open");
  const step = (/** @type {string} */ name) => (name.startsWith("CHECK_") ? words("readings.step.CHECK", codes[name.slice("CHECK_".length)]) : words(`readings.step.${name}`));
  return {
    sentence: words("readings.second.disagree", code, otherCode, written(Math.abs(found.normalizedError), 1)),
    likelier: [likelier, ...found.grounds.map((/** @type {string} */ ground) => words(`readings.ground.${ground}`))].join(" "),
    next: found.next.map(step),
  };
}

/**
 * The steps of a salinity back to its target, where the instrument was wrong for certain: those of the plan, or as one would
 * have them.
 *
 * @param {any} page
 * @param {any} system
 * @param {any} body
 * @param {any} args the verdict
 * @returns {any} as the server shows them; undefined where there is no way, or it is not known
 */
function wayBack(page, system, body, args) {
  const way = system.wayBack;
  const wrong = args.reasons?.some((/** @type {any} */ reason) => reason.code === "READS_LOW_BY" || reason.code === "READS_HIGH_BY");
  if (!way || body.quantity !== "SALINITY" || args.trusted || args.status === "SUSPECT" || !wrong || typeof args.salinity !== "number") {
    return undefined;
  }
  const steps = way.plan ?? drawn(way, args);
  if (steps.length === 0) {
    return undefined;
  }
  const [sample, water] = String(body.gravityReference ?? "").split("/").map(Number);
  const scale = {
    SG: { unit: "SPECIFIC_GRAVITY", reference: { sampleCelsius: sample, waterCelsius: water }, graduation: "SEAWATER" },
    S: { unit: "PRACTICAL_SALINITY", reference: null, graduation: "SEAWATER" },
    "mS/cm": { unit: "CONDUCTIVITY_AT_25", reference: null, graduation: "SEAWATER" },
  }[/** @type {"SG"|"S"|"mS/cm"} */ (body.unit)];
  if (!scale) {
    return undefined;
  }
  const values = steps.map((/** @type {any} */ step) => scaleReading(scale, step.after));
  const whole = typeof args.corrected === "number" ? [args.corrected, ...values] : values;
  const usual = body.unit === "SG" ? 3 : 1;
  const rounded = whole.map((/** @type {number} */ value) => written(value, usual));
  const places = rounded.some((/** @type {string} */ value, /** @type {number} */ at) => at > 0 && value === rounded[at - 1]) ? usual + 1 : usual;
  const unit = body.unit === "SG" ? `SG ${body.gravityReference}` : body.unit;
  return steps.map((/** @type {any} */ step, /** @type {number} */ at) => ({ on: step.on, value: `${written(values[at], places)} ${unit}` }));
}

/** @param {any} way @param {any} args */
function drawn(way, args) {
  const perDay = way.to > args.salinity ? way.raising : way.lowering;
  if (way.to === undefined || perDay === undefined || (args.verdict !== "ABOVE" && args.verdict !== "BELOW") || args.overLowSump) {
    return [];
  }
  try {
    return salinityWay(args.salinity, { ...way, perDay }).map((/** @type {any} */ step) => ({ on: way.on[step.visit], after: step.after }));
  } catch {
    // The means do not lead there.
    return [];
  }
}

/** @param {Known} page */
function speaker(page) {
  return {
    text: (/** @type {string} */ code, /** @type {string[]} */ args) => page.words(code, ...args),
    number: written,
  };
}

/**
 * A number with so many decimals, halves to the even digit, as the office writes it.
 *
 * @param {number} value
 * @param {number} decimals
 */
export function written(value, decimals) {
  // All digits of it, so that a half is told from what only looks like one.
  const [whole, fraction] = value.toFixed(100).split(".");
  const half = /^50*$/.test(fraction.slice(decimals));
  const last = Number(decimals === 0 ? whole.at(-1) : fraction[decimals - 1]);
  const cut = Number(decimals === 0 ? whole : `${whole}.${fraction.slice(0, decimals)}`);
  const rounded = half && last % 2 === 0 ? cut : Number(value.toFixed(decimals));
  return new Intl.NumberFormat(document.documentElement.lang, { useGrouping: false, minimumFractionDigits: decimals, maximumFractionDigits: decimals }).format(rounded);
}

/**
 * What nobody has said yet what was done about, though nobody should leave with it.
 *
 * @param {{perils: Record<string, any>, quantities: Record<string, string>, visit: any}} page
 */
export function unsaid({ perils, quantities, visit }) {
  return Object.entries(perils)
    .filter(([, args]) => !visit.fields[`danger/${args.reading}`]?.body.done)
    .map(([key, args]) => `${quantities[key] ?? ""} (${args.words.asWritten})`)
    .join(", ");
}

/** Gives a row its verdict until the server's comes. */
export class LocalVerdict {
  /**
   * @param {any} page
   * @param {any} system
   * @param {any} measure
   * @param {string} key
   * @param {(args: any) => void} show
   * @param {() => void} unshow takes back what was shown
   */
  constructor(page, system, measure, key, show, unshow) {
    this.page = page;
    this.system = system;
    this.measure = measure;
    this.key = key;
    this.show = show;
    this.unshow = unshow;
    /** The entry that waits for the server's answer. @type {import("./kept.js").Item | null} */
    this.item = null;
    /** What the server said last. @type {any} */
    this.said = page.visit.readings[key];
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    this.soon = undefined;
    this.element = h("p", { class: "fine reading-more", hidden: true });
    page.unjudged.push(() => this.again());
  }

  /**
   * How far an entry is on its way to the server.
   *
   * @param {import("./store.js").Progress} step
   * @param {import("./kept.js").Item} [item]
   */
  told(step, item) {
    if (step === "saving") {
      return;
    }
    clearTimeout(this.soon);
    if (step === "kept" && item) {
      this.item = item;
      const taken = this.page.visit.taken;
      taken[this.key] = [...(taken[this.key] ?? []), item];
    }
    if (step === "failed" || step === "signed-out" || this.page.waiting?.trouble) {
      this.again();
    } else if (step === "kept") {
      this.soon = setTimeout(() => this.again(), SILENCE_MS);
    }
  }

  /** An entry that an earlier page kept. @param {import("./kept.js").Item} item */
  resume(item) {
    this.item = item;
    this.again();
  }

  /** Judges what waits, with what is known by now. */
  again() {
    if (this.item === null) {
      return;
    }
    const { id, body } = this.item.entry;
    const args = judge(this.page, this.system, this.measure, body, id, this.item.at);
    if (args === null) {
      return;
    }
    const disagree = disagreeing(this.page, this.system, this.measure, this.key, this.item, args);
    if (disagree !== undefined) {
      args.words = { ...args.words, disagree };
    }
    args.ramp = wayBack(this.page, this.system, body, args);
    const before = this.page.perils[this.key];
    const stands = before && before.reading !== id && !args.peril && !args.tellsOfNoDanger;
    this.show({ ...args, local: true, ...(stands ? { asked: before } : {}) });
  }

  /** The server has answered. @param {any} args its verdict; null where it took in none, so that what it said before stands */
  answered(args) {
    clearTimeout(this.soon);
    const waited = this.item !== null;
    const taken = this.page.visit.taken;
    if (args === null && taken[this.key]) {
      // What was refused was not measured.
      taken[this.key] = taken[this.key].filter((/** @type {any} */ each) => each !== this.item);
    }
    this.item = null;
    if (args !== null) {
      this.said = args;
    } else if (waited && this.said) {
      this.show(this.said);
    } else if (waited) {
      this.unshow();
    }
  }

  /** Says where a verdict comes from that the server has not given. @param {any} args null where none is shown */
  tell(args) {
    this.element.textContent = args?.local ? this.page.words("judged-here", this.page.known) : "";
    this.element.hidden = !args?.local;
  }
}
