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
 * @param {number | undefined} [backBefore] when the van is at its depot again from its round before, if there was one
 * @returns {{ahead: Map<string, Times>, back: number}} the stops that nobody has begun, and when the van is at its depot again
 */
export function timesAhead(pace, inOrder, begun, now, backBefore) {
  const at = (/** @type {string} */ id) => pace.stops.findIndex((/** @type {any} */ stop) => stop.id === id);
  const last = lastBegun(pace, begun, now);
  // The depot stands before the stops.
  let place = last === null ? 0 : at(last.id) + 1;
  let left = last === null ? Math.max(Date.parse(pace.leavesAt), backBefore === undefined ? 0 : loaded(pace, backBefore)) : last.left;
  const rest = restFrom(pace, Math.max(left, now));
  let sick = last === null ? pace.leavesSick === true : pace.stops[at(last.id)].leftSick;
  // From here on without the break, in which nothing is done.
  let done = left;
  /** @type {Map<string, Times>} */
  const ahead = new Map();
  for (const id of inOrder.filter((each) => !begun.has(each) && at(each) >= 0)) {
    const stop = pace.stops[at(id)];
    const disinfecting = sick && stop.clean ? pace.disinfectionMinutes * MINUTE_MS : 0;
    const driven = done + pace.seconds[place][at(id) + 1] * SECOND_MS + disinfecting;
    const there = ahead.size === 0 ? Math.max(driven, now) : driven;
    const works = stop.opensAt === undefined ? there : Math.max(there, rest.open(Date.parse(stop.opensAt)));
    const arrives = Math.max(left, rest.ends(there));
    const starts = rest.begins(works);
    const late = stop.closesAt === undefined ? 0 : Math.max(0, starts - Date.parse(stop.closesAt));
    done = works + stop.minutes * MINUTE_MS;
    left = Math.max(starts, rest.ends(done));
    ahead.set(id, { arrives, starts, departs: left, lateMinutes: Math.ceil(late / MINUTE_MS) });
    place = at(id) + 1;
    sick = stop.leftSick;
  }
  return { ahead, back: Math.max(left, rest.ends(done + pace.seconds[place][0] * SECOND_MS)) };
}

/**
 * When a van that is back has loaded for its next round.
 *
 * @param {any} pace of the next round
 * @param {number} back
 */
function loaded(pace, back) {
  const rest = restFrom(pace, back);
  return rest.ends(rest.open(back) + pace.loadingMinutes * MINUTE_MS);
}

/**
 * The break of the crew: times without it, in which it takes no time, and those of the clock. As the office plans with it, it
 * begins at the latest moment, wherever the crew is; what lies behind that moment has had it.
 *
 * @param {any} pace
 * @param {number} from the moment from which the times are worked out
 */
function restFrom(pace, from) {
  const { at, minutes } = pace.rest ?? {};
  const by = at === undefined || Date.parse(at) < from ? Infinity : Date.parse(at);
  const lasts = (minutes ?? 0) * MINUTE_MS;
  return {
    /** The first moment without the break at which work begins no earlier than at one of the clock. @param {number} clock */
    open: (clock) => (clock <= by ? clock : Math.max(by, clock - lasts)),
    /** What the clock shows when work begins. @param {number} without */
    begins: (without) => (without < by ? without : without + lasts),
    /** What the clock shows when something ends. @param {number} without */
    ends: (without) => (without <= by ? without : without + lasts),
  };
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
    const started = startedAt ?? now;
    return { id: stop.id, left: finishedAt ?? Math.max(now, restFrom(pace, started).ends(started + stop.minutes * MINUTE_MS)) };
  });
  return known.reduce((/** @type {any} */ latest, /** @type {any} */ each) => (latest === null || each.left > latest.left ? each : latest), null);
}
