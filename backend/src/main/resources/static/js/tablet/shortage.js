// @ts-check
/** A row of the load of which not all is there: which of its lines that is, and which stops go without. As the server has it. */

const ROUNDING = 1e-9;

/**
 * One line of a row.
 *
 * @typedef {{line: string, amount: string, ticked: boolean, missing: boolean}} Line missing says that it is ticked without being there
 * @typedef {{line: string, amount: string, ticked: boolean, missing?: string, instead?: string}} Tick
 */

/**
 * The ticks of a row with what is there.
 *
 * @param {Line[]} lines
 * @param {string} typed how much is missing, as it is shown
 * @param {number} factor from what is shown to the unit of the line
 * @param {string} instead
 * @returns {Tick[] | null} null where what is typed is no number, or not of this row
 */
export function ticksShort(lines, typed, factor, instead) {
  const text = typed.trim().replace(",", ".");
  const missing = Number(text);
  if (!/^\d{1,9}(\.\d{1,3})?$/.test(text)) {
    return null;
  }
  if (lines.length > 1) {
    return Number.isInteger(missing) && missing <= lines.length ? shortOfSeveral(lines, missing, instead) : null;
  }
  const [{ line, amount }] = lines;
  const inUnit = Math.round(missing * factor * 1e6) / 1e6;
  return inUnit <= Number(amount) ? [{ line, amount, ticked: true, missing: String(inUnit), instead }] : null;
}

/**
 * The last ones that nobody has put in are not there.
 *
 * @param {Line[]} lines
 * @param {number} missing
 * @param {string} instead
 * @returns {Tick[]}
 */
function shortOfSeveral(lines, missing, instead) {
  const isIn = (/** @type {Line} */ line) => line.ticked && !line.missing;
  const lastFirst = [...lines.filter((line) => !isIn(line)).reverse(), ...lines.filter(isIn).reverse()];
  const short = new Set(lastFirst.slice(0, missing));
  return lines
    .filter((line) => short.has(line) || !isIn(line))
    .map((line) => ({ line: line.line, amount: line.amount, ticked: true, ...(short.has(line) && { missing: line.amount, instead }) }));
}

/**
 * The stops that do not get all they need, since the first ones take theirs first.
 *
 * @param {{name: string, amount: number}[]} stops in the order of the round
 * @param {number} amount of the line
 * @param {number} missing of it
 * @returns {string[]} their names
 */
export function endangered(stops, amount, missing) {
  const left = stops.reduce((sum, stop) => sum + stop.amount, 0) * (1 - missing / amount);
  let taken = 0;
  return stops
    .filter((stop) => {
      taken += stop.amount;
      return taken > left + ROUNDING;
    })
    .map((stop) => stop.name);
}
