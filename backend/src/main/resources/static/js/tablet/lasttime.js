// @ts-check
/** Photos of the visits before: taken along small, and held beside what is taken today. */
import { h } from "./fields.js";
import * as kept from "./kept.js";

const LONGEST_MS = 30_000;

/** @typedef {{photo: string, caption: string, on: string}} Before */

/** Fetches what a day names and this device has not; the first that cannot be had ends it, until the day is fetched again. @param {any} bundle */
export async function takeAlong(bundle) {
  const named = [...bundle.systems, ...bundle.sites].flatMap((place) => /** @type {Before[]} */ (place.photosBefore ?? []));
  for (const { photo } of named) {
    if ((await kept.smallPhoto(photo)) === undefined) {
      const response = await fetch(address(photo), { redirect: "error", signal: AbortSignal.timeout(LONGEST_MS) });
      if (!response.ok) {
        return;
      }
      await kept.keepSmallPhoto(photo, await response.arrayBuffer());
    }
  }
}

/** @param {string} photo */
function address(photo) {
  return `/api/photos/${photo}/small`;
}

/**
 * What was photographed at the visits before, the systems first and then what is of no one system.
 *
 * @param {any} site
 * @param {any[]} systems
 * @returns {Before[]}
 */
export function before(site, systems) {
  return [...systems, site].flatMap((place) => place.photosBefore ?? []);
}

/**
 * The one from the same spot, else the newest of the same system.
 *
 * @param {Before[]} known
 * @param {string} caption
 */
export function sameSpot(known, caption) {
  const plain = (/** @type {string} */ text) => text.trim().toLowerCase();
  return known.find((each) => caption.trim() !== "" && plain(each.caption) === plain(caption)) ?? known[0];
}

/** @param {any} words @param {Before} photo */
function title(words, { on, caption }) {
  return caption ? words("photo-before.of", on, caption) : words("photo-before", on);
}

/** The picture with its day. @param {any} words @param {Before} photo */
export function shown(words, photo) {
  const image = h("img", { alt: title(words, photo) });
  const figure = h("figure", { "data-before": photo.photo }, image, h("figcaption", {}, title(words, photo)));
  image.addEventListener("error", () => image.replaceWith(h("p", { class: "fine" }, words("photo-before.absent"))));
  void kept.smallPhoto(photo.photo).then((here) => {
    image.src = here ? URL.createObjectURL(new Blob([here.content], { type: here.type })) : address(photo.photo);
  });
  return figure;
}

/** To be looked at before a photo is taken: from where, and of what. @param {any} words @param {Before[]} known */
export function toLookAt(words, known) {
  return known.map((photo) => {
    const closed = h("details", { class: "reading-more" }, h("summary", {}, words("photo-before.show", title(words, photo))));
    closed.addEventListener("toggle", () => closed.append(shown(words, photo)), { once: true });
    return h("li", {}, closed);
  });
}
