// @ts-check
/** What stands around pages that show a day which this device has kept. */
import { spoken } from "./bundle.js";
import { h } from "./fields.js";
import { status } from "./store.js";
import { ageOf } from "./times.js";
import { tellWaiting } from "./waiting.js";

/**
 * @param {import("./kept.js").Day} day
 * @param {(words: (key: string, ...args: any[]) => string) => string[]} titles of the page, and what stands beneath
 * @returns {(key: string, ...args: any[]) => string} the words of the day
 */
export function head(day, titles) {
  const words = spoken(day.words);
  document.documentElement.lang = day.bundle.locale;
  const [title, beneath] = titles(words);
  document.title = title;
  text("place", title);
  text("number", beneath);
  text("person", day.bundle.technician.name);
  return words;
}

/**
 * Says how old what is shown is, and what waits to be sent.
 *
 * @param {(key: string, ...args: any[]) => string} words
 * @param {import("./kept.js").Day} day
 */
export function said(words, day) {
  status((waiting) => tellWaiting(words, waiting, words("age", ageOf(day.at))));
}

/**
 * @param {(key: string, ...args: any[]) => string} words
 * @param {...{href: string, key: string}} links the last is this page
 */
export function bar(words, ...links) {
  document.getElementById("bar")?.replaceChildren(...links.map(({ href, key }, at) => h("a", { href, "aria-current": at === links.length - 1 ? "page" : null }, words(key))));
}

/**
 * @param {string} id
 * @param {string} value
 */
export function text(id, value) {
  const element = document.getElementById(id);
  if (element) {
    element.textContent = value;
  }
}
