/**
 * Sends a tick the moment a box is ticked. Without this module the same form is sent by its button.
 *
 * An entry that was kept or refused is final. One that could not be sent puts the box back and says so, since a box
 * that only looks ticked would leave somebody without water.
 */

const sheet = /** @type {HTMLElement} */ (document.querySelector("[data-load-sheet]"));
const device = "load-sheet-" + crypto.randomUUID();
let sequence = 0;

/** An id that sorts by time: UUID version 7 of RFC 9562. */
function nextId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  let millis = Date.now();
  for (let i = 5; i >= 0; i--) {
    bytes[i] = millis % 256;
    millis = Math.floor(millis / 256);
  }
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** The device's time with its offset, as RFC 3339 writes it. */
function deviceTime() {
  const now = new Date();
  const ahead = -now.getTimezoneOffset();
  const two = (/** @type {number} */ number) => String(Math.trunc(number)).padStart(2, "0");
  const local = new Date(now.getTime() + ahead * 60_000).toISOString().slice(0, 19);
  return local + (ahead < 0 ? "-" : "+") + two(Math.abs(ahead) / 60) + ":" + two(Math.abs(ahead) % 60);
}

/**
 * @param {HTMLFormElement} form
 * @param {boolean} ticked
 */
async function send(form, ticked) {
  const field = (/** @type {string} */ name) => String(new FormData(form).get(name) ?? "");
  const entry = {
    id: nextId(),
    kind: "load.tick",
    subject: sheet.dataset.round,
    device,
    sequence: sequence++,
    deviceTime: deviceTime(),
    body: { line: field("line"), amount: field("amount"), ticked, version: Number(field("version")) },
  };
  const answer = await fetch("/api/entries", {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-CSRF-TOKEN": field("_csrf") },
    body: JSON.stringify({ entries: [entry] }),
  });
  return answer.ok ? (await answer.json()).results[0] : undefined;
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
    row.className = rows[i].className;
    copyText("[data-load-who]", rows[i], row);
    const box = /** @type {HTMLInputElement} */ (row.querySelector("input[type=checkbox]"));
    box.checked = /** @type {HTMLInputElement} */ (rows[i].querySelector("input[type=checkbox]")).checked;
  });
  copyText("[data-load-done]", fresh, sheet);
  copyText("[data-load-open]", fresh, sheet);
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

/** @param {HTMLInputElement} box */
async function tick(box) {
  const form = /** @type {HTMLFormElement} */ (box.form);
  const row = /** @type {HTMLElement} */ (box.closest("[data-load-line]"));
  const who = /** @type {HTMLElement} */ (row.querySelector("[data-load-who]"));
  const ticked = box.checked;
  box.disabled = true;
  try {
    const result = await send(form, ticked);
    box.disabled = false;
    if (result === undefined) {
      form.requestSubmit();
      return;
    }
    if (result.status === "applied") {
      await refresh();
      return;
    }
    who.textContent = sheet.dataset.changed ?? "";
  } catch {
    who.textContent = sheet.dataset.failed ?? "";
  }
  box.checked = !ticked;
  box.disabled = false;
}

for (const box of sheet.querySelectorAll("[data-load-line] input[type=checkbox]")) {
  box.addEventListener("change", () => tick(/** @type {HTMLInputElement} */ (box)));
}

const print = /** @type {HTMLElement | null} */ (document.querySelector("[data-print]"));
if (print) {
  print.hidden = false;
  print.addEventListener("click", () => window.print());
}
