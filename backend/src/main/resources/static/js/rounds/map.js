// @ts-check
/** The round as a map to move and to look closer at, in the place of the drawing, which stays where this module cannot run. */

import "/js/lib/leaflet/leaflet.js";

/** Leaflet gives itself to the window; it brings no types. @type {any} */
const L = /** @type {any} */ (globalThis).L;

/** @typedef {{ type: "Feature", geometry: { type: string, coordinates: any }, properties: Record<string, any> }} Feature */

/** @param {Feature} feature a point, longitude first (RFC 7946) */
const place = (feature) => [feature.geometry.coordinates[1], feature.geometry.coordinates[0]];

/** @param {string} href @returns {Promise<void>} */
const styled = (href) =>
  new Promise((resolve, reject) => {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = href;
    link.addEventListener("load", () => resolve());
    link.addEventListener("error", () => reject(new Error(href)));
    document.head.append(link);
  });

/** @param {HTMLElement} box */
async function draw(box) {
  const answer = await fetch(box.dataset.round ?? "");
  if (!answer.ok) {
    return;
  }
  /** @type {Feature[]} */
  const features = (await answer.json()).features;
  await styled("/js/lib/leaflet/leaflet.css");
  const points = features.filter((feature) => feature.geometry.type === "Point");
  const drawing = document.querySelector("[data-round-drawing]");
  box.hidden = false;
  const map = L.map(box, { attributionControl: false, zoomAnimation: !matchMedia("(prefers-reduced-motion: reduce)").matches });
  if (box.dataset.tiles) {
    L.control.attribution({ prefix: false }).addTo(map);
    const attribution = document.createElement("span");
    attribution.textContent = box.dataset.attribution ?? "";
    L.tileLayer(box.dataset.tiles, {
      attribution: attribution.innerHTML,
      maxNativeZoom: Number(box.dataset.mostZoom),
      maxZoom: 22,
      // Servers of pictures ask from where they are used; of the page itself they learn nothing.
      referrerPolicy: "strict-origin",
    }).addTo(map);
  }
  L.control.scale({ imperial: box.dataset.imperial === "true", metric: box.dataset.imperial !== "true" }).addTo(map);
  L.polyline([...points, points[0]].map(place), { className: "rm-way", interactive: false }).addTo(map);
  for (const point of points) {
    const { order, name, starts, depot } = point.properties;
    const sign = document.createElement("span");
    sign.textContent = depot ? "" : String(order);
    const words = document.createElement("span");
    words.textContent = depot ? name : `${order} ${name}, ${String(starts).slice(0, 5)}`;
    L.marker(place(point), {
      icon: L.divIcon({ className: depot ? "map-depot" : "map-stop", html: sign, iconSize: [44, 44] }),
      alt: words.textContent,
      title: words.textContent,
    })
      .bindTooltip(words)
      .addTo(map);
  }
  map.fitBounds(L.latLngBounds(points.map(place)), { padding: [32, 32], maxZoom: 15 });
  drawing?.setAttribute("hidden", "");
}

for (const box of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-round-map]"))) {
  draw(box);
}
