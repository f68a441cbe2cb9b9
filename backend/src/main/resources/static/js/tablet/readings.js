// @ts-check
import { enqueue } from "./store.js";
import { unionised } from "./ammonia.js";
import { dropped as fallen } from "./bundle.js";
import { entered } from "./drafts.js";
import { SavedField, choice, entry, h, icon, meant, newId, verdict, written } from "./fields.js";
import { LocalVerdict, askedBack, surprising } from "./judging.js";
import { kits } from "./kits.js";

/** @typedef {import("./fields.js").Page} Page */

/** Told when the standing of an instrument has changed. @type {(() => void)[]} */
const watching = [];
/** Why a reading that surprises is not taken once more. */
const NO_REPEAT = ["surprise.known", "surprise.no-time", "surprise.no-kit"];
const ANSWERS = ["VALUE", "BELOW_DETECTION", "ABOVE_RANGE", "BETWEEN", "NOT_MEASURED"];

/**
 * The readings of a system, each with its value of last time, its field and its verdict.
 *
 * @param {Page & {instruments: any[], perils: Record<string, any>, contested: Record<string, any>, names: Record<string, string>, quantities: Record<string, string>, gravityReference: string, measured: (() => void)[], rows: Record<string, (args: any) => void>, read: () => void}} page
 * @param {any} system
 */
export function readings(page, system) {
  const { words } = page;
  return h(
    "div",
    { class: "readings" },
    h("div", { class: "readings-head" }, ...["reading", "last", "now", "verdict"].map((key) => h("span", {}, words(key)))),
    system.measures.flatMap((/** @type {any} */ measure) => places(page, system, measure).map((point) => reading(page, system, measure, point))),
    system.samplePoints.length > 1 ? elsewhere(page, system) : null,
    page.keypad.switch(),
  );
}

/**
 * Where a quantity is asked for: at the points where it was measured already, else where it was measured last time, else
 * at the first point. A single sample point is not told apart from its system; "" is a reading without a point.
 *
 * @param {Page} page
 * @param {any} system
 * @param {any} measure
 * @returns {string[]}
 */
function places(page, system, measure) {
  const key = `reading/${system.id}/${measure.quantity}`;
  const written = entered(page, key)
    .filter((field) => field === key || field.startsWith(`${key}/`))
    .map((field) => field.slice(key.length + 1));
  const points = system.samplePoints.map((/** @type {any} */ point) => point.id);
  const usual = points.length < 2 ? (written.length > 0 ? [] : [""]) : measure.usualPoints.length > 0 ? measure.usualPoints : [points[0]];
  const order = (/** @type {string} */ point) => points.indexOf(point);
  return [...new Set([...written, ...usual])].sort((one, other) => order(one) - order(other));
}

/**
 * Asks for a quantity at a sample point where it is not usually measured.
 *
 * @param {Page & {instruments: any[], perils: Record<string, any>, contested: Record<string, any>, names: Record<string, string>, quantities: Record<string, string>, gravityReference: string, measured: (() => void)[], rows: Record<string, (args: any) => void>, read: () => void}} page
 * @param {any} system
 */
function elsewhere(page, system) {
  const { words } = page;
  const keyOf = (/** @type {any} */ measure) => `${system.id}/${measure.quantity}`;
  const rows = (/** @type {any} */ measure) => [...(element.parentElement?.querySelectorAll(".reading") ?? [])].filter((row) => /** @type {HTMLElement} */ (row).dataset.of === keyOf(measure));
  const chosen = () => system.measures.find((/** @type {any} */ each) => each.quantity === what.select.value);
  const what = choice(
    words("other-point-what"),
    system.measures.map((/** @type {any} */ measure) => ({ value: measure.quantity, text: measure.name })),
    system.measures[0]?.quantity ?? "",
    () => offer(),
  );
  const where = choice(words("other-point-where"), [], "", () => {});
  const add = h("button", { class: "button", type: "button", onclick: () => added() }, words("other-point-add"));
  const element = h(
    "details",
    { class: "reading-more", ontoggle: () => offer() },
    h("summary", {}, words("other-point")),
    h("div", { class: "form form-columns" }, what.element, where.element, h("div", { class: "actions" }, add)),
  );
  return element;

  function offer() {
    const asked = rows(chosen()).map((row) => /** @type {HTMLElement} */ (row).dataset.point);
    const free = system.samplePoints.filter((/** @type {any} */ point) => !asked.includes(point.id));
    where.select.replaceChildren(...free.map((/** @type {any} */ point) => h("option", { value: point.id }, point.name)));
    add.disabled = free.length === 0;
  }

  function added() {
    const row = reading(page, system, chosen(), where.select.value);
    rows(chosen()).at(-1)?.after(row);
    row.querySelector("input")?.focus();
    offer();
  }
}

