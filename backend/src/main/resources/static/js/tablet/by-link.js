// @ts-check
/** The client signs later, on a device of their own: what is drawn goes with the form. */
import { signed } from "./drawing.js";

const form = /** @type {HTMLFormElement | null} */ (document.querySelector("form.form"));
const part = document.getElementById("drawn");
const canvas = /** @type {HTMLCanvasElement | null} */ (document.getElementById("canvas"));
const drawing = /** @type {HTMLInputElement | null} */ (document.getElementById("drawing"));

if (form && part && canvas && drawing) {
  const { pen, clear } = signed(canvas, () => {
    drawing.value = canvas.toDataURL("image/png");
  });
  if (drawing.value !== "") {
    // The form came back: what was drawn is still there.
    const before = new Image();
    before.onload = () => pen.drawImage(before, 0, 0);
    before.src = drawing.value;
  }
  document.getElementById("again")?.addEventListener("click", () => {
    clear();
    drawing.value = "";
  });
  part.hidden = false;
}
