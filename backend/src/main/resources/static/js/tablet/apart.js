// @ts-check
/** Animals that are kept apart, and new ones that must be brought to eat. */
import { entered } from "./drafts.js";
import { SavedField, choice, entry, h, icon, oneOf } from "./fields.js";
import { uuid7 } from "./ids.js";

/**
 * The clock of a quarantine, the tools that may go in, and the day's look at the animals.
 *
 * @param {any} page
 * @param {any} system
 */
export function apart(page, system) {
  const told = system.animals ?? {};
  const lines = [...(told.quarantine ?? []), ...(told.fallow ?? [])];
  return h(
    "div",
    { "data-apart": system.id },
    lines.map((line) => h("p", { class: "say" }, line)),
    told.tools ? h("p", { class: "say" }, icon("apart"), " ", told.tools) : null,
    told.watch ? watch(page, system) : null,
  );
}

/**
 * @param {any} page
 * @param {any} system
 */
function watch(page, system) {
  const { words } = page;
  const field = new SavedField(page, `watch/${system.id}`, words("watch"), { parts: () => ({ signs }), resumed: () => save() });
  let eating = field.shown?.eating ?? "";
  let breathing = field.shown?.breathing ?? "";
  const signs = entry(words("watch.signs"), { value: field.shown?.signs ?? "", onchange: () => save() });
  const save = () => {
    const body = { system: system.id, ...(eating ? { eating } : {}), ...(breathing ? { breathing } : {}), ...(signs.input.value.trim() ? { signs: signs.input.value.trim() } : {}) };
    if (eating && breathing) {
      void field.save("visit.watch", body);
    } else {
      void field.pend("visit.watch", body);
    }
  };
  return h(
    "div",
    {},
    h("h3", {}, words("watch")),
    oneOf(
      words("watch.eating"),
      ["ALL", "SOME", "NONE"].map((code) => ({ value: code, text: words(`watch.eating.${code}`) })),
      eating,
      (value) => {
        eating = value;
        save();
      },
    ),
    oneOf(
      words("watch.breathing"),
      ["CALM", "FAST"].map((code) => ({ value: code, text: words(`watch.breathing.${code}`) })),
      breathing,
      (value) => {
        breathing = value;
        save();
      },
    ),
    signs.element,
    field.element,
  );
}

/**
 * What new animals were offered, and whether they ate.
 *
 * @param {any} page
 * @param {any} system
 */
export function firstFood(page, system) {
  const { words } = page;
  const animals = system.animals?.food ?? [];
  if (animals.length === 0) {
    return h("div", {});
  }
  return h("div", { "data-food": system.id }, h("h3", {}, words("food")), animals.map((/** @type {any} */ each) => fed(page, system, each)));
}

/**
 * @param {any} page
 * @param {any} system
 * @param {any} animals
 */
function fed(page, system, animals) {
  const { words } = page;
  const said = h("p", { class: animals.worry ? "state state-strong state-signal" : "facts" }, animals.worry ? icon("needed") : null, h("span", {}, `${animals.name}: ${animals.words}`));
  const list = h("div", {});
  entered(page, "food/")
    .filter((key) => {
      const body = (page.visit.fields[key] ?? page.drafts.of(key)).body;
      return body.system === system.id && body.livestock === animals.livestock;
    })
    .forEach((key) => list.append(one(key.slice("food/".length))));
  return h("div", {}, said, list, h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7())) }, words("food.add", animals.name))));

  /** @param {string} line */
  function one(line) {
    const field = new SavedField(page, `food/${line}`, words("food"), {
      answered: (result) => {
        if (result.args.words) {
          said.replaceChildren(`${animals.name}: ${result.args.words}`);
        }
      },
    });
    let outcome = field.shown?.outcome ?? "";
    const offer = choice(
      words("food.offer"),
      animals.offers.map((/** @type {any} */ each) => ({ value: each.code, text: each.text })),
      field.shown?.offer ?? animals.offers[0].code,
      () => save(),
    );
    const save = () => {
      if (outcome) {
        void field.save("visit.food", { system: system.id, line, livestock: animals.livestock, offer: offer.select.value, outcome });
      }
    };
    return h(
      "div",
      {},
      offer.element,
      oneOf(
        words("food.outcome", animals.name),
        ["EATEN", "TASTED", "REFUSED"].map((code) => ({ value: code, text: words(`food.outcome.${code}`) })),
        outcome,
        (value) => {
          outcome = value;
          save();
        },
      ),
      field.element,
    );
  }
}
