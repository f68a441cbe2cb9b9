// @ts-check
/**
 * The verdict on a reading before the server has given one: worked out on this device by the same rule, from what the day's
 * bundle tells of instruments and targets. What the server says stands once it has said it.
 */
import { askedBack as asked, readingVerdict, surprise, typedNumber } from "../chemistry/chemistry.js";
import { h } from "./fields.js";

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
function isLow(page, system) {
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

/** Whether this person writes decimals after a comma. */
function comma() {
  return new Intl.NumberFormat(document.documentElement.lang).format(1.5).includes(",");
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
 * @param {{words: (code: string, ...args: any[]) => string}} page
 * @param {any} measure
 * @param {string} point
 * @param {any} args the verdict on the reading
 * @param {any} body of the reading
 * @param {number} at when it was taken, in milliseconds
 * @returns {string} "" where nothing surprises, or too little is known
 */
export function surprising(page, measure, point, args, body, at) {
  const earlier = measure.earlier?.[point];
  const salt = body.quantity === "SALINITY";
  const value = salt ? args.salinity : args.corrected;
  const uncertainty = salt ? args.salinityUncertainty : args.uncertainty;
  if (!earlier || body.answer !== "VALUE" || !args.trusted || args.peril || args.overLowSump || typeof value !== "number" || typeof uncertainty !== "number") {
    return "";
  }
  const found = surprise(body.quantity, salt ? "S" : body.unit, { value, uncertainty, atEpochMilli: at }, earlier.readings, earlier.planned ?? null);
  if (!found) {
    return "";
  }
  const amount = (/** @type {number} */ number) => `${written(number, number < 1 ? 2 : 1)} ${measure.plainUnit}`.trim();
  const why = page.words("surprise.why", earlier.asWritten, earlier.on, amount(found.movement), amount(found.methods));
  return found.planned === null ? why : `${why} ${page.words("surprise.planned", amount(found.planned))}`;
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
    const before = this.page.perils[this.key];
    const stands = before && before.reading !== id && !args.peril && !args.tellsOfNoDanger;
    this.show({ ...args, local: true, ...(stands ? { asked: before } : {}) });
  }

  /** The server has answered. @param {any} args its verdict; null where it took in none, so that what it said before stands */
  answered(args) {
    clearTimeout(this.soon);
    const waited = this.item !== null;
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
