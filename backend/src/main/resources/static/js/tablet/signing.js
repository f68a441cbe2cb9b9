// @ts-check
/** Who signs for the client: drawn with a finger, or that nobody was there. */
import { SavedField, entry, h, icon } from "./fields.js";
import { uuid7 } from "./ids.js";
import * as kept from "./kept.js";
import { drawing, draws } from "./photos.js";

const WIDTH = 1000;
const HEIGHT = 400;

/** @param {any} page */
export function signing(page) {
  const { words } = page;
  const field = new SavedField(page, "signature", words("signed"), { changed: () => signedNow() });
  const name = entry(words("signed"), { value: field.shown?.name ?? "", onchange: () => void save() });
  const canvas = h("canvas", { class: "signature", role: "img", "aria-label": words("signed.area"), width: WIDTH, height: HEIGHT });
  const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
  let drawn = false;
  /** Somebody signs in the place of what was drawn before. */
  let renewed = false;
  // Dark on white in every light, as on paper.
  const clear = () => {
    pen.fillStyle = "#ffffff";
    pen.fillRect(0, 0, WIDTH, HEIGHT);
    pen.strokeStyle = "#14213b";
    pen.lineWidth = 6;
    drawn = false;
  };
  clear();
  draws(canvas, pen, () => {
    drawn = true;
    void save();
  });
  const anew = () => {
    clear();
    renewed = true;
    shown.hidden = true;
    canvas.hidden = false;
  };
  const again = h("button", { class: "button", type: "button", onclick: anew }, words("signed.again"));
  const nobody = h("button", { class: "button", type: "button", onclick: () => void field.save("visit.signature", { state: "NOBODY_THERE" }) }, words("signed.nobody"));
  const shown = h("img", { class: "signature", alt: words("signed"), hidden: true });
  const changed = h("p", { class: "state state-strong", role: "status" }, icon("needed"), h("span", {}, words("signed.changed")));
  let outdated = page.visit.signatureOutdated ?? false;
  page.unsigned = () => {
    outdated = field.body !== null && field.body.state !== "NOBODY_THERE";
    describe();
  };
  void picture();
  describe();
  return h("div", {}, changed, name.element, h("p", { class: "hint" }, words("signed.how")), canvas, shown, h("div", { class: "actions" }, again, nobody), field.element);

  function describe() {
    const absent = field.body?.state === "NOBODY_THERE";
    nobody.setAttribute("aria-pressed", String(absent));
    changed.hidden = !outdated || absent;
    if (absent) {
      name.input.value = "";
    }
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
      const here = await kept.photo(id);
      shown.src = here && !here.arrived ? URL.createObjectURL(new Blob([here.content], { type: here.type })) : `/api/photos/${id}`;
      shown.hidden = false;
      canvas.hidden = true;
    }
  }
}
