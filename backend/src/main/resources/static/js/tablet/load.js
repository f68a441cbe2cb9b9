// @ts-check
/** What is in the van, read and ticked where there is no signal: a tick is an entry like any other. */
import { dayWith, loadDay } from "./bundle.js";
import { bar, head, said } from "./frame.js";
import { entry, h, icon, written } from "./fields.js";
import * as kept from "./kept.js";
import { endangered, ticksShort } from "./shortage.js";
import { awaited, enqueue } from "./store.js";

let asking = false;
let askAgain = false;

const root = /** @type {HTMLElement} */ (document.getElementById("visit"));

/** @typedef {(key: string, ...args: any[]) => string} Words */

/**
 * @param {string} roundId
 * @returns {Promise<Words | null>} the words of the page; null where there is none
 */
export async function showLoad(roundId) {
  const day = await dayWith((bundle) => bundle.rounds.some((/** @type {any} */ each) => each.id === roundId && each.load));
  if (day === null) {
    return null;
  }
  const words = await show(roundId, day);
  said(words, day);
  return words;
}

/**
 * @param {string} roundId
 * @param {kept.Day} day
 */
async function show(roundId, day) {
  const { load } = day.bundle.rounds.find((/** @type {any} */ each) => each.id === roundId);
  const words = head(day, (words) => [words("load.title"), load.number]);
  const here = await ticksOf(roundId);
  const inVan = h("p", { role: "status" });
  const rows = load.groups.flatMap((/** @type {any} */ group) => group.rows.map((/** @type {any} */ row) => new Row(words, roundId, load, row, here, day, () => count(), () => void again())));
  const count = () => {
    inVan.textContent = `${words("load.in-van")}: ${words("load.in-van.value", rows.filter((/** @type {Row} */ row) => row.ticked).length, rows.length)}.`;
  };
  count();
  const before = seen();
  bar(words, { href: "/day", key: "bar.day" }, { href: `/rounds/${roundId}/load`, key: "bar.load" });
  root.replaceChildren(
    h(
      "section",
      { class: load.fits ? "section" : "notice notice-signal" },
      load.fits ? h("p", { class: "say" }, load.verdict) : h("h2", { class: "notice-title" }, icon("unfit"), h("span", {}, load.verdict)),
      inVan,
      load.said.map((/** @type {string} */ each) => h("p", { class: "facts" }, each)),
    ),
    load.groups.length === 0 ? h("p", {}, words("load.empty")) : h("section", { class: "section" }, table(words, load, rows)),
    load.lifting ? h("p", { class: "fine" }, load.lifting) : "",
    load.mixes.length > 0 ? mixes(words, load.mixes) : "",
  );
  before();
  return words;

  /** What others have ticked meanwhile, as soon as the server can be asked; once for all that is answered at a time. */
  async function again() {
    if (asking) {
      askAgain = true;
      return;
    }
    asking = true;
    const newest = await loadDay(day.date).catch(() => null);
    asking = false;
    if (askAgain) {
      askAgain = false;
      await again();
    } else if (newest?.fresh && newest.day.bundle.rounds.some((/** @type {any} */ each) => each.id === roundId && each.load)) {
      await show(roundId, newest.day);
    }
  }
}

/** Where the person is on the page and what is typed there, to go on once it is drawn anew. @returns {() => void} */
function seen() {
  const lineOf = (/** @type {Element | null} */ element) => /** @type {HTMLElement | null | undefined} */ (element?.closest("[data-line]"))?.dataset.line;
  const inputs = () => [.../** @type {NodeListOf<HTMLInputElement>} */ (root.querySelectorAll("[data-line] input"))];
  const same = (/** @type {string | undefined} */ key, /** @type {string} */ name) => inputs().find((input) => lineOf(input) === key && input.name === name);
  const open = [...root.querySelectorAll("details[open]")].map((details) => lineOf(details));
  const typed = inputs()
    .filter((input) => input.type === "text" && open.includes(lineOf(input)))
    .map((input) => ({ key: lineOf(input), name: input.name, value: input.value }));
  const at = document.activeElement instanceof HTMLInputElement ? { key: lineOf(document.activeElement), name: document.activeElement.name } : null;
  return () => {
    open.forEach((key) => same(key, "missing")?.closest("details")?.setAttribute("open", ""));
    typed.forEach(({ key, name, value }) => Object.assign(same(key, name) ?? {}, { value }));
    if (at?.key) {
      same(at.key, at.name)?.focus({ preventScroll: true });
    }
  };
}