/**
 * @param {Page & {instruments: any[], perils: Record<string, any>, contested: Record<string, any>, names: Record<string, string>, quantities: Record<string, string>, gravityReference: string, measured: (() => void)[], rows: Record<string, (args: any) => void>, read: () => void}} page
 * @param {any} system
 * @param {any} measure
 * @param {string} point where the sample is drawn; "" where no point is told apart
 */
function reading(page, system, measure, point) {
  const { words, visit } = page;
  const key = `reading/${system.id}/${measure.quantity}${point ? `/${point}` : ""}`;
  const name = system.samplePoints.length > 1 ? words("at-point", measure.name, system.samplePoints.find((/** @type {any} */ each) => each.id === point)?.name ?? words("point-none")) : measure.name;
  const last = system.samplePoints.length > 1 ? measure.last.find((/** @type {any} */ each) => (each.samplePoint ?? "") === point) : measure.last[0];
  page.names[key] = words("of-system", name, system.name);
  page.quantities[key] = measure.name;
  const field = new SavedField(page, key, name, {
    answered: (result) => {
      delete page.contested[key];
      here.answered(result.args);
      show(result.args);
      page.read();
    },
    waiting: (step, item) => here.told(step, item),
    conflicted: (result) => {
      here.answered(null);
      if (result.args.contested) {
        page.contested[key] = result.args.contested;
        page.measured.forEach((tell) => tell());
      }
    },
    refused: (result) => {
      here.answered(null);
      return offer(result);
    },
    resumed: () => changed(),
    changed: () => kit.render(),
    parts: () => ({
      // Stands under its own name.
      value: { label: "", input },
      upperValue: upper,
      because,
      unit,
      gravityReference: reference,
      sampleTemperature: temperature,
      instrument,
      kitLot,
      answer,
      // As the rules of readings call them.
      instrumentId: instrument,
      notMeasuredBecause: because,
    }),
  });
  const here = new LocalVerdict(page, system, measure, key, show, unshow);
  const stored = field.shown;
  const known = page.instruments.filter((each) => each.quantity === measure.quantity);
  // What somebody else carries is chosen by hand only.
  const atHand = known.filter((each) => each.heldBy === undefined);
  const sound = () => [...atHand, ...known.filter((each) => each.heldBy !== undefined)].filter((each) => each.status === "SOUND" || each.status === "KIT");
  const chosen = stored ? (stored.instrument ?? "") : (preset(known)?.id ?? "");
  const id = newId();
  const shown = h("span", { class: "verdict" });
  const below = h("div", { class: "reading-more" });
  const unitText = h("span", { class: "unit" });

  const input = h("input", { id, type: "text", inputmode: "decimal", value: stored?.value ?? "" });
  const instrument = choice(
    words("instrument"),
    [{ value: "", text: words("instrument-none") }, ...known.map((each) => ({ value: each.id, text: label(each, words) }))],
    chosen,
    () => changed(),
  );
  const unit = choice(
    words("unit"),
    measure.units.map((/** @type {any} */ each) => ({ value: each.code, text: each.symbol })),
    stored?.unit ?? measure.unit,
    () => changed(),
  );
  const answer = choice(
    words("answer"),
    ANSWERS.map((code) => ({ value: code, text: words(`answer.${code}`) })),
    stored?.answer ?? "VALUE",
    () => changed(),
  );
  const upper = entry(words("upper"), { inputmode: "decimal", value: stored?.upperValue ?? "", onchange: () => changed() });
  const because = entry(words("because"), { value: stored?.because ?? "", onchange: () => changed() });
  const temperature = entry(words("temperature"), { inputmode: "decimal", value: stored?.sampleTemperature ?? "", onchange: () => changed() }, "°C");
  const kitLot = entry(words("kit-lot"), { value: stored?.kitLot ?? "", onchange: () => changed() });
  const reference = entry(words("reference"), { value: stored?.gravityReference ?? measure.gravityReference ?? "", onchange: () => changed() });
  input.setAttribute("aria-describedby", field.problemId);
  input.addEventListener("change", () => changed());

  const dropped = h("button", { class: "link-button", type: "button", onclick: () => void drop() });
  const peril = h("div", { class: "reading-more" });
  const surprise = h("div", { class: "reading-more" });
  /** The reading that a repeat is asked of. */
  let askedOf = "";
  const standing = h("div", { class: "reading-more", role: "status" });
  const kit = kits.beside(
    page,
    key,
    words("of-system", name, system.name),
    () => known.find((each) => each.id === instrument.select.value),
    () => Number(field.body?.kitOffSeconds ?? 0),
  );
  const details = h(
    "details",
    {},
    h("summary", {}, words("details")),
    h("div", { class: "form form-columns" }, instrument.element, kitLot.element, answer.element, upper.element, because.element, unit.element, reference.element, temperature.element),
  );
  const caption = h("span", { class: "fine" });
  const element = h(
    "div",
    { class: "reading", id: key, tabindex: "-1", "data-of": `${system.id}/${measure.quantity}`, "data-point": point },
    h("div", { class: "reading-name" }, h("label", { for: id }, name), caption),
    h("span", { class: "reading-before", title: last?.on, "data-label": words("last") }, last?.asWritten ?? "–"),
    h("div", { class: "entry entry-number" }, input, unitText),
    shown,
    here.element,
    standing,
    peril,
    surprise,
    h("div", { class: "reading-more reading-tools" }, details, kit.element, dropped),
    field.element,
    below,
  );
  page.keypad.serve({
    element,
    input,
    upper: upper.input,
    name,
    last: last ? words("pad.last-on", last.asWritten, last.on) : "",
    target: measure.target ?? "",
    scale,
    smallest: () => (tool() ? written(Number(tool().resolution)) : ""),
    decimals: () => (tool()?.resolution ?? "").split(".")[1]?.length ?? 0,
    choices,
    byEye: () => tool()?.kit !== false,
    answer: () => answer.select.value,
    answered: (code, why = "") => {
      answer.select.value = code;
      because.input.value = why;
      details.open ||= code === "BETWEEN";
      describe();
      if (why !== "") {
        changed();
      }
    },
    isOpen: () => input.value === "" && answer.select.value !== "NOT_MEASURED",
    saved: () => (answer.select.value === "NOT_MEASURED" ? words("answer.NOT_MEASURED") : input.value),
    undo: takeBackAtOnce,
  });
  watching.push(describe);
  // pH, temperature and salinity say what part of the ammonia is toxic.
  page.measured.push(warnOfPeril);
  page.rows[key] = show;
  describe();
  if (visit.readings[key]) {
    show(visit.readings[key]);
  }
  if (visit.fields[key]?.item) {
    here.resume(visit.fields[key].item);
  }
  warnOfPeril();
  return element;

  function tool() {
    return known.find((each) => each.id === instrument.select.value);
  }

  /** What the parts of the field say and which of them are asked for. */
  function describe() {
    const used = tool();
    const code = used?.unit ?? unit.select.value;
    const gravity = code === "SG";
    const symbol = measure.units.find((/** @type {any} */ each) => each.code === code)?.symbol ?? code;
    // pH has no unit.
    unitText.textContent = code === "pH" ? "" : symbol;
    caption.textContent = used ? label(used, words) : kitLot.input.value.trim() ? words("kit-named", kitLot.input.value.trim()) : words("instrument-none.caption");
    // A kit is not the worse for a fall.
    dropped.hidden = used === undefined || used.kit || used.decidesNothing;
    dropped.textContent = used ? words("dropped", used.code) : "";
    for (const option of instrument.select.options) {
      const named = known.find((each) => each.id === option.value);
      option.text = named ? label(named, words) : words("instrument-none");
    }
    warn(used);
    kit.render();
    unit.element.hidden = used !== undefined;
    // A kit that stands in no register is known by its lot.
    kitLot.element.hidden = used !== undefined;
    reference.element.hidden = !gravity || used !== undefined;
    upper.element.hidden = answer.select.value !== "BETWEEN";
    because.element.hidden = answer.select.value !== "NOT_MEASURED";
    temperature.element.hidden = measure.quantity !== "SALINITY" && measure.quantity !== "PH";
  }

  /** The scale that the number is on. */
  function scale() {
    const used = tool();
    const code = used?.unit ?? unit.select.value;
    const symbol = code === "pH" ? "" : (measure.units.find((/** @type {any} */ each) => each.code === code)?.symbol ?? code);
    return code === "SG" ? `${symbol} ${used?.gravityReference ?? reference.input.value}` : symbol;
  }

  /** What is taken to be used, each changed by one tap: sample point, instrument or kit, and without one scale and reference. */
  function choices() {
    const points = system.samplePoints.length > 1 ? system.samplePoints : [];
    const used = tool();
    const tools = [...new Set([...atHand, ...(used ? [used] : [])])];
    const taken = (/** @type {() => void} */ take) => () => {
      take();
      // Before a number stands there nothing is saved.
      field.body === null ? describe() : changed();
    };
    const references = used === undefined && unit.select.value === "SG" ? [...new Set([reference.input.value, "20/20", "25/25"])].filter(Boolean) : [];
    return [
      ...points.map((/** @type {any} */ each) => ({ text: each.name, pressed: each.id === point, take: () => goTo(each.id) })),
      ...tools.map((each) => ({ text: [each.code, each.lot ? words("pad.lot", each.lot) : each.name].join(", "), pressed: each === used, take: taken(() => (instrument.select.value = each === used ? "" : each.id)) })),
      ...(used === undefined && measure.units.length > 1 ? measure.units.map((/** @type {any} */ each) => ({ text: each.symbol, pressed: each.code === unit.select.value, take: taken(() => (unit.select.value = each.code)) })) : []),
      ...references.map((each) => ({ text: each, pressed: each === reference.input.value, take: taken(() => (reference.input.value = each)) })),
    ];
  }

  /** The same quantity at another sample point. @param {string} other */
  function goTo(other) {
    const rows = /** @type {HTMLElement[]} */ ([...(element.parentElement?.querySelectorAll(".reading") ?? [])]).filter((row) => row.dataset.of === element.dataset.of);
    const row = rows.find((each) => each.dataset.point === other) ?? reading(page, system, measure, other);
    if (!row.isConnected) {
      rows.at(-1)?.after(row);
    }
    row.querySelector("input")?.focus();
  }

  /** Undone as soon as it was saved: it stays on record as taken back, and the field is free again. */
  function takeBackAtOnce() {
    const reason = words("pad.taken-back");
    const written = latest();
    answer.select.value = "NOT_MEASURED";
    because.input.value = reason;
    const body = stated();
    answer.select.value = "VALUE";
    [because.input, input, upper.input].forEach((each) => (each.value = ""));
    describe();
    below.replaceChildren();
    if (written) {
      void field.save("visit.correct-reading", { ...body, reading: written, reason });
    }
  }

  /** The reading that stands in the field; it has the id of its entry. */
  function latest() {
    return field.entry ?? visit.readings[key]?.reading;
  }

  /** Says it where an instrument that decides nothing is chosen, and offers another. @param {any} used */
  function warn(used) {
    if (!used?.decidesNothing) {
      standing.replaceChildren();
      return;
    }
    const other = sound().find((each) => each !== used);
    const take = () => {
      instrument.select.value = other.id;
      changed();
    };
    standing.replaceChildren(
      h("p", { class: "state state-strong state-signal" }, icon("untrusted"), h("span", {}, words("decides-nothing", used.code, used.statusWords))),
      other ? h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: take }, other.heldBy === undefined ? words("take-instead", other.code) : words("take-instead.held", other.code, other.heldBy))) : h("p", { class: "fine" }, words("take-none")),
    );
  }

  /** One tap: what it reads from now on decides nothing until it is checked. */
  async function drop() {
    const used = tool();
    dropped.disabled = true;
    const result = await enqueue("instrument.dropped", used.id, {}, null, (step) => {
      if (step === "full") {
        standing.replaceChildren(h("p", { class: "field-error" }, words(step)));
        dropped.disabled = false;
      } else if (step === "kept") {
        fallen(used, Date.now());
        stands("SUSPECT");
      }
    });
    dropped.disabled = false;
    if (result.status !== "applied") {
      standing.replaceChildren(h("p", { class: "field-error" }, icon("needed"), h("span", {}, result.args.words ?? result.code)));
      return;
    }
    stands(result.args.standing);

    /** @param {string} status */
    function stands(status) {
      used.status = status;
      used.statusWords = words(`standing.${status}`);
      used.decidesNothing = status !== "IN_USE";
      used.undecided = used.decidesNothing ? status : undefined;
      watching.forEach((tell) => tell());
      page.say(words("decides-nothing", used.code, used.statusWords));
    }
  }

  function changed() {
    describe();
    const body = stated();
    if (body === null) {
      if (field.body !== null) {
        askCleared();
      } else if (input.value.trim() === "") {
        field.discard();
      }
      return;
    }
    const asked = askedBack(page, body);
    if (asked !== null) {
      below.replaceChildren();
      field.refuse("visit.reading", body, asked);
      unjudged();
      return;
    }
    field.allowed();
    if (field.body === null || (field.body.answer === "NOT_MEASURED" && body.answer !== "NOT_MEASURED")) {
      void field.save("visit.reading", read(body));
      return;
    }
    if (same(body, field.body)) {
      below.replaceChildren();
      field.discard();
      judged();
      return;
    }
    ask(body);
  }

  function stated() {
    const kind = answer.select.value;
    const value = input.value.trim();
    const open = kind === "NOT_MEASURED" ? because.input.value.trim() === "" : value === "" || (kind === "BETWEEN" && upper.input.value.trim() === "");
    if (open) {
      return null;
    }
    const used = tool();
    const code = used?.unit ?? unit.select.value;
    const gravity = code === "SG" ? (used?.gravityReference ?? reference.input.value.trim()) : "";
    /** @type {Record<string, any>} */
    const body = { system: system.id, quantity: measure.quantity, answer: kind, unit: code };
    put(body, "samplePoint", point);
    put(body, "value", kind === "NOT_MEASURED" ? "" : value);
    put(body, "upperValue", kind === "BETWEEN" ? upper.input.value.trim() : "");
    put(body, "gravityReference", gravity);
    put(body, "instrument", used?.id ?? "");
    put(body, "kitLot", used ? "" : kitLot.input.value.trim());
    put(body, "sampleTemperature", temperature.input.value.trim());
    put(body, "because", kind === "NOT_MEASURED" ? because.input.value.trim() : "");
    return body;
  }

  /** What was waited for is there: by how much that missed the time of the kit goes with it. @param {any} body */
  function read(body) {
    if (body.answer === "NOT_MEASURED") {
      return body;
    }
    const off = kit.off();
    kit.read();
    return off === 0 ? body : { ...body, kitOffSeconds: String(off) };
  }

  /** A reading is never written over: it was measured again, or it was mistyped. @param {any} body */
  function ask(body) {
    const written = latest();
    const correct = () => {
      below.replaceChildren();
      const kept = field.body.kitOffSeconds ? { kitOffSeconds: field.body.kitOffSeconds } : {};
      void field.save("visit.correct-reading", { ...body, ...kept, reading: written, reason: words("mistyped-reason") });
    };
    const again = () => {
      below.replaceChildren();
      readAgain(read(body));
    };
    void field.pend("visit.reading", body);
    unjudged();
    below.replaceChildren(
      h("p", { class: "say" }, words("changed")),
      h(
        "div",
        { class: "actions" },
        h("button", { class: "button button-strong", type: "button", onclick: again }, words("changed.again")),
        written ? h("button", { class: "button", type: "button", onclick: correct }, words("changed.mistyped")) : null,
      ),
    );
    page.say(words("changed"));
  }

  /** The first stays beside it. @param {any} body */
  function readAgain(body) {
    if (field.body.answer !== "NOT_MEASURED") {
      visit.before[key] = [...(visit.before[key] ?? []), visit.readings[key]?.words.asWritten ?? field.body];
    }
    void field.save("visit.reading", body);
  }

  /** What the server has not written out yet. @param {any} read */
  function asWritten(read) {
    return typeof read === "string" ? read : [read.value, measure.units.find((/** @type {any} */ each) => each.code === read.unit)?.symbol, read.gravityReference].filter(Boolean).join(" ");
  }

  /** Asked once, of the first reading at this visit: a repeat, or in one tap why there is none. */
  function askToRepeat() {
    const args = visit.readings[key];
    const before = visit.before[key] ?? [];
    if (args && askedOf === args.reading && before.length === 0) {
      // Somebody may be about to answer.
      return;
    }
    askedOf = "";
    surprise.replaceChildren();
    if (before.length > 0) {
      surprise.append(h("p", { class: "facts" }, words("surprise.both", before.map(asWritten).join("; "), args?.words.asWritten ?? (field.body ? asWritten(field.body) : ""))));
      return;
    }
    const body = field.body;
    const why = args && body ? surprising(page, system, measure, point, args, body) : "";
    if (why === "") {
      return;
    }
    const not = new SavedField(page, `no-repeat/${args.reading}`, words("surprise.title"), {
      changed: () => {
        askedOf = "";
        askToRepeat();
      },
    });
    if (not.body !== null) {
      surprise.append(h("p", { class: "facts" }, words("surprise.not", not.body.because)), not.element);
      return;
    }
    askedOf = args.reading;
    const second = entry(words("surprise.second", name), { inputmode: "decimal", onchange: () => repeat() }, scale());
    const repeat = () => {
      const value = second.input.value.trim();
      if (value === "") {
        return;
      }
      const { kitOffSeconds: _, ...again } = { ...body, value };
      const asked = askedBack(page, again);
      if (asked !== null) {
        wrong.replaceChildren(h("p", { class: "field-error" }, icon("needed"), h("span", {}, asked.args.words)));
        page.say(asked.args.words);
        return;
      }
      input.value = value;
      readAgain(read(again));
    };
    const wrong = h("div", { role: "alert" });
    const because = (/** @type {string} */ reason) => void not.save("visit.no-repeat", { system: system.id, reading: args.reading, because: words(reason) });
    surprise.append(
      h(
        "section",
        { class: "notice" },
        h("h3", { class: "notice-title" }, icon("needed"), " ", words("surprise.title")),
        h("p", { class: "say" }, why),
        h("p", {}, words("surprise.ask")),
        second.element,
        wrong,
        h("p", { class: "fine" }, words("surprise.none")),
        h(
          "div",
          { class: "actions" },
          NO_REPEAT.map((reason) => h("button", { class: "button", type: "button", onclick: () => because(reason) }, words(reason))),
        ),
        not.element,
      ),
    );
  }

  /** A reading stays on record: it is taken back with a reason, as one that was not measured, or it stands again. */
  function askCleared() {
    const written = visit.readings[key]?.reading;
    const saved = field.body;
    const putBack = () => {
      below.replaceChildren();
      answer.select.value = saved.answer;
      input.value = saved.value ?? "";
      upper.input.value = saved.upperValue ?? "";
      because.input.value = saved.because ?? "";
      field.discard();
      judged();
      describe();
    };
    if (!written || saved.answer === "NOT_MEASURED") {
      putBack();
      return;
    }
    const why = entry(words("cleared.why"), {});
    const takeBack = () => {
      const reason = why.input.value.trim();
      if (reason === "") {
        why.input.focus();
        return;
      }
      below.replaceChildren();
      answer.select.value = "NOT_MEASURED";
      because.input.value = reason;
      describe();
      void field.save("visit.correct-reading", { ...stated(), reading: written, reason });
    };
    void field.pend("visit.correct-reading", { ...saved, value: "", upperValue: "" });
    unjudged();
    below.replaceChildren(
      h("p", { class: "say" }, words("cleared", visit.readings[key].words.asWritten)),
      why.element,
      h(
        "div",
        { class: "actions" },
        h("button", { class: "button button-strong", type: "button", onclick: putBack }, words("cleared.back")),
        h("button", { class: "button", type: "button", onclick: takeBack }, words("cleared.take")),
      ),
    );
    page.say(words("cleared", visit.readings[key].words.asWritten));
  }

  /** @param {any} args */
  function show(args) {
    visit.readings[key] = args;
    if (args.peril) {
      page.perils[key] = args;
    } else if (args.asked) {
      page.perils[key] = args.asked;
    } else {
      delete page.perils[key];
    }
    judged();
    page.measured.forEach((tell) => tell());
    page.say([`${name}: ${args.words.word}.`, args.words.sentence, args.peril?.words ?? args.words.repeat].filter(Boolean).join(" "));
  }

  /** What was judged is not what is saved. */
  function unshow() {
    delete visit.readings[key];
    delete page.perils[key];
    shown.replaceChildren();
    here.tell(null);
    askToRepeat();
    element.querySelectorAll(":scope > .notice").forEach((old) => old.remove());
    page.measured.forEach((tell) => tell());
  }

  /** The verdict of what is saved. */
  function judged() {
    const args = visit.readings[key];
    if (!args) {
      return;
    }
    shown.replaceChildren(...verdict(args).filter((part) => part !== null));
    here.tell(args);
    askToRepeat();
    element.querySelectorAll(":scope > .notice").forEach((old) => old.remove());
    if (args.words.disagree) {
      element.append(disagreement(args.words.disagree));
    }
    if (!args.trusted) {
      element.append(notice(args));
    }
  }

  /** The verdict of what is saved says nothing about the number that stands there now. */
  function unjudged() {
    const args = visit.readings[key];
    if (args) {
      shown.replaceChildren(h("span", { class: "fine" }, words("not-judged", args.words.asWritten)));
      here.tell(null);
      element.querySelectorAll(":scope > .notice").forEach((old) => old.remove());
    }
  }

  /** What kills, or may, stands out at once, with the way to what is done first. */
  function warnOfPeril() {
    peril.replaceChildren();
    const other = page.contested[key];
    if (other) {
      peril.append(
        h(
          "section",
          { class: "notice notice-signal" },
          h("h3", { class: "notice-title" }, icon("needed"), " ", words(other.peril.certain ? "danger.title" : "repeat.title")),
          h("p", { class: "say" }, words("conflict.danger", other.by, other.words.asWritten)),
          h("p", {}, other.peril.certain ? other.peril.words : other.words.repeat),
          h("div", { class: "actions" }, h("a", { class: "button button-strong", href: other.peril.plan, target: "_blank", rel: "noopener" }, words("danger.plan", other.peril.planWords))),
        ),
      );
    }
    const args = page.perils[key];
    if (!args) {
      return;
    }
    const certain = args.peril.certain;
    const toxic = measure.quantity === "AMMONIA" ? unionised(page, system, point, args.plain) : [];
    peril.append(
      h(
        "section",
        { class: "notice notice-signal" },
        h("h3", { class: "notice-title" }, icon("needed"), " ", words(certain ? "danger.title" : "repeat.title")),
        h("p", { class: "say" }, certain ? args.peril.words : args.words.repeat),
        toxic.map((line, at) => h("p", { class: at === 0 ? "" : "fine" }, at === 0 ? h("strong", {}, line) : line)),
        certain ? h("p", {}, words("danger.repeat")) : null,
        h(
          "div",
          { class: "actions" },
          h("a", { class: "button button-strong", href: args.peril.plan, target: "_blank", rel: "noopener" }, words("danger.plan", args.peril.planWords)),
          h("a", { class: "button", href: "#leaving" }, words("danger.say")),
        ),
      ),
    );
  }

  /** @param {any} compared */
  function disagreement(compared) {
    return h(
      "section",
      { class: "notice" },
      h("h3", { class: "notice-title" }, icon("untrusted"), " ", words("disagree.title")),
      h("p", { class: "say" }, compared.sentence),
      h("p", {}, compared.likelier),
      h("ol", { class: "steps" }, compared.next.map((/** @type {string} */ line) => h("li", {}, line))),
    );
  }

  /** What was likely meant, where it can be said. @param {any} result */
  function offer(result) {
    if (result.code === "readings.zero-below-detection") {
      return h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => belowDetection() }, words("answer.BELOW_DETECTION")));
    }
    return meant(page, result, measure.units, take);
  }

  /** The digits stay as they were written; what reads in another unit is another instrument. @param {any} chosen */
  function take(chosen) {
    if (chosen.value !== null) {
      (chosen.field === "upperValue" ? upper.input : input).value = chosen.value;
    } else {
      const reading = atHand.filter((each) => each.unit === chosen.unit && !each.kit);
      const mine = reading.filter((each) => each.own);
      const only = mine.length === 1 ? mine[0] : reading.length === 1 ? reading[0] : undefined;
      instrument.select.value = only?.id ?? "";
      unit.select.value = chosen.unit;
      reference.input.value ||= page.gravityReference;
      details.open ||= only === undefined;
    }
    changed();
  }

  function belowDetection() {
    answer.select.value = "BELOW_DETECTION";
    input.value = "";
    details.open = true;
    describe();
    field.discard();
    field.problem.replaceChildren(h("p", { class: "fine" }, words("below-detection.enter")));
    input.focus();
  }

  /** @param {any} args */
  function notice(args) {
    const part = (/** @type {string} */ term, /** @type {string|undefined} */ value) => (value ? h("div", {}, h("dt", {}, term), h("dd", {}, value)) : null);
    const wrong = args.words.corrected && args.words.advice.length > 1;
    // Said above already.
    const advice = args.words.advice.filter((/** @type {string} */ line) => line !== args.peril?.words && line !== args.words.repeat);
    return h(
      "section",
      { class: wrong ? "notice notice-signal" : "notice" },
      h("h3", { class: "notice-title" }, icon("untrusted"), " ", words("notice.title")),
      h("p", { class: "say" }, args.words.sentence),
      h("dl", { class: "strip" }, part(words("notice.read"), args.words.asWritten), part(words("notice.real"), args.words.corrected), part(words("notice.target"), args.words.target)),
      h("ol", { class: "steps" }, advice.map((/** @type {string} */ line) => h("li", {}, line))),
      args.ramp
        ? [
            h("p", { class: "facts" }, words("notice.ramp")),
            h("dl", { class: "strip" }, args.ramp.map((/** @type {any} */ step, /** @type {number} */ at) => h("div", {}, h("dt", {}, step.on ?? words("step", at + 1)), h("dd", {}, step.value)))),
          ]
        : null,
      h("p", { class: "fine" }, words("notice.kept")),
    );
  }
}

