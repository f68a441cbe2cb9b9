// @ts-check
/** Who signs for the client. */
import { SavedField, entry, h } from "./fields.js";

/** @param {any} page */
export function signing(page) {
  const { words } = page;
  const field = new SavedField(page, "signature", words("signed"), { changed: () => describe() });
  const name = entry(words("signed"), { value: field.shown?.name ?? "", onchange: () => signed() });
  const nobody = h("button", { class: "button", type: "button", onclick: () => void field.save("visit.signature", { state: "NOBODY_THERE" }) }, words("signed.nobody"));
  describe();
  return h("div", {}, name.element, h("div", { class: "actions" }, nobody), field.element);

  function describe() {
    const absent = field.body?.state === "NOBODY_THERE";
    nobody.setAttribute("aria-pressed", String(absent));
    if (absent) {
      name.input.value = "";
    }
  }

  function signed() {
    if (name.input.value.trim()) {
      void field.save("visit.signature", { state: "SIGNED", name: name.input.value.trim() });
    } else {
      field.emptied(name.input, "name");
    }
  }
}
