// @ts-check
/** Drags a site over the board, with the price of every place before it is dropped. Each site's own page does the same. */

/** @typedef {{ day: string, van: string, trip: number, fits: boolean, text: string }} Price */

const board = /** @type {HTMLElement | null} */ (document.querySelector("[data-board]"));
const status = /** @type {HTMLElement | null} */ (document.querySelector("[data-board-status]"));
const form = /** @type {HTMLFormElement | null} */ (document.querySelector("[data-board-move]"));

/** @type {HTMLElement | null} */
let dragged = null;
/** @type {Map<string, Price>} */
let prices = new Map();

/** @param {string | undefined} day @param {string | undefined} van @param {string | undefined} trip */
const key = (day, van, trip) => `${day} ${van} ${trip}`;

/** @returns {NodeListOf<HTMLElement>} */
const places = () => /** @type {HTMLElement} */ (board).querySelectorAll("[data-day][data-van]");

/** @param {HTMLElement} site */
async function begin(site) {
  dragged = site;
  const query = new URLSearchParams({ visit: site.dataset.visit ?? "" });
  const answer = await fetch(`${board?.dataset.prices}?${query}`);
  const list = /** @type {Price[]} */ (answer.ok ? await answer.json() : []);
  if (dragged !== site) {
    return;
  }
  prices = new Map(list.map((price) => [key(price.day, price.van, String(price.trip)), price]));
  for (const place of places()) {
    const shown = /** @type {HTMLElement | null} */ (place.querySelector("[data-price]"));
    const price = prices.get(key(place.dataset.day, place.dataset.van, place.dataset.trip));
    if (shown && price) {
      shown.textContent = price.text;
      shown.hidden = false;
    }
  }
}

function end() {
  dragged = null;
  prices = new Map();
  for (const shown of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-price]"))) {
    shown.hidden = true;
  }
}

/** @param {EventTarget | null} target */
const placeOf = (target) =>
  target instanceof Element ? /** @type {HTMLElement | null} */ (target.closest("[data-day][data-van]")) : null;

if (board && form) {
  document.addEventListener("dragstart", (event) => {
    const site = event.target instanceof Element ? event.target.closest("[data-visit][draggable]") : null;
    if (site instanceof HTMLElement && site.dataset.visit) {
      event.dataTransfer?.setData("text/plain", site.dataset.visit);
      begin(site);
    }
  });
  board.addEventListener("dragover", (event) => {
    const place = placeOf(event.target);
    const price = place && prices.get(key(place.dataset.day, place.dataset.van, place.dataset.trip));
    if (price && status) {
      status.textContent = price.text;
    }
    if (price?.fits) {
      event.preventDefault();
    }
  });
  board.addEventListener("drop", (event) => {
    const place = placeOf(event.target);
    if (place && dragged) {
      event.preventDefault();
      const values = { visit: dragged.dataset.visit, day: place.dataset.day, van: place.dataset.van, trip: place.dataset.trip };
      for (const [name, value] of Object.entries(values)) {
        const field = form.elements.namedItem(name);
        if (field instanceof HTMLInputElement) {
          field.value = value ?? "";
        }
      }
      form.submit();
    }
  });
  document.addEventListener("dragend", end);
}
