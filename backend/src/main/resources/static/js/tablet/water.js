// @ts-check
import { blendedSalinity, scaleSalinity } from "../chemistry/chemistry.js";
import { firstAsked, quantityAsked, volumeAsked } from "./asking.js";
import { SavedField, choice, entry, h, meant, newId, written } from "./fields.js";
import { isLow, judge } from "./judging.js";
import { label, preset } from "./readings.js";
import { againstBatch, holds, measuredHere, newWaterUndecided, onlyMatched, restsOn, tooOld } from "./resting.js";

/** As the server mixes them: both waters as warm as this. */
const MIXED_AT = 25;
/** Beyond this no density is published, and nobody pours it. */
const HIGHEST_SALINITY = 50;
export const LITRES_PER_GALLON = 3.785411784;

/**
 * @param {any} page
 * @param {any} system
 * @param {any[]} due
 */
export function waterChange(page, system, due) {
  const { words } = page;
  const field = new SavedField(page, `water-change/${system.id}`, words("change"), {
    answered: (result) => {
      mind.textContent = result.args.words ?? "";
      why.hidden = because.input.value.trim() === "";
    },
    refused: (result) => {
      // Said by the server, with what it knows of the instruments.
      asked = result.args.field === "because";
      mind.textContent = asked ? "" : mind.textContent;
      why.hidden &&= result.args.field !== "because";
      return meant(page, result, result.args.field === "temperature" ? [degrees] : (measure?.units ?? []), ({ unit, value }) => {
        if (result.args.field === "temperature") {
          temperature.input.value = value ?? temperature.input.value;
        } else {
          instrument.select.value = value === null ? "" : instrument.select.value;
          scale.select.value = unit;
          salinity.input.value = value ?? salinity.input.value;
          describe();
        }
        void save();
      });
    },
    asked: (body) =>
      firstAsked(
        () => volumeAsked(page, body, "out", system),
        () => volumeAsked(page, body, "in", system),
        () => quantityAsked(page, body, "salinity", "SALINITY", body.salinityUnit),
        () => quantityAsked(page, body, "temperature", "TEMPERATURE", body.temperatureUnit),
      ),
    parts: () => ({ out, in: into, salinity, salinityUnit: scale, salinityInstrument: instrument, temperature, batch }),
  });
  const stored = field.shown ?? {};
  const measure = salinityOf(system);
  const out = entry(words("out"), { inputmode: "decimal", value: stored.out ?? "", onchange: () => save() }, page.volumeUnit);
  const into = entry(words("in"), { inputmode: "decimal", value: stored.in ?? "", onchange: () => save() }, page.volumeUnit);
  const salinity = entry(words("new-salinity"), { inputmode: "decimal", value: stored.salinity ?? "", onchange: () => save() });
  const scale = scaleOf(page, measure, stored.salinityUnit, words("new-salinity.scale"), () => void (salinity.input.value.trim() && save()));
  const known = page.instruments.filter((/** @type {any} */ each) => each.quantity === "SALINITY");
  const instrument = choice(
    words("new-salinity.instrument"),
    [{ value: "", text: words("instrument-none") }, ...known.map((/** @type {any} */ each) => ({ value: each.id, text: label(each, words) }))],
    stored.salinity ? (stored.salinityInstrument ?? "") : (preset(known)?.id ?? ""),
    () => {
      describe();
      if (salinity.input.value.trim()) {
        void save();
      }
    },
  );
  const warmth = system.measures.find((/** @type {any} */ each) => each.quantity === "TEMPERATURE");
  const degrees = warmth?.units.find((/** @type {any} */ each) => each.code === (stored.temperatureUnit ?? warmth.unit));
  const temperature = entry(words("new-temperature"), { inputmode: "decimal", value: stored.temperature ?? "", onchange: () => save() }, degrees?.symbol);
  temperature.element.hidden = degrees === undefined;
  salinity.element.hidden = !system.salt || !measure;
  instrument.element.hidden = salinity.element.hidden;
  const named = page.batches.some((/** @type {any} */ each) => each.id === stored.batch);
  const batch = choice(
    words("batch"),
    [
      { value: "", text: words("batch-none") },
      ...page.batches.map((/** @type {any} */ each) => ({ value: each.id, text: each.words })),
      ...(stored.batch && !named ? [{ value: stored.batch, text: words("batch-earlier") }] : []),
    ],
    stored.batch ?? "",
    () => save(),
  );
  batch.element.hidden = page.batches.length === 0 && !stored.batch;
  const because = entry(words("change-because"), { value: stored.because ?? "", onchange: () => save() });
  const rescue = h(
    "button",
    {
      class: "button",
      type: "button",
      onclick: () => {
        because.input.value ||= words("change-rescue.reason");
        void save();
      },
    },
    words("change-rescue"),
  );
  const why = h("div", {}, because.element, h("div", { class: "actions" }, rescue));
  why.hidden = !stored.because;
  let asked = false;
  const mind = h("p", { class: "say", role: "status" });
  // What the tank is may have been read since.
  page.measured.push(warn);
  // What was missed at an earlier visit is not made up for twice.
  const hint = h("p", { class: "hint", id: newId() });
  let agreedLitres = 0;
  const asAgreed = h("button", { class: "button", type: "button", onclick: () => takeAgreed() });
  const agree = (/** @type {any[]} */ fresh) => {
    const agreed = new Set(fresh.filter((each) => each.system === system.id).flatMap((each) => each.tasks.flatMap((/** @type {any} */ task) => (task.volume ? [task.volume] : []))));
    hint.textContent = agreed.size > 0 ? words("out-agreed", [...agreed].join(" + ")) : "";
    agreedLitres = fresh.filter((each) => each.system === system.id).flatMap((each) => each.tasks).reduce((/** @type {number} */ sum, /** @type {any} */ task) => sum + (task.litres ?? 0), 0);
    offer();
  };
  agree(due);
  page.redrawn.push(agree);
  out.input.setAttribute("aria-describedby", hint.id);
  out.element.append(hint, asAgreed);
  describe();
  return h(
    "div",
    {},
    h("div", { class: "columns-3" }, out.element, into.element, salinity.element, scale.element, instrument.element, temperature.element, batch.element),
    mind,
    field.element,
    why,
  );

  /** What is agreed is written down by one tap, as long as nothing else is. */
  function offer() {
    asAgreed.hidden = agreedLitres === 0 || out.input.value.trim() !== "";
    asAgreed.textContent = words("out-as-agreed", volume(page, agreedLitres));
  }

  function takeAgreed() {
    out.input.value = written(page.volumeUnit === "gal" ? agreedLitres / LITRES_PER_GALLON : agreedLitres, 1);
    void save();
    page.agreedDone.get(`${system.id}/WATER_CHANGE/`)?.();
  }

  function tool() {
    return known.find((/** @type {any} */ each) => each.id === instrument.select.value);
  }

  /** An instrument is read on its own scale. */
  function describe() {
    scale.element.hidden = salinity.element.hidden || tool() !== undefined;
    const own = tool()?.unit;
    if (own && [...scale.select.options].some((option) => option.value === own)) {
      scale.select.value = own;
    }
  }

  function gravity() {
    return tool()?.gravityReference ?? measure?.gravityReference ?? page.gravityReference;
  }

  /** Says at once, also without a connection, what the server will ask back. */
  function warn() {
    const said = against(page, system, stated(), agreedLitres);
    mind.textContent = asked ? "" : said.map((each) => each.words).join(" ");
    why.hidden &&= said.length === 0;
  }

  async function save() {
    asked = false;
    warn();
    offer();
    if (out.input.value.trim() === "") {
      field.emptied(out.input, "out");
      return;
    }
    await field.save("visit.water-change", stated());
  }

  /** The change as it is sent. */
  function stated() {
    /** @type {Record<string, any>} */
    const body = { system: system.id, out: out.input.value.trim(), unit: page.volumeUnit };
    if (into.input.value.trim()) {
      body.in = into.input.value.trim();
    }
    if (salinity.input.value.trim() && measure) {
      body.salinity = salinity.input.value.trim();
      body.salinityUnit = scale.select.value;
      if (scale.select.value === "SG") {
        body.gravityReference = gravity();
      }
      if (tool()) {
        body.salinityInstrument = tool().id;
      }
    }
    if (temperature.input.value.trim() && degrees) {
      body.temperature = temperature.input.value.trim();
      body.temperatureUnit = degrees.code;
    }
    if (batch.select.value) {
      body.batch = batch.select.value;
    }
    const reason = because.input.value.trim();
    if (reason) {
      body.because = reason;
    }
    return body;
  }
}

