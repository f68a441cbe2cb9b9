// @ts-check
/** What is seen of the animals, and what is left with whoever keeps them. */
import { entered, linesOf } from "./drafts.js";
import { numberAsked } from "./asking.js";
import { SavedField, choice, entry, h, oneOf } from "./fields.js";
import { uuid7 } from "./ids.js";
import { stocking } from "./young.js";

/** More of them is a slip of the keyboard, as at the server. */
const MOST_ANIMALS = "100000";
const APPETITES = ["AS_USUAL", "LESS", "NOTHING", "NOT_FED"];

/**
 * How the animals took their food: what is wrong with them shows there first.
 *
 * @param {any} page
 * @param {any} system
 */
export function feeding(page, system) {
  const { words } = page;
  const field = new SavedField(page, `feeding/${system.id}`, words("feeding.name"));
  return h(
    "div",
    {},
    oneOf(
      words("feeding"),
      APPETITES.map((code) => ({ value: code, text: words(`feeding.${code}`) })),
      field.shown?.appetite ?? "",
      (appetite) => void field.save("visit.feeding", { system: system.id, appetite }),
    ),
    field.element,
  );
}

/**
 * @param {any} page
 * @param {any} system
 */
export function livestock(page, system) {
  const { words } = page;
  const list = h("div", {});
  linesOf(page, "livestock/", system).forEach((line) => list.append(one(line)));
  return h(
    "div",
    {},
    list,
    h("p", { class: "fine" }, words("veterinarian")),
    h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7())) }, words("animals-add"))),
  );

  /** @param {string} line */
  function one(line) {
    const field = new SavedField(page, `livestock/${line}`, words("livestock"), {
      asked: (body) => numberAsked(page, body, "count", body.change === "SEEN" ? "0" : "1", MOST_ANIMALS, true),
      parts: () => ({ name, count, note, because: ask.part }),
      resumed: () => save(),
    });
    const body = field.shown ?? {};
    const kinds = system.livestock.length > 0 ? ["SEEN", "MISSING", "LOST", "NEW"] : ["NEW"];
    const change = choice(
      words("change-kind"),
      kinds.map((code) => ({ value: code, text: words(`change.${code}`) })),
      body.change ?? kinds[0],
      () => describe(),
    );
    const which = choice(
      words("which"),
      system.livestock.map((/** @type {any} */ animals) => ({ value: animals.id, text: `${animals.name}, ${animals.count}` })),
      body.livestock ?? system.livestock[0]?.id ?? "",
      () => {},
    );
    const name = entry(words("name"), { value: body.name ?? "" });
    const count = entry(words("count"), { inputmode: "numeric", value: body.count ?? "" });
    const note = entry(words("note"), { value: body.note ?? "" });
    const found = entry(words("found"), { value: body.found ?? "" });
    const remains = oneOf(
      words("remains"),
      ["REMOVED", "FOR_VETERINARIAN", "NOT_REMOVED"].map((code) => ({ value: code, text: words(`remains.${code}`) })),
      body.remains ?? "",
      (value) => {
        left = value;
        describe();
      },
    );
    let left = body.remains ?? "";
    const chilled = h("p", { class: "say" }, words("remains.chilled"));
    const dead = h("div", {}, found.element, remains, chilled);
    const ask = stocking(page, system, field, () => save());
    const describe = () => {
      const fresh = change.select.value === "NEW";
      ask.element.hidden ||= !fresh;
      which.element.hidden = fresh;
      name.element.hidden = !fresh;
      dead.hidden = change.select.value !== "LOST";
      chilled.hidden = left !== "FOR_VETERINARIAN";
    };
    const save = () => {
      const fresh = change.select.value === "NEW";
      const because = fresh ? ask.because() : "";
      const body = {
        system: system.id,
        line,
        change: change.select.value,
        count: count.input.value.trim(),
        ...(fresh ? { name: name.input.value.trim() } : { livestock: which.select.value }),
        ...(note.input.value.trim() ? { note: note.input.value.trim() } : {}),
        ...(because ? { because } : {}),
        ...(change.select.value === "LOST" && found.input.value.trim() ? { found: found.input.value.trim() } : {}),
        ...(change.select.value === "LOST" && left ? { remains: left } : {}),
      };
      if (fresh && ask.asks(Number(body.count))) {
        void field.pend("visit.livestock", body);
        return;
      }
      void field.save("visit.livestock", body);
    };
    describe();
    return h(
      "div",
      { class: "animals" },
      h("div", { class: "columns-3" }, change.element, which.element, name.element, count.element, note.element),
      dead,
      h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: save }, words("save"))),
      ask.element,
      field.element,
    );
  }
}

/**
 * What was left with the client: each kind by one tap, with words where they are wanted.
 *
 * @param {any} page
 */
export function handedOver(page) {
  const { words } = page;
  const list = h("div", {});
  entered(page, "handed-over/").forEach((key) => list.append(one(key.slice("handed-over/".length), "")));
  const add = (/** @type {string} */ what) => h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7(), what)) }, words(`handed-over.${what}`));
  return h("div", {}, list, h("div", { class: "actions" }, ["SOCKS", "FOOD", "INSTRUCTIONS", "OTHER"].map(add)));

  /**
   * @param {string} line
   * @param {string} what "" for what is written down already
   */
  function one(line, what) {
    const field = new SavedField(page, `handed-over/${line}`, words("handed-over"));
    const kind = what || field.shown?.what;
    const text = entry(words(`handed-over.${kind}`), { value: field.shown?.text ?? "", onchange: () => save() });
    const counted = kind === "SOCKS";
    const count = entry(words("handed-over.count"), { inputmode: "numeric", value: field.shown?.count ?? "", onchange: () => save() });
    const size = entry(words("socks-size"), { inputmode: "numeric", value: field.shown?.sizeMm ?? "", onchange: () => save() }, "mm");
    const save = () => {
      const said = text.input.value.trim();
      const many = count.input.value.trim();
      const sizeMm = size.input.value.trim();
      if (counted && (many === "") !== (sizeMm === "")) {
        return;
      }
      void field.save("visit.handed-over", { line, what: kind, ...(said ? { text: said } : {}), ...(counted && many ? { count: many, sizeMm } : {}) });
    };
    if (what !== "") {
      save();
    }
    return h("div", {}, counted ? h("div", { class: "columns-3" }, count.element, size.element, text.element) : text.element, field.element);
  }
}
