// @ts-check
import { enqueue, send } from "./store.js";
import { SavedField, choice, entry, h, icon, newId, verdict } from "./fields.js";

/** @typedef {import("./fields.js").Page} Page */

/** Told when the standing of an instrument has changed. @type {(() => void)[]} */
const watching = [];
const ANSWERS = ["VALUE", "BELOW_DETECTION", "ABOVE_RANGE", "BETWEEN", "NOT_MEASURED"];

/**
 * The readings of a system, each with its value of last time, its field and its verdict.
 *
 * @param {Page & {instruments: any[], measured: (() => void)[]}} page
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
  const written = Object.keys(page.visit.fields)
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
 * @param {Page & {instruments: any[], measured: (() => void)[]}} page
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
 * @param {Page & {instruments: any[], measured: (() => void)[]}} page
 * @param {any} system
 * @param {any} measure
 * @param {string} point where the sample is drawn; "" where no point is told apart
 */
function reading(page, system, measure, point) {
  const { words, visit } = page;
  const key = `reading/${system.id}/${measure.quantity}${point ? `/${point}` : ""}`;
  const name = system.samplePoints.length > 1 ? words("at-point", measure.name, system.samplePoints.find((/** @type {any} */ each) => each.id === point)?.name ?? words("point-none")) : measure.name;
  const last = system.samplePoints.length > 1 ? measure.last.find((/** @type {any} */ each) => (each.samplePoint ?? "") === point) : measure.last[0];
  const stored = visit.fields[key]?.body ?? null;
  const known = page.instruments.filter((each) => each.quantity === measure.quantity);
  const sound = known.filter((each) => each.status === "SOUND" || each.status === "KIT");
  const own = sound.find((each) => each.own && !each.kit) ?? known.find((each) => each.own && !each.kit && !each.decidesNothing) ?? sound.find((each) => each.own) ?? sound[0] ?? known.find((each) => each.own) ?? known[0];
  const chosen = stored ? (stored.instrument ?? "") : (own?.id ?? "");
  const id = newId();
  const shown = h("span", { class: "verdict" });
  const below = h("div", { class: "reading-more" });
  const unitText = h("span", { class: "unit" });

  const input = h("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", value: stored?.value ?? "" });
  const instrument = choice(
    words("instrument"),
    [{ value: "", text: words("instrument-none") }, ...known.map((each) => ({ value: each.id, text: label(each) }))],
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
  const field = new SavedField(page, key, { answered: (result) => show(result.args), refused: (result) => offer(result) });
  input.setAttribute("aria-describedby", field.problemId);
  input.addEventListener("change", () => changed());

  const dropped = h("button", { class: "button", type: "button", onclick: () => void drop() }, words("dropped"));
  const standing = h("div", { class: "reading-more", role: "status" });
  const details = h(
    "details",
    { class: "reading-more" },
    h("summary", {}, words("details")),
    h("div", { class: "form form-columns" }, instrument.element, dropped, kitLot.element, answer.element, upper.element, because.element, unit.element, reference.element, temperature.element),
  );
  const caption = h("span", { class: "fine" });
  const element = h(
    "div",
    { class: "reading", "data-of": `${system.id}/${measure.quantity}`, "data-point": point },
    h("div", { class: "reading-name" }, h("label", { for: id }, name), caption),
    h("span", { class: "reading-before", title: last?.on, "data-label": words("last") }, last?.asWritten ?? "–"),
    h("div", { class: "entry entry-number" }, input, unitText),
    shown,
    standing,
    details,
    field.element,
    below,
  );
  watching.push(describe);
  describe();
  if (visit.readings[key]) {
    show(visit.readings[key]);
  }
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
    caption.textContent = used ? label(used) : words("instrument-none");
    dropped.hidden = used === undefined;
    warn(used);
    unit.element.hidden = used !== undefined;
    // A kit that stands in no register is known by its lot.
    kitLot.element.hidden = used !== undefined;
    reference.element.hidden = !gravity || used !== undefined;
    upper.element.hidden = answer.select.value !== "BETWEEN";
    because.element.hidden = answer.select.value !== "NOT_MEASURED";
    temperature.element.hidden = measure.quantity !== "SALINITY" && measure.quantity !== "PH";
  }

  /** Says it where an instrument that decides nothing is chosen, and offers another. @param {any} used */
  function warn(used) {
    if (!used?.decidesNothing) {
      standing.replaceChildren();
      return;
    }
    const other = sound.find((each) => each !== used);
    const take = () => {
      instrument.select.value = other.id;
      changed();
    };
    standing.replaceChildren(
      h("p", { class: "state state-strong state-signal" }, icon("untrusted"), h("span", {}, words("decides-nothing", used.code, used.statusWords))),
      other ? h("button", { class: "button", type: "button", onclick: take }, words("take-instead", other.code)) : h("p", { class: "fine" }, words("take-none")),
    );
  }

  /** One tap: what it reads from now on decides nothing until it is checked. */
  async function drop() {
    const used = tool();
    dropped.disabled = true;
    const result = await enqueue("instrument.dropped", used.id, {}, null, (trouble) => {
      if (trouble !== "saving") {
        standing.replaceChildren(h("p", { class: "field-error" }, words(trouble)), h("button", { class: "button", type: "button", onclick: () => void send() }, words("retry")));
      }
    });
    dropped.disabled = false;
    if (result.status !== "applied") {
      standing.replaceChildren(h("p", { class: "field-error" }, icon("needed"), h("span", {}, result.args.words ?? result.code)));
      return;
    }
    used.status = result.args.standing;
    used.statusWords = words(`standing.${used.status}`);
    used.decidesNothing = used.status !== "IN_USE";
    watching.forEach((tell) => tell());
    page.say(words("decides-nothing", used.code, used.statusWords));
  }

  function changed() {
    describe();
    const body = stated();
    if (body === null) {
      return;
    }
    if (field.body === null) {
      void field.save("visit.reading", body);
      return;
    }
    if (same(body, field.body)) {
      below.replaceChildren();
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

  /** A reading is never written over: it was measured again, or it was mistyped. @param {any} body */
  function ask(body) {
    const written = visit.readings[key]?.reading;
    const correct = () => {
      below.replaceChildren();
      void field.save("visit.correct-reading", { ...body, reading: written, reason: words("mistyped-reason") });
    };
    const again = () => {
      below.replaceChildren();
      void field.save("visit.reading", body);
    };
    field.line.textContent = words("unsaved");
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

  /** @param {any} args */
  function show(args) {
    visit.readings[key] = args;
    shown.replaceChildren(...verdict(args).filter((part) => part !== null));
    element.querySelectorAll(":scope > .notice").forEach((old) => old.remove());
    if (args.words.repeat) {
      element.append(
        h("section", { class: "notice notice-signal" }, h("h3", { class: "notice-title" }, icon("needed"), " ", words("repeat.title")), h("p", { class: "say" }, args.words.repeat)),
      );
    }
    if (args.words.disagree) {
      element.append(disagreement(args.words.disagree));
    }
    if (!args.trusted) {
      element.append(notice(args));
    }
    page.measured.forEach((tell) => tell());
    page.say([`${name}: ${args.words.word}.`, args.words.sentence, args.words.repeat].filter(Boolean).join(" "));
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

  /** What no method can show as nothing is below what the method can show. @param {any} result */
  function offer(result) {
    return result.code === "readings.zero-below-detection" ? h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => belowDetection() }, words("below-detection"))) : null;
  }

  function belowDetection() {
    answer.select.value = "BELOW_DETECTION";
    input.value = "";
    details.open = true;
    describe();
    field.problem.replaceChildren(h("p", { class: "fine" }, words("below-detection.enter")));
    input.focus();
  }

  /** @param {any} args */
  function notice(args) {
    const part = (/** @type {string} */ term, /** @type {string|undefined} */ value) => (value ? h("div", {}, h("dt", {}, term), h("dd", {}, value)) : null);
    const wrong = args.words.corrected && args.words.advice.length > 1;
    return h(
      "section",
      { class: wrong ? "notice notice-signal" : "notice" },
      h("h3", { class: "notice-title" }, icon("untrusted"), " ", words("notice.title")),
      h("p", { class: "say" }, args.words.sentence),
      h("dl", { class: "strip" }, part(words("notice.read"), args.words.asWritten), part(words("notice.real"), args.words.corrected), part(words("notice.target"), args.words.target)),
      h("ol", { class: "steps" }, args.words.advice.map((/** @type {string} */ line) => h("li", {}, line))),
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

/** @param {any} instrument */
function label(instrument) {
  return [instrument.code, instrument.name, instrument.statusWords].filter(Boolean).join(", ");
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