/**
 * On which scale a salinity was read.
 *
 * @param {any} page
 * @param {any} measure of the salinity; undefined where none is measured
 * @param {string|undefined} stored
 * @param {string} label
 * @param {() => void} changed
 */
export function scaleOf(page, measure, stored, label, changed) {
  const gravity = `SG ${measure?.gravityReference ?? page.gravityReference}`;
  const scales = (measure?.units ?? []).map((/** @type {any} */ each) => ({ value: each.code, text: each.code === "SG" ? gravity : each.symbol }));
  return choice(label, scales, stored ?? measure?.unit ?? "", changed);
}

/**
 * What speaks against a change of water, by the codes that the server has for it; what the server asks first comes first.
 *
 * @param {any} page
 * @param {any} system
 * @param {any} body as it would be sent
 * @param {number} agreedLitres to be changed at this visit
 * @returns {import("./resting.js").Against[]}
 */
export function against(page, system, body, agreedLitres) {
  const limits = system.changeLimits;
  const out = litres(page, number(body.out));
  const into = litres(page, number(body.in ?? body.out));
  if (out === undefined || into === undefined || into <= 0) {
    return [];
  }
  const batch = page.batches.find((/** @type {any} */ each) => each.id === body.batch);
  const measured = body.salinity !== undefined;
  const instrument = page.instruments.find((/** @type {any} */ each) => each.id === (measured ? body.salinityInstrument : batch?.salt && batch.instrument));
  const warmth = celsius(number(body.temperature), body.temperatureUnit);
  const fresh = measured ? freshSalinity(page, system, body, warmth) : batch?.salinity;
  const { unfit, doubted } = againstBatch(page, system, batch, measured);
  const less = batch ? holdsLess(page, system, batch, into) : null;
  const matched = instrument ? onlyMatched(page, system, instrument.id) : null;
  const asked = body.because ? [matched] : [unfit, less, matched, doubted, tooOld(page, system), restsOn(page, system, "SALINITY"), measured ? newWaterUndecided(page, instrument) : null];
  const said = asked.filter((each) => each !== null);
  const kept = Math.max(0, system.netVolumeL - out);
  const before = tankSalinity(page, system) ?? (holds(page, system, system.lastSalinity.at) ? system.lastSalinity.value : undefined) ?? (system.salt ? undefined : 0);
  if (before !== undefined && fresh !== undefined) {
    const poured = Math.min(fresh, HIGHEST_SALINITY);
    const after = kept === 0 ? poured : blendedSalinity(kept, Math.min(before, HIGHEST_SALINITY), into, poured, MIXED_AT);
    const format = (/** @type {number} */ value, digits = 1) => `S ${shown(value, digits)}`;
    said.push(...tooFast(page, system, "salinity", before, after, fresh, format));
  }
  const warm = warmthHere(page, system);
  if (warm !== undefined && warmth !== undefined) {
    const after = warm + (warmth - warm) * (into / (kept + into));
    const fahrenheit = system.measures.find((/** @type {any} */ each) => each.quantity === "TEMPERATURE")?.unit === "degF";
    const format = (/** @type {number} */ value, /** @type {number} */ digits = 1) =>
      fahrenheit ? `${shown(digits === 1 ? value * 1.8 + 32 : value * 1.8, digits)} °F` : `${shown(value, digits)} °C`;
    said.push(...tooFast(page, system, "temperature", warm, after, warmth, format));
  }
  const most = Math.max(system.netVolumeL * limits.largestShare, agreedLitres);
  if (out > most * limits.rounding) {
    said.push(speaking(page, "most", system.name, volume(page, out), volume(page, system.netVolumeL)));
  }
  return said;
}