/** The last tick of each line that this device knows of itself. @param {string} roundId */
async function ticksOf(roundId) {
  const items = (await kept.about(roundId)).filter((item) => item.entry.kind === "load.tick");
  return new Map(items.map((item) => [item.entry.body.line, item]));
}

/** What is ticked by itself: a line of the sheet, with a box of its own where its row has several. */
class Part {
  /**
   * @param {any} part
   * @param {{name: string, amount: number}[]} stops who needs it
   * @param {kept.Item | undefined} item what was ticked on this device last
   * @param {kept.Day} day
   * @param {Row} row
   */
  constructor(part, stops, item, day, row) {
    this.part = part;
    this.stops = stops;
    this.item = item;
    const since = item !== undefined && kept.isSince(item, day.bundle);
    this.ticked = since ? item.entry.body.ticked : part.ticked;
    /** What was said on this device is not there of it; null where the server has heard last what there is. @type {{missing: number, instead: string} | null} */
    this.short = since ? shortOf(item.entry.body) : null;
    this.saidBefore = since ? "" : part.who;
    this.box = h("input", { type: "checkbox", checked: this.ticked, onchange: () => void row.tick([this], this.box.checked) });
    this.element = h(
      "li",
      { "data-line": `part ${part.key}` },
      h("label", { class: "tick" }, this.box, h("span", {}, h("strong", {}, part.name), part.needed ? h("span", { class: "facts" }, part.needed) : null, h("span", { class: "facts" }, this.saidBefore))),
    );
  }

  /** Whether it is ticked without being there. */
  get missing() {
    return this.ticked && (this.short ? this.short.missing > 0 : this.part.missing);
  }

  /** @param {boolean} ticked @param {{missing: number, instead: string} | null} [short] all of it is there, unless it says otherwise */
  set(ticked, short = { missing: 0, instead: "" }) {
    this.ticked = ticked;
    this.short = short;
    this.box.checked = ticked;
  }
}

/** @param {any} body of a tick */
function shortOf(body) {
  return { missing: body.ticked ? Number(body.missing ?? 0) : 0, instead: body.instead ?? "" };
}

/** One row of the sheet with its box. */
class Row {
  /**
   * @param {Words} words
   * @param {string} roundId
   * @param {any} load
   * @param {any} row
   * @param {Map<string, kept.Item>} here what was ticked on this device last, by line
   * @param {kept.Day} day
   * @param {() => void} changed
   * @param {() => void} arrived
   */
  constructor(words, roundId, load, row, here, day, changed, arrived) {
    this.words = words;
    this.roundId = roundId;
    this.load = load;
    this.row = row;
    this.changed = changed;
    this.arrived = arrived;
    /** @type {Part[]} */
    this.parts = row.parts.map((/** @type {any} */ part, /** @type {number} */ at) => new Part(part, row.stops[at], here.get(part.key), day, this));
    this.box = h("input", { type: "checkbox", onchange: () => void this.tick(this.parts.filter((part) => part.ticked !== this.box.checked), this.box.checked) });
    this.who = h("span", { class: "facts" }, [...new Set(this.parts.map((part) => part.saidBefore))].filter(Boolean).join(" · "));
    this.partly = h("span", { class: "facts" });
    this.shortage = h("span", { class: "facts", role: "status" });
    this.wrong = h("span", { class: "field-error", role: "alert" });
    this.element = this.made();
    this.show();
    for (const part of this.parts) {
      const { item } = part;
      if (item?.state === "waiting") {
        this.who.textContent = words("kept");
        void awaited(item, () => {}).then((result) => this.answered([result], [part]));
      } else if (item !== undefined && item.result.status !== "applied" && !part.part.ticked) {
        this.notKept();
      }
    }
  }

  get ticked() {
    return this.parts.every((part) => part.ticked);
  }