/**
 * The instrument that is taken to be used unless somebody says otherwise: one's own or nobody's, a sound one first.
 *
 * @param {any[]} known that measure the quantity
 */
export function preset(known) {
  const atHand = known.filter((each) => each.heldBy === undefined);
  const free = atHand.filter((each) => each.status === "SOUND" || each.status === "KIT");
  return free.find((each) => each.own && !each.kit) ?? atHand.find((each) => each.own && !each.kit && !each.decidesNothing) ?? free.find((each) => each.own) ?? free[0] ?? atHand.find((each) => each.own) ?? atHand[0];
}

/**
 * @param {any} instrument
 * @param {(code: string, ...args: any[]) => string} words
 */
export function label(instrument, words) {
  return [instrument.code, instrument.name, instrument.statusWords, instrument.heldBy === undefined ? "" : words("held-by", instrument.heldBy)].filter(Boolean).join(", ");
}

/**
 * @param {Record<string, any>} body
 * @param {string} name
 * @param {string} value
 */
function put(body, name, value) {
  if (value !== "") {
    body[name] = value;
  }
}

/**
 * Whether two bodies state the same reading, whatever the reason they were sent for.
 *
 * @param {any} one
 * @param {any} other
 */
function same(one, other) {
  const names = ["value", "upperValue", "answer", "unit", "gravityReference", "instrument", "kitLot", "sampleTemperature", "because"];
  return names.every((name) => (one[name] ?? "") === (other[name] ?? ""));
}
