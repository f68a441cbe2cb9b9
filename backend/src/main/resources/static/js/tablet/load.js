// @ts-check
/** What is in the van, read and ticked where there is no signal: a tick is an entry like any other. */
import { dayWith, loadDay } from "./bundle.js";
import { bar, head, said } from "./frame.js";
import { h, icon } from "./fields.js";
import * as kept from "./kept.js";
import { awaited, enqueue } from "./store.js";

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
  const rows = load.groups.flatMap((/** @type {any} */ group) => group.rows.map((/** @type {any} */ row) => new Line(words, roundId, load, row, here.get(row.key), day, () => count(), () => void again())));
  const count = () => {
    inVan.textContent = `${words("load.in-van")}: ${words("load.in-van.value", rows.filter((/** @type {Line} */ line) => line.ticked).length, rows.length)}.`;
  };
  count();
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
  return words;

  /** What others have ticked meanwhile, as soon as the server can be asked. */
  async function again() {
    const newest = await loadDay(day.date).catch(() => null);
    if (newest?.fresh && newest.day.bundle.rounds.some((/** @type {any} */ each) => each.id === roundId && each.load)) {
      await show(roundId, newest.day);
    }
  }
}

/** The last tick of each line that this device knows of itself. @param {string} roundId */
async function ticksOf(roundId) {
  const items = (await kept.about(roundId)).filter((item) => item.entry.kind === "load.tick");
  return new Map(items.map((item) => [item.entry.body.line, item]));
}

/** One line of the sheet with its box. */
class Line {
  /**
   * @param {Words} words
   * @param {string} roundId
   * @param {any} load
   * @param {any} row
   * @param {kept.Item | undefined} item what was ticked on this device last
   * @param {kept.Day} day
   * @param {() => void} changed
   * @param {() => void} arrived
   */
  constructor(words, roundId, load, row, item, day, changed, arrived) {
    this.words = words;
    this.roundId = roundId;
    this.load = load;
    this.row = row;
    this.changed = changed;
    this.arrived = arrived;
    const since = item !== undefined && kept.isSince(item, day.bundle);
    this.ticked = since ? item.entry.body.ticked : row.ticked;
    this.box = h("input", { type: "checkbox", checked: this.ticked, onchange: () => void this.tick() });
    this.who = h("span", { class: "facts" }, since ? "" : row.who);
    this.wrong = h("span", { class: "field-error", role: "alert" });
    this.element = this.made();
    if (item?.state === "waiting") {
      this.who.textContent = words("kept");
      void awaited(item, () => {}).then((result) => this.answered(result));
    } else if (item !== undefined && item.result.status !== "applied" && !row.ticked) {
      this.notKept();
    }
  }

  made() {
    const { row, words } = this;
    const name = [row.measure, row.item].filter(Boolean).join(" ");
    return h(
      "tr",
      { class: this.ticked ? "is-quiet" : null, "data-line": row.key },
      h("td", { class: "cell-tick" }, h("label", { class: "tick tick-only" }, this.box, h("span", { class: "visually-hidden" }, words("load.tick", `${row.take} ${name}`)))),
      h("td", { class: "num" }, h("b", {}, row.take)),
      h("th", { scope: "row" }, name, row.facts.filter(Boolean).map((/** @type {string} */ fact) => h("span", { class: "facts" }, fact)), this.who, this.wrong),
      h("td", { class: "num", "data-label": words("load.column.together") }, row.together),
      h("td", { class: "facts" }, row.needed),
    );
  }

  async tick() {
    const { words, row, load } = this;
    const before = this.ticked;
    this.set(this.box.checked);
    this.wrong.replaceChildren();
    const body = { line: row.key, amount: row.amount, ticked: this.ticked, version: load.version };
    const result = await enqueue(
      "load.tick",
      this.roundId,
      body,
      null,
      (step) => {
        if (step === "full") {
          this.set(before);
          this.wrong.replaceChildren(icon("needed"), words("full"));
        } else {
          this.who.textContent = words(step === "saving" ? "saving" : "kept");
        }
      },
      { key: `load/${row.key}`.slice(0, 300), name: row.item },
    );
    this.answered(result);
  }

  /** @param {boolean} ticked */
  set(ticked) {
    this.ticked = ticked;
    this.box.checked = ticked;
    this.element.classList.toggle("is-quiet", ticked);
    this.changed();
  }

  /** @param {import("./store.js").Result} result */
  answered(result) {
    if (result.status === "applied") {
      this.who.textContent = this.words("saved");
      this.arrived();
      return;
    }
    this.set(false);
    this.notKept();
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
 * @param {Line[]} rows
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
