// @ts-check
/** Sends a tick the moment a box is ticked. Without this module the same form is sent by its button. */

import { ticksShort } from "../tablet/shortage.js";
import { enqueue } from "../tablet/store.js";

const sheet = /** @type {HTMLElement} */ (document.querySelector("[data-load-sheet]"));

/** The lines of a row as they were shown. @param {HTMLFormElement} form @returns {import("../tablet/shortage.js").Line[]} */
function partsOf(form) {
  return [.../** @type {NodeListOf<HTMLInputElement>} */ (form.querySelectorAll("input[name=line]"))].map(({ value, dataset }) => ({
    line: value,
    amount: dataset.amount ?? "",
    ticked: dataset.in === "true",
    missing: dataset.missing === "true",
  }));
}

/**
 * Sends ticks of lines of a row, one for each line.
 *
 * @param {import("../tablet/shortage.js").Tick[]} ticks
 * @param {(step: import("../tablet/store.js").Progress) => void} progress
 * @returns {Promise<boolean>} whether all of them were taken
 */
async function say(ticks, progress) {
  const version = Number(sheet.dataset.version);
  const results = await Promise.all(ticks.map((tick) => enqueue("load.tick", sheet.dataset.round ?? "", { ...tick, version }, null, progress)));
  return results.every((result) => result.status === "applied");
}

/** @param {HTMLInputElement} box */
async function tick(box) {
  const form = /** @type {HTMLFormElement} */ (box.form);
  const row = /** @type {Element} */ (box.closest("[data-load-line]"));
  const who = whoOf(box.closest("[data-load-part]") ?? row);
  const ticked = box.checked;
  const ticks = partsOf(form)
    .filter((part) => part.ticked !== ticked)
    .map(({ line, amount }) => ({ line, amount, ticked }));
  // One answer at a time for a line, so that what the box shows is what was answered last.
  const boxes = boxesOf(row);
  boxes.forEach((each) => (each.disabled = true));
  const applied = await say(ticks, (step) => {
    who.textContent = (step === "saving" || step === "kept" ? "" : step === "full" ? sheet.dataset.full : sheet.dataset.waits) ?? "";
    if (step === "full") {
      box.checked = !ticked;
      boxes.forEach((each) => (each.disabled = false));
    }
  });
  boxes.forEach((each) => (each.disabled = false));
  if (applied) {
    await refresh();
  } else {
    box.checked = !ticked;
    who.textContent = sheet.dataset.changed ?? "";
  }
}

/**
 * Ticks a row with what is there, also without a signal; what cannot be read is left to the server, which says so.
 *
 * @param {HTMLFormElement} form
 * @param {SubmitEvent} event
 */
async function shortage(form, event) {
  const field = (/** @type {string} */ name) => String(new FormData(form).get(name) ?? "").trim();
  const row = /** @type {Element} */ (form.closest("[data-load-line]"));
  const parts = partsOf(/** @type {HTMLFormElement} */ (boxOf(row).form));
  const ticks = navigator.onLine ? null : ticksShort(parts, field("missing"), Number(field("factor")), field("instead"));
  if (ticks === null) {
    return;
  }
  event.preventDefault();
  const who = whoOf(row);
  const applied = await say(
    ticks,
    (step) => {
      who.textContent = (step === "full" ? sheet.dataset.full : sheet.dataset.waits) ?? "";
    },
  );
  if (applied) {
    location.reload();
  } else {
    who.textContent = sheet.dataset.changed ?? "";
  }
}

/** Shows the sheet as the server has it now, with the ticks of others too, without moving the page. */
async function refresh() {
  const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
  const fresh = page.querySelector("[data-load-sheet]");
  const rows = fresh ? fresh.querySelectorAll("[data-load-line]") : [];
  const shown = sheet.querySelectorAll("[data-load-line]");
  if (!(fresh instanceof HTMLElement) || fresh.dataset.version !== sheet.dataset.version || rows.length !== shown.length || [...rows].some((row, i) => linesOf(row) !== linesOf(shown[i]))) {
    location.reload();
    return;
  }
  shown.forEach((row, i) => {
    // What is still on its way keeps what its person has just said.
    if (boxesOf(row).some((box) => box.disabled)) {
      return;
    }
    row.className = rows[i].className;
    copyText("[data-load-partly]", rows[i], row);
    copyAll("[data-load-missing]", rows[i], row, (from, to) => to.replaceChildren(...from.childNodes));
    copyAll("[data-load-who]", rows[i], row, (from, to) => (to.textContent = from.textContent));
    copyAll("input[type=checkbox]", rows[i], row, (from, to) => (/** @type {HTMLInputElement} */ (to).checked = /** @type {HTMLInputElement} */ (from).checked));
    copyAll("[data-load-tick] input[name=line]", rows[i], row, (from, to) => Object.assign(/** @type {HTMLElement} */ (to).dataset, /** @type {HTMLElement} */ (from).dataset));
    showPart(row);
  });
  copyText("[data-load-done]", fresh, sheet);
  copyText("[data-load-open]", fresh, sheet);
}

/** A row of which some is in the van is neither ticked nor open. @param {Element} row */
function showPart(row) {
  const box = boxOf(row);
  box.indeterminate = !box.checked && partsOf(/** @type {HTMLFormElement} */ (box.form)).some((part) => part.ticked);
}

/** @param {Element} row */
function linesOf(row) {
  return partsOf(/** @type {HTMLFormElement} */ (boxOf(row).form))
    .map((part) => `${part.line} ${part.amount}`)
    .join("\n");
}

/** The box of a row or of one of its parts. @param {Element} row */
function boxOf(row) {
  return boxesOf(row)[0];
}

/** @param {Element} row */
function boxesOf(row) {
  return [.../** @type {NodeListOf<HTMLInputElement>} */ (row.querySelectorAll("input[type=checkbox]"))];
}

/** @param {Element} row */
function whoOf(row) {
  return /** @type {HTMLElement} */ (row.querySelector("[data-load-who]"));
}

/**
 * @param {string} selector
 * @param {Element} from
 * @param {Element} to
 * @param {(from: Element, to: Element) => void} each
 */
function copyAll(selector, from, to, each) {
  const sources = from.querySelectorAll(selector);
  to.querySelectorAll(selector).forEach((target, i) => sources[i] && each(sources[i], target));
}

/**
 * @param {string} selector
 * @param {Element} from
 * @param {Element} to
 */
function copyText(selector, from, to) {
  copyAll(selector, from, to, (source, target) => (target.textContent = source.textContent));
}

for (const row of sheet.querySelectorAll("[data-load-line]")) {
  showPart(row);
  boxesOf(row).forEach((box) => box.addEventListener("change", () => tick(box)));
  const short = /** @type {HTMLFormElement} */ (row.querySelector("[data-load-short]"));
  short.addEventListener("submit", (event) => shortage(short, event));
}

const print = /** @type {HTMLElement | null} */ (document.querySelector("[data-print]"));
if (print) {
  print.hidden = false;
  print.addEventListener("click", () => window.print());
}
