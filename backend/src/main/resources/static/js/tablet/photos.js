// @ts-check
/** Photos of a visit: upright and without the place where they were taken, from the moment that the device keeps them. */
import { entered } from "./drafts.js";
import { draws } from "./drawing.js";
import { SavedField, entry, h, icon, newId } from "./fields.js";
import { uuid7 } from "./ids.js";
import * as kept from "./kept.js";
import { before, sameSpot, shown, toLookAt } from "./lasttime.js";

/** Longer edge that is kept, in pixels, as at the server. */
const EDGE = 2048;
const QUALITY = 0.85;

/**
 * @param {any} page
 * @param {any[]} systems
 * @param {any} site
 */
export function photos(page, systems, site) {
  const { words } = page;
  const earlier = before(site, systems);
  const spots = h(
    "datalist",
    { id: newId() },
    earlier.filter(({ caption }) => caption).map(({ caption }) => h("option", { value: caption })),
  );
  const list = h("ul", { class: "photos" });
  const problem = h("div", { role: "alert" });
  entered(page, "photo/").forEach((key) => list.append(one(key.slice("photo/".length), null, "")));
  const camera = h("input", { type: "file", accept: "image/jpeg,image/png", capture: "environment", class: "visually-hidden", onchange: () => void chosen() });
  const take = h("li", {}, h("label", { class: "photo-take" }, camera, words("photo-take")));
  list.append(take);
  return h("div", {}, list, problem, spots, earlier.length > 0 ? h("ul", { class: "plain", "data-last-time": "" }, toLookAt(words, earlier)) : null);

  async function chosen() {
    const file = camera.files?.[0];
    camera.value = "";
    problem.replaceChildren();
    if (!file) {
      return;
    }
    const id = uuid7();
    // Nobody is told that all is saved while the picture is being made.
    page.unsaved.set(`photo/${id}`, words("photos"));
    page.told();
    try {
      take.before(one(id, await upright(file), ""));
    } catch {
      page.unsaved.delete(`photo/${id}`);
      page.told();
      problem.append(h("p", { class: "field-error" }, icon("needed"), h("span", {}, words("photo-none", file.name))));
      page.say(words("photo-none", file.name));
    }
  }

  /**
   * @param {string} id
   * @param {Blob | null} picture a new one
   * @param {string} marks the photo that it is a marked copy of
   */
  function one(id, picture, marks) {
    const field = new SavedField(page, `photo/${id}`, words("photos"));
    const original = marks || field.shown?.marks || "";
    const image = h("img", { alt: field.shown?.caption ?? words(original ? "photo-marked" : "photos") });
    const caption = entry(words("photo-caption"), {
      value: field.shown?.caption ?? (original ? words("photo-marked") : ""),
      list: spots.id,
      onchange: () => {
        void save();
        compare();
      },
    });
    const beside = h("div");
    const system = systems.length === 1 ? { system: systems[0].id } : {};
    const save = (/** @type {import("./kept.js").Photo | undefined} */ photo = undefined) =>
      field.save("visit.photo", { photo: id, caption: caption.input.value.trim(), ...system, ...(original ? { marks: original } : {}) }, { photo });
    const mark = h("button", { class: "button", type: "button", onclick: () => marking() }, words("photo-mark"));
    const element = h("li", {}, h("div", { class: "photo-pair" }, h("figure", {}, image, h("figcaption", {}, caption.element)), beside), original ? null : h("div", { class: "actions" }, mark), field.element);
    compare();
    void (picture ? taken(picture) : stored());
    return element;

    /** A marked copy says itself what it is about. */
    function compare() {
      const last = original ? undefined : sameSpot(earlier, caption.input.value);
      if (last) {
        beside.replaceChildren(shown(words, last));
      }
    }

    /** Not every browser can keep a file as such. @param {Blob} made */
    async function taken(made) {
      field.mark(true);
      image.src = URL.createObjectURL(made);
      await save({ id, content: await made.arrayBuffer(), type: made.type, at: Date.now(), arrived: false });
    }

    async function stored() {
      image.src = await address(id);
    }

    /** A finger draws on a copy; the photo stays as it was taken. */
    function marking() {
      const canvas = h("canvas", { class: "marking", role: "img", "aria-label": words("photo-mark.how") });
      canvas.width = image.naturalWidth;
      canvas.height = image.naturalHeight;
      const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d"));
      pen.drawImage(image, 0, 0);
      pen.lineWidth = Math.max(4, canvas.width / 120);
      pen.strokeStyle = getComputedStyle(document.documentElement).getPropertyValue("--signal");
      draws(canvas, pen);
      const keep = async () => {
        element.after(one(uuid7(), await blob(canvas), id));
        close();
      };
      const close = () => {
        part.remove();
        mark.disabled = false;
      };
      const part = h(
        "div",
        {},
        h("p", { class: "hint" }, words("photo-mark.how")),
        canvas,
        h(
          "div",
          { class: "actions" },
          h("button", { class: "button button-strong", type: "button", onclick: () => void keep() }, words("photo-mark.keep")),
          h("button", { class: "button", type: "button", onclick: close }, words("photo-mark.leave")),
        ),
      );
      mark.disabled = true;
      element.append(part);
    }
  }
}

/**
 * The picture drawn anew: turned as it was held, and without anything else that a camera writes into a file.
 *
 * @param {Blob} file
 * @returns {Promise<Blob>}
 * @throws if it is no picture
 */
async function upright(file) {
  const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, EDGE / Math.max(picture.width, picture.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(picture.width * scale));
  canvas.height = Math.max(1, Math.round(picture.height * scale));
  /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")).drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  return blob(canvas);
}

/** @param {HTMLCanvasElement} canvas @returns {Promise<Blob>} */
function blob(canvas, type = "image/jpeg") {
  return new Promise((resolve, reject) => canvas.toBlob((made) => (made === null ? reject(new Error("no picture")) : resolve(made)), type, QUALITY));
}

/**
 * Where a picture of this visit is to be had: here as long as the device keeps it, so that it is seen without a signal too.
 *
 * @param {string} id
 */
export async function address(id) {
  const here = await kept.photo(id);
  return here ? URL.createObjectURL(new Blob([here.content], { type: here.type })) : `/api/photos/${id}`;
}

/** A drawing that is not a photograph. @param {HTMLCanvasElement} canvas */
export function drawing(canvas) {
  return blob(canvas, "image/png");
}
