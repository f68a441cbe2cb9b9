// @ts-check
/** When the stops of a round that are still to come are reached, worked out anew from when the last one was left. */

const MINUTE_MS = 60_000;
const SECOND_MS = 1000;

/**
 * @typedef {{startedAt?: number, finishedAt?: number}} Begun
 * @typedef {{arrives: number, starts: number, departs: number, lateMinutes: number}} Times lateMinutes is by how much work
 *   begins after the site closes, rounded up; 0 where it does not
 */

/**
 * All times are milliseconds by the clock of the server.
 *
 * @param {any} pace of the round, from the day's bundle
 * @param {string[]} inOrder ids of all stops, as they are to be done
 * @param {Map<string, Begun>} begun what was begun, by the id of the stop
 * @param {number} now nothing is reached before it
 * @returns {{ahead: Map<string, Times>, back: number}} the stops that nobody has begun, and when the van is at its depot again
 */
export function timesAhead(pace, inOrder, begun, now) {
  const at = (/** @type {string} */ id) => pace.stops.findIndex((/** @type {any} */ stop) => stop.id === id);
  const last = lastBegun(pace, begun, now);
  // The depot stands before the stops.
  let place = last === null ? 0 : at(last.id) + 1;
  let left = last === null ? Date.parse(pace.leavesAt) : last.left;
  let sick = last !== null && pace.stops[at(last.id)].leftSick;
  /** @type {Map<string, Times>} */
  const ahead = new Map();
  for (const id of inOrder.filter((each) => !begun.has(each) && at(each) >= 0)) {
    const stop = pace.stops[at(id)];
    const disinfecting = sick && stop.clean ? pace.disinfectionMinutes * MINUTE_MS : 0;
    const driven = left + pace.seconds[place][at(id) + 1] * SECOND_MS + disinfecting;
    const arrives = ahead.size === 0 ? Math.max(driven, now) : driven;
    const starts = stop.opensAt === undefined ? arrives : Math.max(arrives, Date.parse(stop.opensAt));
    const late = stop.closesAt === undefined ? 0 : Math.max(0, starts - Date.parse(stop.closesAt));
    left = starts + stop.minutes * MINUTE_MS;
    ahead.set(id, { arrives, starts, departs: left, lateMinutes: Math.ceil(late / MINUTE_MS) });
    place = at(id) + 1;
    sick = stop.leftSick;
  }
  return { ahead, back: left + pace.seconds[place][0] * SECOND_MS };
}

/**
 * Where the van is: at what was begun last, until that is finished, or as long as it was to take.
 *
 * @param {any} pace
 * @param {Map<string, Begun>} begun
 * @param {number} now
 * @returns {{id: string, left: number} | null}
 */
function lastBegun(pace, begun, now) {
  const stops = pace.stops.filter((/** @type {any} */ stop) => begun.has(stop.id));
  const known = stops.map((/** @type {any} */ stop) => {
    const { startedAt, finishedAt } = /** @type {Begun} */ (begun.get(stop.id));
    return { id: stop.id, left: finishedAt ?? Math.max(now, (startedAt ?? now) + stop.minutes * MINUTE_MS) };
  });
  return known.reduce((/** @type {any} */ latest, /** @type {any} */ each) => (latest === null || each.left > latest.left ? each : latest), null);
}
