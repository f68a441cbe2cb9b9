// @ts-check
/** What to do first when something kills, read where there is no signal. */
import { dayWith } from "./bundle.js";
import { h, icon } from "./fields.js";
import { bar, head, said } from "./frame.js";

const root = /** @type {HTMLElement} */ (document.getElementById("visit"));

/**
 * @param {string | null} systemId whose numbers are told beside; null for none
 * @returns {Promise<((key: string, ...args: any[]) => string) | null>} the words of the page; null where there is none
 */
export async function showEmergencies(systemId) {
  const named = (/** @type {any} */ bundle) => bundle.systems.find((/** @type {any} */ each) => each.id === systemId && each.emergency);
  const day = (await dayWith((bundle) => bundle.emergencies && named(bundle) !== undefined)) ?? (await dayWith((bundle) => bundle.emergencies !== undefined));
  if (day === null) {
    return null;
  }
  const told = day.bundle.emergencies;
  const system = named(day.bundle);
  const words = head(day, () => [told.title, system ? `${system.name}, ${system.code}` : ""]);
  bar(words, { href: "/day", key: "bar.day" }, { href: location.pathname + location.search, key: "bar.emergencies" });
  const concerned = told.plans.filter((/** @type {any} */ each) => !system?.emergency.not.includes(each.name));
  root.replaceChildren(
    h("section", { class: "notice notice-signal" }, h("h2", { class: "notice-title" }, icon("needed"), h("span", {}, told["people.title"])), steps(told.people)),
    ...(system ? numbers(told, system.emergency) : [h("p", { class: "facts" }, told["no-system"])]),
    h(
      "nav",
      { class: "section", "aria-label": told.which },
      h("div", { class: "section-head" }, h("h2", {}, told.which)),
      h("div", { class: "actions" }, concerned.map((/** @type {any} */ each) => h("a", { class: "button", href: `#${each.name}` }, each.title))),
    ),
    ...concerned.map((/** @type {any} */ each) =>
      h(
        "section",
        { class: "section emergency", id: each.name },
        h("div", { class: "section-head" }, h("h2", {}, each.title)),
        h("p", { class: "facts" }, each.sign),
        steps(each.steps),
        each.rescueWater ? h("p", {}, h("strong", {}, each.rescueWater)) : null,
        h("h3", {}, told.unknown),
        h("p", {}, each.unknown),
        h("h3", {}, told.call),
        h("p", {}, each.call),
      ),
    ),
    h("p", { class: "fine" }, told.fine),
  );
  said(words, day);
  if (location.hash) {
    document.getElementById(location.hash.slice(1))?.scrollIntoView();
  }
  return words;
}

/** @param {string[]} lines */
function steps(lines) {
  return h("ol", { class: "steps" }, lines.map((line) => h("li", {}, line)));
}

/**
 * @param {any} told
 * @param {any} of the system
 */
function numbers(told, of) {
  const facts = h("dl", { class: "strip" }, of.facts.map((/** @type {string[]} */ [term, value]) => h("div", {}, h("dt", {}, term), h("dd", {}, value))));
  if (of.ammonia.length === 0) {
    return [facts, h("p", { class: "facts" }, told["ammonia-unknown"])];
  }
  const harms = () => h("span", { class: "state state-strong state-signal" }, icon("needed"), h("span", {}, told.harms));
  return [
    facts,
    h(
      "section",
      { class: "section" },
      h("div", { class: "section-head" }, h("h2", {}, told["ammonia-table"])),
      h("p", { class: "facts" }, of.total ?? ""),
      h(
        "table",
        { class: "ledger" },
        h("caption", { class: "visually-hidden" }, told["ammonia-table"]),
        h("thead", {}, h("tr", {}, h("th", { scope: "col" }, "pH"), h("th", { scope: "col", class: "num" }, told.ammonia))),
        h("tbody", {}, of.ammonia.map((/** @type {any} */ line) => h("tr", {}, h("th", { scope: "row" }, line.ph), h("td", { class: "num" }, line.value, " ", line.harms ? harms() : null)))),
      ),
    ),
  ];
}