/**
 * That a batch of water holds less than is poured, after what is known to have been taken out of it.
 *
 * @param {any} page
 * @param {any} system
 * @param {any} batch
 * @param {number} into in litres
 * @returns {import("./resting.js").Against | null}
 */
function holdsLess(page, system, batch, into) {
  const drawn = new Map(batch.drawn.map((/** @type {any} */ each) => [`${each.visit}/${each.field}`, each.litres ?? litres(page, number(each.poured)) ?? 0]));
  for (const [field, { body }] of Object.entries(page.visit.fields).filter(([key]) => key.startsWith("water-change/"))) {
    drawn.delete(`${page.visit.id}/${field}`);
    if (body?.batch === batch.id) {
      drawn.set(`${page.visit.id}/${field}`, litres(page, number(body.in ?? body.out)) ?? 0);
    }
  }
  drawn.delete(`${page.visit.id}/water-change/${system.id}`);
  const left = batch.litres - [...drawn.values()].reduce((sum, each) => sum + each, 0);
  const code = "visits.batch-holds-less";
  return into > left * system.changeLimits.rounding ? { code, words: page.words(code, batch.number, volume(page, Math.max(0, left)), volume(page, batch.litres), volume(page, into)) } : null;
}

/**
 * @param {any} page
 * @param {any} system
 * @param {"salinity"|"temperature"} what
 * @param {number} before
 * @param {number} after
 * @param {number} fresh
 * @param {(value: number, digits?: number) => string} format
 * @returns {import("./resting.js").Against[]}
 */
function tooFast(page, system, what, before, after, fresh, format) {
  const rates = system.changeLimits[what];
  const rate = after > before ? rates.raising : rates.lowering;
  if (rate === undefined || Math.abs(after - before) <= rate * system.changeLimits.rounding) {
    return [];
  }
  const way = after > before ? "raised" : "lowered";
  return [speaking(page, `${what}.${way}`, system.name, format(before), format(after), format(rate, 2), format(fresh))];
}

