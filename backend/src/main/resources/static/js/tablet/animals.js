// @ts-check
/** What is seen of the animals. */
import { SavedField, h, oneOf } from "./fields.js";

const APPETITES = ["AS_USUAL", "LESS", "NOTHING", "NOT_FED"];

/**
 * How the animals took their food: what is wrong with them shows there first.
 *
 * @param {any} page
 * @param {any} system
 */
export function feeding(page, system) {
  const { words } = page;
  const field = new SavedField(page, `feeding/${system.id}`, words("feeding.name"));
  return h(
    "div",
    {},
    oneOf(
      words("feeding"),
      APPETITES.map((code) => ({ value: code, text: words(`feeding.${code}`) })),
      field.shown?.appetite ?? "",
      (appetite) => void field.save("visit.feeding", { system: system.id, appetite }),
    ),
    field.element,
  );
}
