// @ts-check
import { enqueue, send } from "./store.js";
import { loadWords } from "./bundle.js";

const main = /** @type {HTMLElement} */ (document.getElementById("content"));
const button = /** @type {HTMLButtonElement} */ (document.getElementById("start"));
const problem = /** @type {HTMLElement} */ (document.getElementById("start-problem"));
const stop = /** @type {string} */ (main.dataset.stop);
const words = await loadWords();
let queued = false;

button.addEventListener("click", async () => {
  button.disabled = true;
  problem.textContent = "";
  if (queued) {
    void send();
    return;
  }
  queued = true;
  // The visit bears the id of its stop, so that two who start it at once mean the same.
  const result = await enqueue("visit.start", stop, { stop }, null, (trouble) => {
    if (trouble !== "saving") {
      problem.textContent = words(trouble);
      button.disabled = false;
    }
  });
  queued = false;
  if (result.status === "applied") {
    location.assign(`/visits/${result.args.visit}`);
  } else {
    problem.textContent = result.args.words ?? result.code;
    button.disabled = false;
  }
});

// Until here a press would have been lost.
button.disabled = false;
