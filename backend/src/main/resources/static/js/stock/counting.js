// @ts-check
/** Leads from a barcode to its line of the count: typed, or read by the camera where the browser can. */

const panel = /** @type {HTMLElement} */ (document.querySelector("[data-scanning]"));
const typed = /** @type {HTMLInputElement} */ (document.getElementById("scanned"));
const said = /** @type {HTMLElement} */ (panel.querySelector("[data-said]"));
const view = /** @type {HTMLVideoElement} */ (panel.querySelector("[data-view]"));
const button = /** @type {HTMLButtonElement} */ (panel.querySelector("[data-camera]"));

const PAUSE_MS = 200;

/**
 * @param {string} code
 * @returns {boolean} whether a line has it
 */
function lead(code) {
  const row = [...document.querySelectorAll("tr[data-barcode]")].find(
    (each) => each instanceof HTMLElement && each.dataset.barcode !== "" && same(each.dataset.barcode ?? "", code),
  );
  const input = row?.querySelector("input[inputmode=decimal]");
  if (!(input instanceof HTMLInputElement)) {
    said.textContent = (panel.dataset.unknown ?? "").replace("{0}", code);
    return false;
  }
  said.textContent = row?.querySelector("th")?.textContent?.trim().split("\n")[0] ?? "";
  input.scrollIntoView({ block: "center" });
  input.focus();
  return true;
}

/**
 * A GTIN-12 is a GTIN-13 with a zero in front of it, and some readers say the one for the other.
 *
 * @param {string} one
 * @param {string} other
 */
function same(one, other) {
  const plain = (/** @type {string} */ code) => code.trim().replace(/^0+(?=\d{8,})/, "");
  return plain(one) === plain(other);
}

/** @type {MediaStream | null} */
let stream = null;

function stop() {
  stream?.getTracks().forEach((track) => track.stop());
  stream = null;
  view.srcObject = null;
  view.hidden = true;
  button.setAttribute("aria-pressed", "false");
}

/** @param {{ detect(source: HTMLVideoElement): Promise<{ rawValue: string }[]> }} detector */
async function read(detector) {
  try {
    stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
  } catch {
    said.textContent = panel.dataset.noCamera ?? "";
    return;
  }
  view.srcObject = stream;
  view.hidden = false;
  button.setAttribute("aria-pressed", "true");
  await view.play();
  while (stream) {
    const found = await detector.detect(view).catch(() => []);
    if (found.length > 0 && lead(found[0].rawValue)) {
      stop();
      return;
    }
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
}

typed.addEventListener("change", () => {
  if (typed.value.trim() !== "" && lead(typed.value)) {
    typed.value = "";
  }
});

if ("BarcodeDetector" in window && navigator.mediaDevices) {
  const detector = new /** @type {any} */ (window).BarcodeDetector();
  button.hidden = false;
  button.addEventListener("click", () => (stream ? stop() : read(detector)));
  addEventListener("pagehide", stop);
}
panel.hidden = false;
