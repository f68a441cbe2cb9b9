// @ts-check
/** Signing out takes the day along that this device kept, with how to get in everywhere; what is not sent is told first. */
import { forgetDays, waiting } from "./kept.js";

const form = /** @type {HTMLFormElement | null} */ (document.querySelector("form[data-sign-out]"));

form?.addEventListener("submit", (leaving) => {
  leaving.preventDefault();
  void (async () => {
    const unsent = await waiting().catch(() => []);
    if (unsent.length > 0) {
      location.assign("/day#device");
      return;
    }
    await forgetDays().catch(() => {});
    form.submit();
  })();
});