  made() {
    const { row, words } = this;
    const several = this.parts.length > 1;
    const name = [row.measure, row.item].filter(Boolean).join(" ");
    return h(
      "tr",
      { "data-line": row.parts[0].key },
      h("td", { class: "cell-tick" }, h("label", { class: "tick tick-only" }, this.box, h("span", { class: "visually-hidden" }, words("load.tick", [`${row.take} ${name}`, row.numbers].filter(Boolean).join(", "))))),
      h("td", { class: "num" }, h("b", {}, row.take)),
      h(
        "th",
        { scope: "row" },
        name,
        several ? h("strong", { class: "load-numbers" }, words("load.numbers", row.numbers)) : null,
        row.facts.filter(Boolean).map((/** @type {string} */ fact) => h("span", { class: "facts" }, fact)),
        this.partly,
        this.who,
        this.shortage,
        this.wrong,
        h(
          "details",
          {},
          h("summary", { class: "fine" }, words(several ? "load.parts" : "load.short.summary")),
          several ? h("ul", { class: "ticks" }, this.parts.map((part) => part.element)) : null,
          this.shortForm(),
        ),
      ),
      h("td", { class: "num", "data-label": words("load.column.together") }, row.together),
      h("td", { class: "facts" }, row.needed),
    );
  }

  /** What is not there, and what goes instead. */
  shortForm() {
    const { row, words } = this;
    const missing = entry(words("load.short.missing", [row.take, row.measure].filter(Boolean).join(" ")), { name: "missing", inputmode: "decimal", value: row.missing });
    const instead = entry(words("load.short.instead"), { name: "instead", maxlength: "200", value: row.instead });
    const keep = (/** @type {SubmitEvent} */ event) => {
      event.preventDefault();
      this.tickShort(missing.input.value, instead.input.value.trim());
    };
    return h(
      "form",
      { class: "form", novalidate: true, onsubmit: keep },
      missing.element,
      this.parts.length > 1 ? h("p", { class: "facts" }, words("load.short.which")) : null,
      instead.element,
      h("div", { class: "actions" }, h("button", { class: "button", type: "submit" }, words("load.short.keep"))),
    );
  }

  /** @param {string} typed @param {string} instead */
  tickShort(typed, instead) {
    const { row, words } = this;
    const lines = this.parts.map((part) => ({ line: part.part.key, amount: part.part.amount, ticked: part.ticked, missing: part.missing }));
    const ticks = ticksShort(lines, typed, Number(row.factor), instead);
    if (ticks === null) {
      this.wrong.replaceChildren(icon("needed"), words("load.short.range", row.take));
      return;
    }
    if (row.safety && ticks.some((tick) => Number(tick.missing) === Number(tick.amount))) {
      this.wrong.replaceChildren(icon("needed"), words("load.missing-safety"));
      return;
    }
    const parts = ticks.map((tick) => /** @type {Part} */ (this.parts.find((part) => part.part.key === tick.line)));
    this.element.querySelector("details").open = false;
    void this.tick(parts, true, (part) => ticks[parts.indexOf(part)]);
  }

  /**
   * @param {Part[]} parts
   * @param {boolean} ticked
   * @param {(part: Part) => {missing?: string, instead?: string}} short what is not there of each
   */
  async tick(parts, ticked, short = () => ({})) {
    this.wrong.replaceChildren();
    const results = parts.map((part) => this.send(part, ticked, short(part)));
    this.update();
    this.answered(await Promise.all(results), parts);
  }

  /** @param {Part} part @param {boolean} ticked @param {{missing?: string, instead?: string}} short */
  send(part, ticked, { missing, instead }) {
    const { words, row, load } = this;
    const { ticked: before, short: shortBefore } = part;
    const { key, amount, name } = part.part;
    const body = { line: key, amount, ticked, version: load.version, ...(missing !== undefined && { missing, instead }) };
    part.set(ticked, shortOf(body));
    return enqueue(
      "load.tick",
      this.roundId,
      body,
      null,
      (step) => {
        if (step === "full") {
          part.set(before, shortBefore);
          this.update();
          this.wrong.replaceChildren(icon("needed"), words("full"));
        } else {
          this.who.textContent = words(step === "saving" ? "saving" : "kept");
        }
      },
      { key: `load/${key}`.slice(0, 300), name: [row.item, name].filter(Boolean).join(" ") },
    );
  }

