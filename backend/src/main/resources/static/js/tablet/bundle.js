// @ts-check
/** What the page shows: the day's bundle and the words, fetched here and nowhere else. */

/** @param {string} path */
async function json(path) {
  const response = await fetch(path, { redirect: "error", signal: AbortSignal.timeout(30000) });
  if (!response.ok) {
    throw new Error(`${path}: ${response.status}`);
  }
  return response.json();
}

/** @returns {Promise<(key: string, ...args: any[]) => string>} */
export async function loadWords() {
  const words = await json("/api/words/tablet");
  return (key, ...args) => (words[key] ?? key).replace(/\{(\d)\}/g, (/** @type {string} */ _, /** @type {string} */ n) => String(args[Number(n)] ?? ""));
}

/**
 * @param {string} date
 * @param {string} technician
 * @param {string} visitId
 */
export async function loadVisit(date, technician, visitId) {
  const own = await json("/api/session").catch(() => ({}));
  const asked = own.role === "TECHNICIAN" ? "" : `?technician=${technician}`;
  const bundle = await json(`/api/bundles/${date}${asked}`);
  const visit = bundle.visits.find((/** @type {any} */ each) => each.id === visitId);
  if (!visit) {
    throw new Error("the visit is not in the bundle");
  }
  const due = bundle.plannedVisits.filter((/** @type {any} */ each) => visit.plannedVisits.includes(each.id));
  const asFor = new Set(due.map((/** @type {any} */ each) => each.system));
  const here = bundle.systems.filter((/** @type {any} */ each) => each.site === visit.site);
  // Systems something is due for; a visit without any is about whatever stands there.
  const systems = asFor.size > 0 ? here.filter((/** @type {any} */ each) => asFor.has(each.id)) : here;
  return { bundle, visit, due, systems, person: String(own.signInName ?? "") };
}