/** @param {any} page @param {string} what @param {...string} args */
function speaking(page, what, ...args) {
  return { code: `visits.water-change.${what}`, words: page.words(`water-change.${what}`, ...args) };
}

/**
 * The salinity that was read of the tank at this visit last, by an instrument on which something may rest first.
 *
 * @param {any} page
 * @param {any} system
 * @returns {number | undefined}
 */
function tankSalinity(page, system) {
  if (isLow(page, system)) {
    return undefined;
  }
  const measure = salinityOf(system);
  const here = measuredHere(page, system)
    .filter((each) => each.quantity === "SALINITY")
    .map(({ why, salinity, item }) => ({ why, salinity: item && measure ? judge(page, system, measure, item.entry.body, item.entry.id, item.at)?.salinity : salinity }))
    .filter((each) => each.salinity !== undefined);
  return (here.findLast((each) => !each.why) ?? here.at(-1))?.salinity;
}

/** The temperature of the tank at this visit, °C. @param {any} page @param {any} system @returns {number | undefined} */
function warmthHere(page, system) {
  const key = `reading/${system.id}/TEMPERATURE`;
  return Object.entries(page.visit.readings)
    .filter(([field, args]) => (field === key || field.startsWith(`${key}/`)) && args.plain !== undefined)
    .map(([, args]) => args)
    .sort((one, other) => Number(other.trusted) - Number(one.trusted))[0]?.plain;
}

/** @param {any} system */
function salinityOf(system) {
  return system.measures.find((/** @type {any} */ each) => each.quantity === "SALINITY");
}

/**
 * The salinity of the new water, with what is known of the instrument that it was read with.
 *
 * @param {any} page
 * @param {any} system
 * @param {any} body
 * @param {number | undefined} warmth of the new water, °C
 */
function freshSalinity(page, system, body, warmth) {
  const measure = salinityOf(system);
  const read = {
    quantity: "SALINITY",
    answer: "VALUE",
    value: body.salinity,
    unit: body.salinityUnit,
    gravityReference: body.gravityReference,
    instrument: body.salinityInstrument,
    sampleTemperature: warmth === undefined ? undefined : written(warmth, 1),
  };
  const judged = body.salinityInstrument && measure ? judge(page, system, measure, read, "", Date.now()) : null;
  return judged?.salinity ?? practical(number(body.salinity), body.salinityUnit, body.gravityReference);
}

/** @param {string | undefined} typed @returns {number | undefined} */
function number(typed) {
  const text = (typed ?? "").trim().replace(",", ".");
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : undefined;
}

/** @template {number | undefined} T @param {any} page @param {T} amount @returns {T} */
export function litres(page, amount) {
  return amount !== undefined && page.volumeUnit === "gal" ? /** @type {typeof amount} */ (amount * LITRES_PER_GALLON) : amount;
}

/** @param {any} page @param {number} amount in litres */
function volume(page, amount) {
  const shownAmount = page.volumeUnit === "gal" ? amount / LITRES_PER_GALLON : amount;
  return `${shown(shownAmount, shownAmount >= 100 ? 0 : 1)} ${page.volumeUnit}`;
}

/** @template {number | undefined} T @param {T} degrees @param {string | undefined} unit @returns {T} */
export function celsius(degrees, unit) {
  return degrees !== undefined && unit === "degF" ? /** @type {typeof degrees} */ ((degrees - 32) / 1.8) : degrees;
}

/**
 * What part of the water was replaced.
 *
 * @param {any} page
 * @param {any} system
 * @param {number} out in the unit that volumes are written in
 * @param {number} into likewise
 */
export function share(page, system, out, into) {
  const left = Math.max(0, system.netVolumeL - litres(page, out));
  const brought = litres(page, into);
  return brought <= 0 ? 0 : brought / (left + brought);
}

/** @param {number} value @param {number} digits */
function shown(value, digits) {
  return new Intl.NumberFormat(document.documentElement.lang, { maximumFractionDigits: digits }).format(value);
}

/**
 * Practical salinity of what was read; undefined where the scale has none for it.
 *
 * @param {number | undefined} value
 * @param {string} unit
 * @param {string} reference such as 20/20
 */
export function practical(value, unit, reference) {
  if (value === undefined || unit === "S") {
    return value;
  }
  const [sample, water] = String(reference).split("/").map(Number);
  const scales = {
    SG: { unit: "SPECIFIC_GRAVITY", reference: { sampleCelsius: sample, waterCelsius: water }, graduation: "SEAWATER" },
    "mS/cm": { unit: "CONDUCTIVITY_AT_25", reference: null, graduation: "SEAWATER" },
  };
  try {
    return scaleSalinity(scales[/** @type {"SG"|"mS/cm"} */ (unit)], value).value;
  } catch {
    return undefined;
  }
}
