// @ts-check
/** What is expected of a system by its age, and whether animals may go in yet. */
import { SavedField, entry, h, icon, oneOf } from "./fields.js";

/**
 * @param {any} page
 * @param {any} system
 */
export function young(page, system) {
  const told = system.young ?? {};
  if (told.week === undefined) {
    return h("div", {});
  }
  const { words } = page;
  const source = new SavedField(page, `ammonia-source/${system.id}`, words("young.source.name"), { answered: () => page.read() });
  const found = h("p", { class: "say", role: "status" });
  const describe = () => {
    const text = isFound(page, system) ? (told.ripe ? told.alarm : told.early) : "";
    found.replaceChildren(...(text === "" ? [] : [...(told.ripe ? [icon("needed"), " "] : []), text]));
  };
  describe();
  page.measured.push(describe);
  return h(
    "div",
    { "data-young": system.id },
    h("h3", {}, told.title),
    found,
    h("p", { class: "say" }, told.film),
    h("p", {}, told.stocking),
    oneOf(
      words("young.source"),
      ["FED", "DOSED", "NONE"].map((code) => ({ value: code, text: words(`young.source.${code}`) })),
      source.shown?.source ?? "",
      (value) => void source.save("visit.ammonia-source", { system: system.id, source: value }),
    ),
    source.element,
    h(
      "details",
      { class: "reading-more" },
      h("summary", {}, words("young.expected")),
      h("ul", {}, told.expected.map((/** @type {any} */ each) => h("li", {}, words("young.line", each.name, each.words, each.spread)))),
    ),
  );
}

/**
 * Whether ammonia or nitrite was found at this visit.
 *
 * @param {any} page
 * @param {any} system
 */
function isFound(page, system) {
  return Object.entries(page.visit.fields).some(
    ([field, { body }]) =>
      (field.startsWith(`reading/${system.id}/AMMONIA`) || field.startsWith(`reading/${system.id}/NITRITE`)) &&
      ["VALUE", "BETWEEN", "ABOVE_RANGE"].includes(body.answer) &&
      Number(String(body.upperValue ?? body.value).replace(",", ".")) > 0,
  );
}

/**
 * Asks why animals go in where the water speaks against it, before anything is kept.
 *
 * @param {any} page
 * @param {any} system
 * @param {SavedField} field
 * @param {() => void} save
 */
export function stocking(page, system, field, save) {
  const told = system.young ?? {};
  const why = entry(page.words("stocking.because"), { value: field.shown?.because ?? "", onchange: () => save() });
  const said = h("p", { class: "say", role: "alert" });
  const element = h("div", {}, said, why.element);
  const given = () => why.input.value.trim();
  /** @param {string} text */
  const ask = (text) => {
    said.textContent = text;
    element.hidden = false;
  };
  element.hidden = given() === "";
  field.options.refused = (result) => {
    if (result.code.startsWith("visits.stocking.")) {
      element.hidden = false;
    }
    return null;
  };
  return {
    element,
    part: { label: why.label, input: why.input },
    because: given,
    /** Whether it must be asked first: as far as this device knows. @param {number} count */
    asks: (count) => {
      const against = told.held || (told.code === "FEW" && count > told.most);
      if (against && given() === "") {
        ask(told.stocking);
        why.input.focus();
        return true;
      }
      said.textContent = "";
      return false;
    },
  };
}
