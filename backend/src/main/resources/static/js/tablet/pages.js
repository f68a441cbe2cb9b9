// @ts-check
/** Lets the browser keep the pages for when there is no signal, and takes newer ones over when the person says so. */

/**
 * @param {(takeOver: () => void) => void} [newer] told when newer pages wait; the given function takes them
 */
export async function keepPages(newer = () => {}) {
  if (!("serviceWorker" in navigator)) {
    return;
  }
  const before = navigator.serviceWorker.controller;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    // The first worker takes over a page that is as new as itself.
    if (before !== null) {
      location.reload();
    }
  });
  const registration = await navigator.serviceWorker.register("/sw.js").catch(() => undefined);
  // A browser that may keep no pages says so in one way or the other.
  if (registration === undefined) {
    return;
  }
  const tell = () => {
    const waiting = registration.waiting;
    if (waiting !== null && before !== null) {
      newer(() => waiting.postMessage("take-over"));
    }
  };
  tell();
  registration.addEventListener("updatefound", () => {
    registration.installing?.addEventListener("statechange", tell);
  });
}

/** Whether the browser has promised to keep what is entered. @returns {Promise<boolean>} */
export async function promised() {
  if (!navigator.storage?.persist) {
    return false;
  }
  return (await navigator.storage.persisted()) || navigator.storage.persist();
}
