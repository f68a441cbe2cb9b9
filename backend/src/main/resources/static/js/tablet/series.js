// @ts-check
/** What was read on a system before, and how it went. */
import { h, icon, shape } from "./fields.js";

/**
 * @param {any} page
 * @param {any} system
 */
export function series(page, system) {
  const { words } = page;
  const known = system.series ?? [];
  if (known.length === 0) {
    return null;
  }
  return h(
    "details",
    { class: "reading-more", "data-series": system.id },
    h("summary", {}, words("series")),
    h("p", { class: "fine" }, words("series.why", page.known)),
    h(
      "ul",
      { class: "small-series plain" },
      known.map((/** @type {any} */ each) =>
        h(
          "li",
          { "data-quantity": each.name },
          h("h3", {}, each.name),
          h("p", {}, h("strong", {}, each.last.asWritten), " ", words("series.on", each.last.on)),
          each.last.trusted ? null : h("p", { class: "state" }, icon("untrusted"), h("span", {}, words("series.untrusted"))),
          each.target ? h("p", { class: "facts" }, words("series.target", each.target)) : null,
          each.drawn ? drawn(each.drawn, words("series.drawn", each.count, each.since)) : null,
        ),
      ),
    ),
  );
}

/**
 * The drawing that the server worked out.
 *
 * @param {any} series
 * @param {string} label
 */
function drawn({ band, line, points }, label) {
  const svg = shape("svg", { class: "series", viewBox: "0 0 132 40", role: "img", "aria-label": label });
  if (band) {
    svg.append(shape("path", { class: "sr-band", d: band }));
  }
  svg.append(shape("path", { class: "sr-line", d: line }));
  points.forEach((/** @type {any} */ { x, y, doubtful }) => svg.append(shape("circle", { class: doubtful ? "sr-doubt" : "sr-point", cx: x, cy: y, r: "3" })));
  return svg;
}
