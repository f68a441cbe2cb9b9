// @ts-check
/** What is in the van, read where there is no signal; it is ticked at the depot, where there is one. */
import { dayWith } from "./bundle.js";
import { bar, head, said } from "./frame.js";
import { h, icon } from "./fields.js";

const root = /** @type {HTMLElement} */ (document.getElementById("visit"));

/**
 * @param {string} roundId
 * @returns {Promise<((key: string, ...args: any[]) => string) | null>} the words of the page; null where there is none
 */
export async function showLoad(roundId) {
  const day = await dayWith((bundle) => bundle.rounds.some((/** @type {any} */ each) => each.id === roundId && each.load));
  if (day === null) {
    return null;
  }
  const { load } = day.bundle.rounds.find((/** @type {any} */ each) => each.id === roundId);
  const words = head(day, (words) => [words("load.title"), load.number]);
  bar(words, { href: "/day", key: "bar.day" }, { href: `/rounds/${roundId}/load`, key: "bar.load" });
  root.replaceChildren(
    h(
      "section",
      { class: load.fits ? "section" : "notice notice-signal" },
      load.fits ? h("p", { class: "say" }, load.verdict) : h("h2", { class: "notice-title" }, icon("unfit"), h("span", {}, load.verdict)),
      h("p", {}, words("load.in-van"), ": ", words("load.in-van.value", load.done, load.lines), ". ", words("load.read-only")),
      load.said.map((/** @type {string} */ each) => h("p", { class: "facts" }, each)),
    ),
    load.groups.length === 0 ? h("p", {}, words("load.empty")) : lines(words, load),
    load.lifting ? h("p", { class: "fine" }, load.lifting) : "",
    load.mixes.length > 0 ? mixes(words, load.mixes) : "",
  );
  said(words, day);
  return words;
}

/**
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any} load
 */
function lines(words, load) {
  const column = (/** @type {string} */ key, /** @type {string} */ kind = "") => h("th", { scope: "col", class: kind }, words(key));
  return h(
    "table",
    { class: "ledger" },
    h("caption", { class: "visually-hidden" }, words("load.title")),
    h("thead", {}, h("tr", {}, column("load.in-van"), column("load.column.take", "num"), column("load.column.what"), column("load.column.together", "num"), column("load.column.needed"))),
    load.groups.map((/** @type {any} */ group) =>
      h(
        "tbody",
        {},
        h("tr", {}, h("th", { scope: "colgroup", colspan: "5" }, group.title, " ", group.remark ? h("small", {}, group.remark) : null)),
        group.rows.map((/** @type {any} */ row) =>
          h(
            "tr",
            { class: row.ticked ? "is-quiet" : null },
            h("td", {}, icon(row.ticked ? "done" : "todo"), h("span", { class: "visually-hidden" }, words(row.ticked ? "load.ticked" : "load.open"))),
            h("td", { class: "num" }, h("b", {}, row.take)),
            h(
              "th",
              { scope: "row" },
              [row.measure, row.item].filter(Boolean).join(" "),
              [...row.facts, row.who].filter(Boolean).map((/** @type {string} */ fact) => h("span", { class: "facts" }, fact)),
            ),
            h("td", { class: "num", "data-label": words("load.column.together") }, row.together),
            h("td", { class: "facts" }, row.needed),
          ),
        ),
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
