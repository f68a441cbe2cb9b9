// @ts-check
/** Who signs for the client: drawn with a finger, that nobody was there, or that it is to come by link. */
import { signed } from "./drawing.js";
import { SavedField, entry, h, icon } from "./fields.js";
import { uuid7 } from "./ids.js";
import { address, drawing } from "./photos.js";

/** States in which nobody has signed, each with a button. */
const UNSIGNED = [
  { state: "NOBODY_THERE", word: "signed.nobody" },
  { state: "TO_COME", word: "signed.later" },
];

/** @param {any} page */
export function signing(page) {
  const { words } = page;
  const field = new SavedField(page, "signature", words("signed"), { changed: () => signedNow() });
  const name = entry(words("signed"), { value: field.shown?.name ?? "", onchange: () => void save() });
  const canvas = h("canvas", { class: "signature", role: "img", "aria-label": words("signed.area") });
  let drawn = false;
  /** Somebody signs in the place of what was drawn before. */
  let renewed = false;
  const { clear } = signed(canvas, () => {
    drawn = true;
    void save();
  });
  const anew = () => {
    clear();
    drawn = false;
    renewed = true;
    shown.hidden = true;
    canvas.hidden = false;
    how.hidden = false;
  };
  const again = h("button", { class: "button", type: "button", onclick: anew }, words("signed.again"));
  const unsigned = UNSIGNED.map(({ state, word }) => ({
    state,
    button: h("button", { class: "button", type: "button", onclick: () => unsign(state) }, words(word)),
  }));
  const link = page.visit.signedByLink;
  const byLink = h("p", { class: "say", hidden: true }, link ? words("signed.by-link", link.name, link.at) : "");
  const how = h("p", { class: "hint" }, words("signed.how"));
  const shown = h("img", { class: "signature", alt: words("signed"), hidden: true });
  const changed = h("p", { class: "state state-strong", role: "status" }, icon("needed"), h("span", {}, words("signed.changed")));
  let outdated = page.visit.signatureOutdated ?? false;
  page.unsigned = () => {
    outdated = field.body !== null && !isUnsigned();
    describe();
  };
  void picture();
  describe();
  return h(
    "div",
    {},
    byLink,
    changed,
    name.element,
    how,
    canvas,
    shown,
    h("div", { class: "actions" }, again, ...unsigned.map(({ button }) => button)),
    field.element,
  );

  /** @param {string} state */
  function unsign(state) {
    renewed = false;
    void field.save("visit.signature", { state });
  }

  function isUnsigned() {
    return UNSIGNED.some(({ state }) => state === field.body?.state);
  }

  function describe() {
    const state = field.body?.state;
    unsigned.forEach((each) => each.button.setAttribute("aria-pressed", String(each.state === state)));
    byLink.hidden = !field.body?.link;
    changed.hidden = !outdated || isUnsigned();
    if (isUnsigned()) {
      name.input.value = "";
    }
    // Where nobody signs, nothing is to be scrolled past with wet hands.
    how.hidden = isUnsigned() && !renewed;
    canvas.hidden = how.hidden || !shown.hidden;
  }

  function signedNow() {
    outdated = false;
    describe();
  }

  /** The picture is kept with the entry that speaks of it, or not at all. */
  async function save() {
    const who = name.input.value.trim();
    if (who === "") {
      if (drawn) {
        name.input.focus();
      } else {
        field.emptied(name.input, "name");
      }
      return;
    }
    if (!drawn) {
      const before = renewed ? undefined : field.body?.drawing;
      void field.save("visit.signature", { state: "SIGNED", name: who, ...(before ? { drawing: before } : {}) });
      return;
    }
    // Nobody is told that all is saved while the picture is being made.
    field.mark(true);
    const made = await drawing(canvas);
    const id = uuid7();
    void field.save("visit.signature", { state: "SIGNED", name: who, drawing: id }, { photo: { id, content: await made.arrayBuffer(), type: made.type, at: Date.now(), arrived: false } });
  }

  async function picture() {
    const id = field.shown?.drawing;
    if (id) {
      shown.src = await address(id);
      shown.hidden = false;
      canvas.hidden = true;
    }
  }
}
