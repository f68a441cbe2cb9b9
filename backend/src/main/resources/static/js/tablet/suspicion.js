// @ts-check
/** Illness suspected in the middle of a round: said here, told to the office, and the rest of the day goes from clean to sick. */
import { SavedField, entry, h, icon, oneOf } from "./fields.js";
import * as kept from "./kept.js";
import { cleanestFirst, suspectedIn } from "./order.js";

/**
 * @param {any} page
 * @param {any} system
 */
export function suspicion(page, system) {
  const { words } = page;
  const field = new SavedField(page, `suspicion/${system.id}`, words("suspicion"), { parts: () => ({ signs }), resumed: () => void save(), changed: () => void tell() });
  if (system.sick && field.shown === null) {
    return h("div", {});
  }
  let after = field.shown?.after ?? "";
  const signs = entry(words("suspicion.signs"), { value: field.shown?.signs ?? "", onchange: () => void save() });
  const said = h("div", { role: "status" });
  const save = async () => {
    const body = { system: system.id, signs: signs.input.value.trim(), ...(after ? { after, rest: (await rest()).map((each) => each.id) } : {}) };
    if (body.signs && after) {
      await field.save("visit.suspicion", body);
    } else if (body.signs || after) {
      void field.pend("visit.suspicion", body);
    }
  };
  void tell();
  return h(
    "details",
    { class: "reading-more", "data-suspicion": system.id, open: field.shown !== null },
    h("summary", {}, words("suspicion")),
    signs.element,
    oneOf(
      words("suspicion.after"),
      ["LAST", "DISINFECT"].map((code) => ({ value: code, text: words(`suspicion.after.${code}`) })),
      after,
      (value) => {
        after = value;
        void save();
      },
    ),
    said,
    h("p", { class: "fine" }, words("veterinarian")),
    field.element,
  );

  /** What is left of this round, cleanest first, by what this device knows. */
  async function rest() {
    const round = page.day.rounds.find((/** @type {any} */ each) => each.stops.some((/** @type {any} */ stop) => stop.id === page.visit.id));
    if (!round) {
      return [];
    }
    const here = await kept.from(0);
    const begun = new Set([page.visit.id, ...page.day.visits.map((/** @type {any} */ each) => each.id), ...here.filter((item) => item.entry.kind === "visit.start").map((item) => item.entry.subject)]);
    return cleanestFirst(page.day, round.stops, /** @type {Set<string>} */ (begun), suspectedIn(page.day, here).add(system.id));
  }

  async function tell() {
    if (field.body === null) {
      said.replaceChildren();
      return;
    }
    const names = (await rest()).map((stop) => page.day.sites.find((/** @type {any} */ each) => each.id === stop.site)?.name ?? "");
    said.replaceChildren(
      h("p", { class: "state state-strong" }, icon("apart"), h("span", {}, words(`suspicion.do.${field.body.after}`))),
      names.length > 0 ? h("p", { class: "say" }, words("suspicion.rest", names.join(", "))) : "",
    );
  }
}
