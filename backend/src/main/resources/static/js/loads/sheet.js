// @ts-check
/** Sends a tick the moment a box is ticked. Without this module the same form is sent by its button. */

import { enqueue } from "../tablet/store.js";

const sheet = /** @type {HTMLElement} */ (document.querySelector("[data-load-sheet]"));

/** @param {HTMLInputElement} box */
async function tick(box) {
  const form = /** @type {HTMLFormElement} */ (box.form);
  const who = /** @type {HTMLElement} */ (box.closest("[data-load-line]")?.querySelector("[data-load-who]"));
  const field = (/** @type {string} */ name) => String(new FormData(form).get(name) ?? "");
  const ticked = box.checked;
  const body = { line: field("line"), amount: field("amount"), ticked, version: Number(field("version")) };
  // One answer at a time for a line, so that what the box shows is what was answered last.
  box.disabled = true;
  const result = await enqueue("load.tick", sheet.dataset.round ?? "", body, null, (step) => {
    who.textContent = (step === "saving" || step === "kept" ? "" : step === "full" ? sheet.dataset.full : sheet.dataset.waits) ?? "";
    if (step === "full") {
      box.checked = !ticked;
      box.disabled = false;
    }
  });
  box.disabled = false;
  if (result.status === "applied") {
    await refresh();
    return;
  }
  box.checked = !ticked;
  who.textContent = sheet.dataset.changed ?? "";
}

/**
 * Ticks a line with what is there, also without a signal; what cannot be read is left to the server, which says so.
 *
 * @param {HTMLFormElement} form
 * @param {SubmitEvent} event
 */
async function shortage(form, event) {
  const field = (/** @type {string} */ name) => String(new FormData(form).get(name) ?? "").trim();
  const typed = field("missing").replace(",", ".");
  if (navigator.onLine || !/^\d{1,9}(\.\d{1,3})?$/.test(typed)) {
    return;
  }
  event.preventDefault();
  const who = /** @type {HTMLElement} */ (form.closest("[data-load-line]")?.querySelector("[data-load-who]"));
  const missing = String(Math.round(Number(typed) * Number(field("factor")) * 1e6) / 1e6);
  const body = {
    line: field("line"),
    amount: field("amount"),
    ticked: true,
    missing,
    instead: field("instead"),
    version: Number(field("version")),
  };
  const result = await enqueue("load.tick", sheet.dataset.round ?? "", body, null, (step) => {
    who.textContent = (step === "full" ? sheet.dataset.full : sheet.dataset.waits) ?? "";
  });
  if (result.status === "applied") {
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
  if (!(fresh instanceof HTMLElement) || fresh.dataset.version !== sheet.dataset.version || rows.length !== shown.length) {
    location.reload();
    return;
  }
  shown.forEach((row, i) => {
    const box = boxOf(row);
    // What is still on its way keeps what its person has just said.
    if (!box.disabled) {
      row.className = rows[i].className;
      copyText("[data-load-who]", rows[i], row);
      box.checked = boxOf(rows[i]).checked;
    }
  });
  copyText("[data-load-done]", fresh, sheet);
  copyText("[data-load-open]", fresh, sheet);
}

/** @param {Element} row */
function boxOf(row) {
  return /** @type {HTMLInputElement} */ (row.querySelector("input[type=checkbox]"));
}

/**
 * @param {string} selector
 * @param {Element} from
 * @param {Element} to
 */
function copyText(selector, from, to) {
  const source = from.querySelector(selector);
  const target = to.querySelector(selector);
  if (source && target) {
    target.textContent = source.textContent;
  }
}

for (const row of sheet.querySelectorAll("[data-load-line]")) {
  const box = boxOf(row);
  box.addEventListener("change", () => tick(box));
  const short = /** @type {HTMLFormElement} */ (row.querySelector("[data-load-short]"));
  short.addEventListener("submit", (event) => shortage(short, event));
}

const print = /** @type {HTMLElement | null} */ (document.querySelector("[data-print]"));
if (print) {
  print.hidden = false;
  print.addEventListener("click", () => window.print());
}
