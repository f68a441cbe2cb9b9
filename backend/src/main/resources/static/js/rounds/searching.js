// @ts-check
/** Shows how far a search is, and its plan once there is one. Without this module the page is asked for again by hand. */

const EVERY_MS = 1000;

async function look() {
  const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
  const fresh = page.querySelector("[data-searching]");
  const shown = document.querySelector("[data-searching]");
  if (!fresh || !shown) {
    location.reload();
    return;
  }
  if (shown.innerHTML !== fresh.innerHTML) {
    shown.innerHTML = fresh.innerHTML;
  }
  setTimeout(look, EVERY_MS);
}

setTimeout(look, EVERY_MS);
