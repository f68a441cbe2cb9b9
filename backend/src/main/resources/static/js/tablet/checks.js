// @ts-check
/** An instrument that is still to be checked. */
import { h } from "./fields.js";

/**
 * @param {(key: string, ...args: any[]) => string} words
 * @param {any} check
 */
export function checkDue(words, check) {
  const query = check.standards.length > 0 ? `?standard=${check.standards.join(",")}` : "";
  return h(
    "div",
    {},
    h("p", { class: "say" }, `${check.code}, ${check.name}`),
    h("p", { class: "facts" }, check.why, " ", words("checks.standard", check.take)),
    h("div", { class: "actions" }, h("a", { class: "button button-strong nowrap", href: `/instruments/${check.instrument}/checks/new${query}` }, words("checks.write", check.code))),
  );
}