  update() {
    this.show();
    this.changed();
  }

  /** A row of which some is in the van is neither ticked nor open. */
  show() {
    const dealtWith = this.parts.filter((part) => part.ticked).length;
    const partly = dealtWith > 0 && dealtWith < this.parts.length;
    this.box.checked = this.ticked;
    this.box.indeterminate = partly;
    this.partly.textContent = partly ? this.words("load.partly", dealtWith, this.parts.length) : "";
    const said = this.saidShort();
    this.shortage.replaceChildren(...(said ? [h("span", { class: "state state-strong state-signal" }, icon("needed"), h("span", {}, said))] : []));
    this.element.classList.toggle("is-quiet", this.ticked);
  }

  /** What is not there, what goes instead and which stops that endangers, also before the server knows of it. */
  saidShort() {
    const { row, words } = this;
    const here = this.parts.filter((part) => part.ticked && part.short && part.short.missing > 0);
    if (here.length === 0) {
      return this.parts.some((part) => part.missing) ? row.shortage : "";
    }
    const missing = (/** @type {Part} */ part) => /** @type {{missing: number}} */ (part.short).missing;
    const [first] = here;
    const stops = [...new Set(here.flatMap((part) => endangered(part.stops, Number(part.part.amount), missing(part))))];
    return [
      this.parts.length > 1
        ? words("load.short.numbers", here.length, here.map((part) => part.part.name).join(", "))
        : words("load.short", [written(missing(first) / Number(row.factor), 3), row.measure].filter(Boolean).join(" ")),
      ...new Set(here.map((part) => part.short?.instead).filter(Boolean).map((instead) => words("load.left.instead", instead))),
      words("load.short.endangers", first.stops.length === 0 ? words("load.every-stop") : stops.join(", ")),
    ].join(" ");
  }

  /** @param {import("./store.js").Result[]} results @param {Part[]} parts */
  answered(results, parts) {
    const refused = parts.filter((part, at) => results[at].status !== "applied");
    if (refused.length === 0) {
      this.who.textContent = this.words("saved");
    } else {
      refused.forEach((part) => part.set(false));
      this.update();
      this.notKept();
    }
    this.arrived();
  }

  /** The sheet was another by the time the server heard of it. */
  notKept() {
    this.who.textContent = "";
    this.wrong.replaceChildren(icon("needed"), this.words("load.sheet-changed"), " ", this.words("load.sheet-changed.do"));
  }
}

/**
 * @param {Words} words
 * @param {any} load
 * @param {Row[]} rows
 */
function table(words, load, rows) {
  const column = (/** @type {string} */ key, /** @type {string} */ kind = "") => h("th", { scope: "col", class: kind }, words(key));
  let at = 0;
  return h(
    "table",
    { class: "ledger" },
    h("caption", { class: "visually-hidden" }, words("load.title")),
    h("thead", {}, h("tr", {}, column("load.in-van", "cell-tick"), column("load.column.take", "num"), column("load.column.what"), column("load.column.together", "num"), column("load.column.needed"))),
    load.groups.map((/** @type {any} */ group) =>
      h(
        "tbody",
        {},
        h("tr", {}, h("th", { scope: "colgroup", colspan: "5" }, group.title, " ", group.remark ? h("small", {}, group.remark) : null)),
        group.rows.map(() => rows[at++].element),
      ),
    ),
  );
}

/**
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any[]} mixes
 */
function mixes(words, mixes) {
  const part = (/** @type {string} */ key, /** @type {string} */ value) => h("div", {}, h("dt", {}, words(key)), h("dd", {}, value));
  return h(
    "section",
    { class: "section" },
    h("div", { class: "section-head" }, h("h2", {}, words("load.mixes")), h("p", {}, words("load.mixes.facts"))),
    mixes.map((each) =>
      h(
        "dl",
        { class: "strip" },
        part("load.mix.volume", [each.volume, each.apart].filter(Boolean).join(", ")),
        part("load.mix.salinity", each.salinity),
        part("load.mix.product", each.product),
        part("load.mix.water", each.water),
      ),
    ),
  );
}
