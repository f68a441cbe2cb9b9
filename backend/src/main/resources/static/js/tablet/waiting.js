// @ts-check
/** Says what waits on this device to be sent, and how old what is shown is. */
import { send } from "./store.js";
import { ageOf } from "./times.js";

const fact = /** @type {HTMLElement} */ (document.getElementById("sync-fact"));
const now = /** @type {HTMLButtonElement} */ (document.getElementById("sync-now"));

now.addEventListener("click", () => void send());

/**
 * @param {(key: string, ...args: any[]) => string} words
 * @param {import("./store.js").Waiting} waiting
 * @param {string} age
 */
export function tellWaiting(words, { count, oldest, trouble }, age) {
  const key = count === 0 ? "all-saved" : count === 1 ? "one-waits" : "some-wait";
  const why = trouble === null ? "" : words(trouble);
  now.hidden = trouble !== "failed";
  tell([words(key, count, oldest === null ? "" : ageOf(oldest)), why, age]);
}

/** @param {string[]} sentences */
export function tell(sentences) {
  fact.textContent = sentences.filter(Boolean).join(" ");
}
