// @ts-check
/** Clean before sick: in which order the rest of a round is done once illness is suspected. */

const SUSPICION = "suspicion/";
/** Hands and tools go from clean water to sick. @type {Record<string, number>} */
const RANKS = { HEALTHY: 0, NEW: 1, QUARANTINE: 2, SUSPECTED: 3, TREATMENT: 4 };

/**
 * The stops that nobody has begun: healthy ones first, then new ones, then those with anything in quarantine, suspected or
 * under treatment; among equals as they were planned.
 *
 * @param {any} bundle of the day
 * @param {any[]} stops of the round, as planned
 * @param {Set<string>} begun ids of stops
 * @param {Set<string>} suspected ids of systems, besides those that the bundle knows
 * @returns {any[]}
 */
export function cleanestFirst(bundle, stops, begun, suspected) {
  const rank = (/** @type {any} */ stop) => {
    const due = new Set(bundle.plannedVisits.filter((/** @type {any} */ each) => stop.plannedVisits.includes(each.id)).map((/** @type {any} */ each) => each.system));
    const ranks = bundle.systems.filter((/** @type {any} */ each) => due.has(each.id)).map((/** @type {any} */ each) => Math.max(RANKS[each.infectionClass] ?? 0, suspected.has(each.id) ? RANKS.SUSPECTED : 0));
    return Math.max(0, ...ranks);
  };
  return stops
    .filter((stop) => !begun.has(stop.id))
    .map((stop, at) => ({ stop, at, rank: rank(stop) }))
    .sort((one, other) => one.rank - other.rank || one.at - other.at)
    .map(({ stop }) => stop);
}

/**
 * The systems that illness was suspected in on the day of the bundle: on this device, unless the server refused it, and on
 * others as far as the server knew, while the system is not called healthy again.
 *
 * @param {any} bundle of the day
 * @param {import("./kept.js").Item[]} items
 * @returns {Set<string>}
 */
export function suspectedIn(bundle, items) {
  const ofDay = new Set([...bundle.visits, ...bundle.rounds.flatMap((/** @type {any} */ round) => round.stops)].map((each) => each.id));
  const sick = new Set(bundle.systems.filter((/** @type {any} */ each) => each.sick).map((/** @type {any} */ each) => each.id));
  const elsewhere = bundle.visits.flatMap((/** @type {any} */ visit) => Object.keys(visit.fields).filter((key) => key.startsWith(SUSPICION))).map((/** @type {string} */ key) => key.slice(SUSPICION.length));
  const here = items.filter((item) => item.entry.kind === "visit.suspicion" && ofDay.has(item.entry.subject) && item.result?.status !== "refused").map((item) => item.entry.body.system);
  return new Set([...here, ...elsewhere.filter((/** @type {string} */ system) => sick.has(system))]);
}
