// @ts-check
/** Work that is not sent, saved as a file by whoever does not trust the device with it, or has no room on it. */
import { h } from "./fields.js";
import { unsent, who } from "./store.js";

/**
 * @param {(key: string, ...args: any[]) => string} words
 * @returns {{button: HTMLElement, outcome: HTMLElement}} what saves it, and where it is said what is in the file
 */
export function saving(words) {
  const outcome = h("p", { role: "status" });
  const save = async () => {
    const file = await unsent(await who());
    const link = h("a", { href: URL.createObjectURL(new Blob([JSON.stringify(file)], { type: "application/json" })), download: `tankround-${new Date().toISOString().slice(0, 16).replace(":", "")}.json` });
    link.click();
    outcome.textContent = words("device.file.saved", file.items.length, file.photos.length);
  };
  return { button: h("button", { class: "button", type: "button", onclick: () => void save() }, words("device.file.save")), outcome };
}

/** What the device has no room for stands on the page only. @param {(key: string, ...args: any[]) => string} words */
export function noRoom(words) {
  const { button, outcome } = saving(words);
  return [h("p", {}, words("full.file")), h("div", { class: "actions" }, button), outcome];
}
