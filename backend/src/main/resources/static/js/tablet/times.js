// @ts-check
/** Times as this device shows them. */

/** Of today only the hour is told. @param {number} at */
export function ageOf(at) {
  const then = new Date(at);
  const options = then.toDateString() === new Date().toDateString() ? { timeStyle: "short" } : { dateStyle: "medium", timeStyle: "short" };
  return then.toLocaleString(document.documentElement.lang, /** @type {any} */ (options));
}

/** @param {number} at */
export function timeOf(at) {
  return new Date(at).toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit" });
}
