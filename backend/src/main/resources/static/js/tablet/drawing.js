// @ts-check
/** Drawing with a finger. Knows nothing of visits, so that a page without an account can use it too. */

const WIDTH = 1000;
const HEIGHT = 400;

/**
 * Makes a canvas one to sign on.
 *
 * @param {HTMLCanvasElement} canvas
 * @param {() => void} drawn told after each stroke
 * @returns {{pen: CanvasRenderingContext2D, clear: () => void}}
 */
export function signed(canvas, drawn) {
  canvas.width = WIDTH;
  canvas.height = HEIGHT;
  const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
  // Dark on white in every light, as on paper.
  const clear = () => {
    pen.fillStyle = "#ffffff";
    pen.fillRect(0, 0, WIDTH, HEIGHT);
    pen.strokeStyle = "#14213b";
    pen.lineWidth = 6;
  };
  clear();
  draws(canvas, pen, drawn);
  return { pen, clear };
}

/**
 * Lets a finger, a pen or a mouse draw.
 *
 * @param {HTMLCanvasElement} canvas
 * @param {CanvasRenderingContext2D} pen
 * @param {() => void} [drawn] told after each stroke
 */
export function draws(canvas, pen, drawn = () => {}) {
  pen.lineCap = "round";
  pen.lineJoin = "round";
  let down = false;
  const at = (/** @type {PointerEvent} */ event) => {
    const shown = canvas.getBoundingClientRect();
    return { x: ((event.clientX - shown.left) * canvas.width) / shown.width, y: ((event.clientY - shown.top) * canvas.height) / shown.height };
  };
  canvas.addEventListener("pointerdown", (event) => {
    event.preventDefault();
    canvas.setPointerCapture(event.pointerId);
    down = true;
    const { x, y } = at(event);
    pen.beginPath();
    pen.moveTo(x, y);
    pen.lineTo(x + 0.1, y);
    pen.stroke();
  });
  canvas.addEventListener("pointermove", (event) => {
    if (down) {
      const { x, y } = at(event);
      pen.lineTo(x, y);
      pen.stroke();
    }
  });
  const up = () => {
    if (down) {
      down = false;
      drawn();
    }
  };
  canvas.addEventListener("pointerup", up);
  canvas.addEventListener("pointercancel", up);
}
