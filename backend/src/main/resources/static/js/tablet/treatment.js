// @ts-check
/** A treatment at the tank: how much by net volume and what is left, what must be off, and what is to be put back. */
import { SavedField, h, icon, oneOf } from "./fields.js";

/**
 * @param {any} page
 * @param {any} system
 */
export function treatments(page, system) {
  return h("div", { "data-treatments": system.id }, (system.treatments ?? []).map((/** @type {any} */ each) => one(page, system, each)));
}

/**
 * @param {any} page
 * @param {any} system
 * @param {any} treatment
 */
function one(page, system, treatment) {
  const { words } = page;
  return h(
    "section",
    {},
    h("h3", {}, words("treatment", treatment.product)),
    treatment.lines.map((/** @type {string} */ line) => h("p", { class: "say" }, line)),
    treatment.things.map((/** @type {any} */ thing) => {
      const field = new SavedField(page, `treatment-thing/${treatment.id}/${thing.code}`, thing.name);
      return h(
        "div",
        {},
        thing.state === "OFF" && treatment.ended ? h("p", { class: "state state-strong state-signal" }, icon("needed"), h("span", {}, treatment.ended)) : null,
        oneOf(
          words("treatment.thing", thing.name),
          ["OFF", "BACK"].map((code) => ({ value: code, text: words(`treatment.thing.${code}`) })),
          field.shown?.state ?? (thing.state === "ON" ? "" : thing.state),
          (value) => void field.save("visit.treatment-thing", { system: system.id, treatment: treatment.id, thing: thing.code, state: value }),
        ),
        field.element,
      );
    }),
  );
}
