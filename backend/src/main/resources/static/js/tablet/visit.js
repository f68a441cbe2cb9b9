// @ts-check
import { acclimation } from "./acclimation.js";
import { apart, firstFood } from "./apart.js";
import { firstAsked, numberAsked, quantityAsked, volumeAsked } from "./asking.js";
import { awaited, enqueue, status } from "./store.js";
import { loadVisit } from "./bundle.js";
import { checkDue } from "./checks.js";
import { entered, linesOf } from "./drafts.js";
import { advice, heldBack } from "./dosing.js";
import { SavedField, choice, entry, h, icon, meant, newId, oneOf, reasons } from "./fields.js";
import { noRoom } from "./file.js";
import { uuid7 } from "./ids.js";
import { unsaid } from "./judging.js";
import { readings } from "./readings.js";
import { series } from "./series.js";
import { things } from "./running.js";
import { scaleOf, waterChange } from "./water.js";
import { feeding, handedOver, livestock } from "./animals.js";
import { Keypad } from "./keypad.js";
import { photos } from "./photos.js";
import { signing } from "./signing.js";
import { sizeOf, sockSize } from "./sock-size.js";
import { suspicion } from "./suspicion.js";
import { treatments } from "./treatment.js";
import { tell, tellWaiting } from "./waiting.js";
import { young } from "./young.js";
import { ageOf, timeOf } from "./times.js";

/** Why something that is agreed is left for another time. */
const SKIPPED = ["skip.no-time", "skip.not-needed", "skip.no-material", "skip.client"];
/** Of a site whose day was fetched by a program that did not say yet what is asked there. */
const LINES = ["TOP_OFF_ON", "HEATER_ON", "PUMPS_FLOW", "LEVEL_AT_MARK", "FLOOR_DRY", "RCD_TESTED"];
const root = /** @type {HTMLElement} */ (document.getElementById("visit"));
const spoken = /** @type {HTMLElement} */ (document.getElementById("spoken"));

const ASK_AFTER_MS = 1500;
const TYPED_AFTER_MS = 250;
let sections = 0;
/** @type {ReturnType<typeof setTimeout> | undefined} */
let asking;
/** The words of the page, as soon as it has any. @type {(key: string, ...args: any[]) => string} */
let words;

/**
 * The page of a visit, or of a stop that nobody has begun.
 *
 * @param {string} visitId
 * @returns {Promise<((key: string, ...args: any[]) => string) | null>} the words of the page; null where there is none
 */
export async function showVisit(visitId) {
  const loaded = await loadVisit(visitId);
  if (loaded === null) {
    return null;
  }
  words = loaded.words;
  head(loaded);
  if (loaded.started) {
    show(loaded);
  } else {
    begin(loaded);
  }
  return words;
}

/** Where it is and how to get in. @param {import("./bundle.js").Loaded} loaded */
function head({ site, stop, round, visit, bundle, systems, fresh, at }) {
  document.documentElement.lang = bundle.locale;
  document.title = words("title", site.name);
  text("place", site.name);
  text("number", [stop ? words("stop", stop.position) : "", visit.code ? words("number", visit.code) : ""].filter(Boolean).join(", "));
  text("person", bundle.technician.name);
  const part = (/** @type {string} */ key, /** @type {string | undefined} */ value, /** @type {string} */ id = newId()) => (value === undefined ? null : h("div", {}, h("dt", {}, words(key)), h("dd", { id }, value)));
  const facts = [part("address", site.address), part("access", site.access, "access"), part("arrived", visit.startedWords ?? words("not-begun"), "arrived"), part("left", visit.finishedWords ?? words(visit.startedWords === undefined ? "not-begun" : "still"), "finished")];
  document.getElementById("particulars")?.replaceChildren(...facts.filter((each) => each !== null));
  // What lies at the depot is checked there, before the van leaves: the page of the day says so.
  const checks = (round?.checks ?? []).filter((/** @type {any} */ check) => check.carried !== false).map((/** @type {any} */ check) => checkDue(words, check));
  document.getElementById("notices")?.replaceChildren(
    ...besides(site, visit, systems, fresh ? "" : words("age", ageOf(at))),
    beforeHands(site),
    ...(checks.length > 0 ? [h("section", { class: "section" }, h("h2", {}, words("checks")), checks)] : []),
  );
  const link = (/** @type {string} */ href, /** @type {string} */ key, /** @type {boolean} */ here = false) => h("a", { href, "aria-current": here ? "page" : null }, words(key));
  document
    .getElementById("bar")
    ?.replaceChildren(
      link("/day", "bar.day"),
      ...(round ? [link(`/rounds/${round.id}`, "bar.round"), link(`/rounds/${round.id}/load`, "bar.load")] : []),
      link(`/visits/${visit.id}`, "bar.this", true),
    );
}

/**
 * Who has begun another visit to the same water and not finished it, and how to go on.
 *
 * @param {any} site
 * @param {any} visit
 * @param {any[]} systems of this visit
 * @param {string} age of what is known
 */
function besides(site, visit, systems, age) {
  if (visit.finishedWords) {
    return [];
  }
  return (site.open ?? [])
    .filter((/** @type {any} */ other) => other.id !== visit.id && (other.systems.length === 0 || systems.some((system) => other.systems.includes(system.id))))
    .map((/** @type {any} */ other) =>
      h(
        "section",
        { class: "notice", "data-beside": other.id },
        h("h2", { class: "notice-title" }, icon("needed"), " ", words("besides.title")),
        h("p", { class: "say" }, words("besides.who", other.by, other.since, other.code)),
        h("p", {}, words("besides.both"), " ", age),
        h("div", { class: "actions" }, h("a", { class: "button", href: `/visits/${other.id}` }, words("besides.join", other.code))),
      ),
    );
}

/** What fits this site and the tasks of today, said before hands go in. @param {any} site */
function beforeHands(site) {
  return h(
    "section",
    { class: "notice", id: "before-hands" },
    h("h2", { class: "notice-title" }, words("before")),
    h("ul", { class: "plain" }, (site.before ?? []).map((/** @type {string} */ sentence) => h("li", {}, sentence))),
    h("p", { class: "fine" }, words("before.defer")),
  );
}

/** Nobody has begun here. @param {import("./bundle.js").Loaded} loaded */
function begin(loaded) {
  const { stop, visit } = loaded;
  const problem = h("p", { class: "field-error", role: "alert" });
  const button = h("button", { class: "button button-main button-large", type: "button", onclick: () => void start() }, words("begin.button"));
  root.replaceChildren(
    h("p", { class: "say" }, words("begin")),
    ...(stop?.sick ? [h("p", { class: "say" }, words("begin.sick"))] : []),
    h("div", { class: "actions" }, button),
    problem,
  );
  let begun = false;
  status((waiting) => {
    // Nothing has been entered here yet of which it could be said that it is saved.
    if (!begun && waiting.count === 0) {
      tell([words("fetched", ageOf(loaded.at))]);
    } else if (!begun) {
      tellWaiting(words, waiting, words("age", ageOf(loaded.at)));
    }
  });

  async function start() {
    button.disabled = true;
    problem.textContent = "";
    tell([words("saving")]);
    const at = Date.now();
    // The visit bears the id of its stop, so that two who start it at once mean the same.
    const result = await enqueue("visit.start", visit.id, { stop: visit.id }, null, (step) => {
      if (step === "kept") {
        begun = true;
        visit.startedWords = timeOf(at);
        show(loaded);
      } else if (step === "full") {
        problem.textContent = words("full");
        button.disabled = false;
      }
    });
    if (result.args.open) {
      // Begun meanwhile, or while there was no signal.
      loaded.site.open = result.args.open;
      head(loaded);
    }
    if (result.status !== "applied") {
      begin(loaded);
      root.append(h("p", { class: "field-error", role: "alert" }, result.args.words ?? result.code));
    }
  }
}

/**
 * What is agreed, as it stands after what was read.
 *
 * @param {any} page
 * @param {any[]} due as it is shown
 */
async function askAnew(page, due) {
  const fresh = await loadVisit(page.visit.id).catch(() => null);
  if (!fresh?.fresh) {
    return;
  }
  const changed = JSON.stringify(fresh.due) !== JSON.stringify(due);
  due.splice(0, due.length, ...fresh.due);
  const there = new Set(due.flatMap((each) => each.tasks.map((/** @type {any} */ _, /** @type {number} */ at) => `task/${each.id}/${at}`)));
  [...new Set([...page.unsaved.keys(), ...page.drafts.keys("task/")])]
    .filter((key) => key.startsWith("task/") && !there.has(key))
    .forEach((key) => {
      void page.drafts.drop(key);
      page.unsaved.delete(key);
    });
  page.told();
  if (changed) {
    page.redrawn.forEach((/** @type {(due: any[]) => void} */ tell) => tell(due));
    page.say(words("redrawn"));
  }
}

/** @param {import("./bundle.js").Loaded} loaded */
function show({ bundle, site, visit, due, systems, drafts, at }) {
  const page = {
    visit,
    day: bundle,
    words,
    drafts,
    /** What waits on this device to be sent; null until that is known. @type {import("./store.js").Waiting | null} */
    waiting: null,
    /** Of when the facts on this page are. */
    age: words("age", ageOf(at)),
    /** Of when the facts are by which this device judges for itself. */
    known: ageOf(at),
    decisionRule: bundle.decisionRule,
    /** What judges each reading that the server has not judged, once more. @type {(() => void)[]} */
    unjudged: [],
    /** The fields that hold something that is not saved, by what the person calls them. @type {Map<string, string>} */
    unsaved: new Map(),
    told: () => tellUnsaved(page),
    /** What nobody should leave with, by the key of the reading. */
    perils: visit.perils,
    /** What would endanger the animals and stands against what somebody else wrote, by the key of the reading. */
    contested: visit.contested,
    /** What readings are called, by their keys. @type {Record<string, string>} */
    names: {},
    /** What their quantities are called, likewise. @type {Record<string, string>} */
    quantities: {},
    keypad: new Keypad({ words, say }),
    /** Told when something is written after the signature. */
    unsigned: () => {},
    /** The lines of the check before leaving that nobody has answered. @type {() => string[]} */
    unanswered: () => [],
    /** What ticks an agreed task that was done as agreed, by system, kind and size. @type {Map<string, () => void>} */
    agreedDone: new Map(),
    gravityReference: bundle.gravityReference,
    volumeUnit: bundle.volumeUnit,
    unitSymbols: Object.fromEntries(systems.flatMap((/** @type {any} */ system) => system.measures.flatMap((/** @type {any} */ measure) => measure.units.map((/** @type {any} */ unit) => [unit.code, unit.symbol])))),
    /** By the server's clock, in milliseconds. */
    now: () => Date.now() - (at - Date.parse(bundle.madeAt)),
    instruments: bundle.instruments,
    batches: bundle.batches,
    departureLines: site.departure ?? LINES,
    runningThings: bundle.runningThings ?? [],
    /** @type {(() => void)[]} told whenever a reading was written */
    measured: [],
    /** What judges a reading anew, by its key. @type {Record<string, (args: any) => void>} */
    rows: {},
    /** @type {((due: any[]) => void)[]} told when what is agreed for this visit has changed, as by a plan drawn anew */
    redrawn: [],
    /** The agreed doses, with the fields that they are ticked in. */
    agreedDoses: agreedDoses(due),
    /** A reading that counts may draw a plan anew, and with it what is agreed. */
    read: () => {
      clearTimeout(asking);
      asking = setTimeout(() => void askAnew(page, due), ASK_AFTER_MS);
    },
    say,
  };
  page.redrawn.push((fresh) => {
    page.agreedDoses = agreedDoses(fresh);
  });
  text("arrived", visit.startedWords ?? "");
  const running = things(page, systems);
  const parts = [
    ...systems.flatMap((system) => systemParts(page, system, due, running)),
    section("photos", words("photos"), "", photos(page, systems, site)),
    notes(page),
    section("handed-over", words("handed-over"), "", handedOver(page)),
    departure(page, running),
    finish(page, running),
  ];
  root.replaceChildren(...parts);
  page.measured.push(() => tellDanger(page));
  tellDanger(page);
  tabs(parts);
  status((waiting) => {
    page.waiting = waiting;
    page.told();
  });
  keepTyping(page);
}

/** @param {string} text */
function say(text) {
  spoken.textContent = text;
}

/** @param {any[]} due */
function agreedDoses(due) {
  return due.flatMap((each) => each.tasks.map((/** @type {any} */ task, /** @type {number} */ at) => ({ ...task, system: each.system, field: `task/${each.id}/${at}` }))).filter((task) => task.kind === "DOSE" && task.amount);
}

/** Names what is not kept as an entry, else what waits to be sent. @param {any} page */
function tellUnsaved(page) {
  const names = [...new Set(page.unsaved.values())];
  if (names.length > 0) {
    tell([page.words("not-saved", names.join(", ")), page.age]);
  } else if (page.waiting !== null) {
    tellWaiting(page.words, page.waiting, page.age);
  }
}

/**
 * Keeps what is being typed, so that a tablet that dies in the middle of a number still has it. Only leaving the input makes
 * an entry of it.
 *
 * @param {any} page
 */
function keepTyping(page) {
  /** @type {Map<string, ReturnType<typeof setTimeout>>} */
  const soon = new Map();
  const part = (/** @type {EventTarget | null} */ input) => {
    if (!(input instanceof HTMLInputElement || input instanceof HTMLTextAreaElement) || input.type === "radio" || input.type === "checkbox" || input.type === "file") {
      return null;
    }
    for (let around = input.parentElement; around && around !== root; around = around.parentElement) {
      const field = /** @type {HTMLElement | null} */ (around.querySelector("[data-field]"));
      if (field) {
        return { field: String(field.dataset.field), name: input.labels?.[0]?.textContent ?? input.getAttribute("aria-label") ?? "" };
      }
    }
    return null;
  };
  root.addEventListener("input", ({ target }) => {
    const where = part(target);
    if (where) {
      const place = `${where.field}\n${where.name}`;
      clearTimeout(soon.get(place));
      soon.set(
        place,
        setTimeout(() => page.drafts.typing(where.field, where.name, /** @type {HTMLInputElement} */ (target).value), TYPED_AFTER_MS),
      );
    }
  });
  root.addEventListener("change", ({ target }) => {
    const where = part(target);
    if (where) {
      clearTimeout(soon.get(`${where.field}\n${where.name}`));
    }
  });
  for (const input of /** @type {NodeListOf<HTMLInputElement>} */ (root.querySelectorAll("input, textarea"))) {
    const where = part(input);
    const typed = where === null ? undefined : page.drafts.typed.get(`${where.field}\n${where.name}`);
    if (where && typed !== undefined && typed !== input.value) {
      input.value = typed;
      page.unsaved.set(where.field, where.name);
      // Nothing is changed on the way out, so that leaving it says nothing by itself.
      input.addEventListener("blur", () => input.dispatchEvent(new Event("change", { bubbles: true })), { once: true });
    }
  }
  page.told();
}

/** What nobody should leave with comes before everything else, with the way to it. @param {any} page */
function tellDanger(page) {
  const lines = [...Object.entries(page.perils), ...Object.entries(page.contested)].map(([key, args]) =>
    h(
      "p",
      { class: "state state-strong state-signal" },
      icon("needed"),
      h(
        "a",
        { href: `#${document.getElementById(key) ? key : "leaving"}` },
        words("danger.first", words(args.peril.certain ? "danger.title" : "repeat.title"), words("danger.of", page.names[key] ?? "", args.words.asWritten)),
      ),
    ),
  );
  document.getElementById("danger")?.replaceChildren(...lines);
}

/**
 * @param {string} id
 * @param {string} value
 */
function text(id, value) {
  const element = document.getElementById(id);
  if (element) {
    element.textContent = value;
  }
}

/** Links to the first part of each kind. @param {HTMLElement[]} parts */
function tabs(parts) {
  const seen = new Set();
  const links = parts
    .filter((part) => part.dataset.tab && !seen.has(part.dataset.tab) && seen.add(part.dataset.tab))
    .map((part) => h("a", { href: `#${part.id}` }, words(String(part.dataset.tab))));
  document.getElementById("tabs")?.replaceChildren(...links);
}

/**
 * @param {string} tab
 * @param {string} title
 * @param {string|HTMLElement} facts
 * @param {...any} content
 */
function section(tab, title, facts, ...content) {
  return h(
    "section",
    { class: "section", id: `part-${++sections}`, "data-tab": tab },
    h("div", { class: "section-head" }, h("h2", {}, title), typeof facts === "string" ? h("p", {}, facts) : facts),
    ...content,
  );
}

/**
 * @param {any} page
 * @param {any} system
 * @param {any[]} due
 * @param {any} running what may be off or running
 */
function systemParts(page, system, due, running) {
  const name = words("system", `${system.name}, ${system.kindWords}`, Math.round(system.netVolumeL));
  const cautions = [
    system.sick ? h("p", { class: "say" }, icon("apart"), " ", words("sick", system.classWords)) : null,
    system.eaten ? h("p", { class: "say" }, words("eaten")) : null,
    h("p", {}, h("a", { href: `/emergencies?system=${system.id}` }, words("emergencies"))),
  ];
  const tasks = h("div", {}, work(page, system, due));
  page.redrawn.push((/** @type {any[]} */ fresh) => tasks.replaceChildren(work(page, system, fresh)));
  return [
    section("look", words("look"), name, ...cautions, system.salt ? sump(page, system) : null, film(page, system), young(page, system), feeding(page, system), apart(page, system), treatments(page, system), suspicion(page, system), h("h3", {}, words("livestock")), livestock(page, system), firstFood(page, system)),
    section("readings", words("readings"), name, readings(page, system), series(page, system), acclimation(page, system)),
    section("running", words("running"), name, running.section(system)),
    section("water", words("change"), name, waterChange(page, system, due)),
    section("work", words("work"), name, tasks, socks(page, system, due), doses(page, system)),
  ];
}

/**
 * A low sump reads too salty: this is asked before salinity.
 *
 * @param {any} page
 * @param {any} system
 */
function sump(page, system) {
  const advice = h("p", { class: "say" });
  const field = new SavedField(page, `top-up/${system.id}`, words("sump.name"), {
    answered: (result) => {
      advice.textContent = result.args.words ?? "";
      // A salinity that was read before this was said is judged anew.
      Object.entries(result.args.readings ?? {}).forEach(([key, args]) => page.rows[key]?.(args));
    },
    changed: () => page.unjudged.forEach((/** @type {() => void} */ again) => again()),
    refused: (result) => {
      advice.textContent = "";
      return meant(page, result, measure?.units ?? [], ({ unit, value }) => {
        scale.select.value = unit;
        salinity.input.value = value ?? salinity.input.value;
        save();
      });
    },
    asked: (body) =>
      firstAsked(
        () => volumeAsked(page, body, "filledUp", system),
        () => volumeAsked(page, body, "missing", system),
        () => quantityAsked(page, body, "salinity", "SALINITY", body.salinityUnit),
      ),
    parts: () => ({ missing, salinity, salinityUnit: scale, filledUp: filled }),
  });
  const stored = field.shown;
  const measure = system.measures.find((/** @type {any} */ each) => each.quantity === "SALINITY");
  const gravityReference = measure?.gravityReference ?? page.gravityReference;
  const scale = scaleOf(page, measure, stored?.salinityUnit, words("sump.scale"), () => save());
  const missing = entry(words("sump.missing"), { inputmode: "decimal", value: stored?.missing ?? "", onchange: () => save() }, page.volumeUnit);
  const salinity = entry(words("sump.salinity"), { inputmode: "decimal", value: stored?.salinity ?? "", onchange: () => save() });
  const filled = entry(words("filled"), { inputmode: "decimal", value: stored?.filledUp ?? "", onchange: () => save() }, page.volumeUnit);
  const low = h("div", { class: "columns-3" }, missing.element, ...(measure ? [salinity.element, scale.element] : []), filled.element);
  const hint = h("p", { class: "hint" });
  let atMark = stored ? stored.atMark : null;
  const describe = () => {
    low.hidden = atMark !== false;
    advice.hidden = atMark !== false;
    hint.textContent = atMark === null ? words("sump.first") : atMark ? "" : words("sump.low");
  };
  const save = () => {
    describe();
    if (atMark === null) {
      return;
    }
    /** @type {Record<string, any>} */
    const body = { system: system.id, atMark, unit: page.volumeUnit };
    const put = (/** @type {string} */ name, /** @type {string} */ value) => {
      if (value && !atMark) {
        body[name] = value;
      }
    };
    put("missing", missing.input.value.trim());
    put("filledUp", filled.input.value.trim());
    if (measure && salinity.input.value.trim()) {
      put("salinity", salinity.input.value.trim());
      put("salinityUnit", scale.select.value);
      put("gravityReference", scale.select.value === "SG" ? gravityReference : "");
    }
    void field.save("visit.top-up", body);
  };
  describe();
  return h(
    "div",
    {},
    oneOf(
      words("sump"),
      [
        { value: "yes", text: words("sump.yes") },
        { value: "no", text: words("sump.no") },
      ],
      atMark === null ? "" : atMark ? "yes" : "no",
      (value) => {
        atMark = value === "yes";
        save();
      },
    ),
    hint,
    low,
    advice,
    field.element,
  );
}

/**
 * @param {any} page
 * @param {any} system
 * @param {any[]} due
 */
function work(page, system, due) {
  const tasks = due.filter((each) => each.system === system.id).flatMap((each) => each.tasks.map((/** @type {any} */ task, /** @type {number} */ position) => ({ ...task, position, plannedVisit: each.id })));
  const facts = h("p", { class: "facts" });
  const fields = tasks.map((task) => new SavedField(page, `task/${task.plannedVisit}/${task.position}`, task.words, { changed: () => count(), refused: gone }));
  count();
  const list = h("ul", { class: "ticks" }, tasks.map((task, at) => line(task, fields[at])));
  page.measured.push(count);
  return h("div", {}, facts, list);

  function count() {
    const done = tasks.filter((task, at) => measured(task) || fields[at].body?.state === "DONE").length;
    facts.textContent = words("agreed", done, tasks.length);
  }

  /** A task that a plan has taken back goes from the page too. @param {any} result */
  function gone(result) {
    if (result.code === "visits.task-gone") {
      page.read();
    }
    return null;
  }

  /** A test is done by its reading, at whichever sample point. @param {any} task */
  function measured(task) {
    return task.kind === "TEST" && taken(task.quantity);
  }

  /** @param {string} quantity */
  function taken(quantity) {
    const key = `reading/${system.id}/${quantity}`;
    return Object.entries(page.visit.fields).some(([field, { body }]) => (field === key || field.startsWith(`${key}/`)) && body.answer !== "NOT_MEASURED");
  }

  /**
   * @param {any} task
   * @param {SavedField} field
   */
  function line(task, field) {
    const body = (/** @type {string} */ state, /** @type {string} */ because = "") => ({
      plannedVisit: task.plannedVisit,
      position: String(task.position),
      state,
      ...(because ? { because } : {}),
    });
    const kept = (/** @type {string} */ state) => (field.shown?.state === state ? (field.shown.because ?? "") : "");
    const why = reasons(page, words("skip-why"), SKIPPED, kept("SKIPPED"), () => saveSkipped());
    const done = h("input", { type: "checkbox", checked: field.shown?.state === "DONE", onchange: () => tick() });
    const dose = task.kind === "DOSE" ? guarded(page, system, field, () => (done.checked ? { product: task.item ?? "", amount: task.amount ?? "", unit: task.unit ?? "" } : null), kept("DONE"), (said) => tick(said.prepared)) : null;
    let unmeasured = field.shown?.unmeasured ?? "";
    const tick = (prepared = false) => {
      const given = done.checked ? (dose?.because() ?? "") : "";
      const without = done.checked && unmeasured !== "" ? { unmeasured } : {};
      void field.save("visit.task", { ...body(done.checked ? "DONE" : "OPEN", given), ...without, ...(prepared ? { prepared } : {}) });
      describe();
    };
    const wanted = h("div", {});
    /** The step of a plan is not ticked before what it follows from was measured, unless somebody says why. */
    const describe = () => {
      const missing = (task.first ?? []).filter((/** @type {any} */ each) => !taken(each.quantity)).map((/** @type {any} */ each) => each.name);
      const open = missing.length > 0 && !done.checked;
      done.disabled = open;
      wanted.replaceChildren(
        ...(open
          ? [
              h("p", { class: "state" }, icon("needed"), h("span", {}, words("first", missing.join("; ")))),
              h(
                "div",
                { class: "actions" },
                h("span", { class: "fine" }, words("first.done")),
                ["no-kit", "no-time"].map((code) => h("button", { class: "link-button", type: "button", onclick: () => withoutReading(words(`first.${code}`)) }, words(`first.${code}`))),
              ),
            ]
          : []),
      );
    };
    const withoutReading = (/** @type {string} */ because) => {
      unmeasured = because;
      done.checked = true;
      tick();
    };
    const saveSkipped = () => {
      const because = why.input.value.trim();
      if (because !== "") {
        done.checked = false;
        void field.save("visit.task", body("SKIPPED", because));
      }
    };
    const glass = task.kind === "WORK" && system.hasAcrylic;
    if (task.kind === "TEST") {
      return test(task, why, field);
    }
    describe();
    page.measured.push(describe);
    page.agreedDone.set(`${system.id}/${task.kind}/${sizeOf(task)}`, () => {
      if (!done.checked && !done.disabled) {
        done.checked = true;
        tick();
      }
    });
    const notes = [...(glass ? [words("acrylic")] : []), ...(task.besides ? [task.besides] : []), ...(task.water ?? [])];
    return h(
      "li",
      {},
      h("label", { class: "tick" }, done, h("span", {}, h("strong", {}, task.words), ...notes.flatMap((note) => [" ", h("span", { class: "facts" }, note)]))),
      wanted,
      h("details", { class: "reading-more", open: field.shown?.state === "SKIPPED" }, h("summary", {}, words("skip")), why.element),
      field.element,
      dose?.element ?? null,
    );
  }

  /**
   * @param {any} task
   * @param {{element: any}} why
   * @param {SavedField} field
   */
  function test(task, why, field) {
    const state = h("p", {});
    const skip = h("details", { class: "reading-more", open: field.shown?.state === "SKIPPED" }, h("summary", {}, words("skip")), why.element);
    const describe = () => {
      const done = measured(task);
      state.replaceChildren(icon(done ? "done" : "todo"), " ", h("strong", {}, task.words), ...(done ? [] : [" ", h("span", { class: "facts" }, words("test-open"))]));
      skip.hidden = done;
      field.element.hidden = done;
    };
    describe();
    page.measured.push(describe);
    return h("li", {}, state, skip, field.element);
  }
}

/**
 * A film that stays for weeks is raised in the review, so it is worth saying that it is there, and that it is gone.
 *
 * @param {any} page
 * @param {any} system
 */
function film(page, system) {
  const field = new SavedField(page, `film/${system.id}`, words("film.name"));
  const stored = field.shown;
  return h(
    "div",
    {},
    oneOf(
      words("film"),
      [
        { value: "no", text: words("film.no") },
        { value: "yes", text: words("film.yes") },
      ],
      stored ? (stored.seen ? "yes" : "no") : "",
      (value) => void field.save("visit.film", { system: system.id, seen: value === "yes" }),
    ),
    field.element,
  );
}

/**
 * @param {any} page
 * @param {any} system
 * @param {any[]} due
 */
function socks(page, system, due) {
  const agreed = due.filter((each) => each.system === system.id).flatMap((each) => each.tasks).filter((/** @type {any} */ task) => task.kind === "SOCK_SWAP");
  const written = entered(page, `socks/${system.id}/`).map((key) => key.split("/")[2]);
  const sizes = [...new Set([...agreed.map((/** @type {any} */ task) => sizeOf(task)), ...written])].filter((code) => sockSize(code ?? ""));
  const list = h("div", { class: "columns-3" }, sizes.map((size) => one(size)));
  const other = entry(words("add-socks"), { inputmode: "numeric", onchange: () => add() }, "mm");
  return h("div", {}, h("h3", {}, words("socks")), list, other.element);

  function add() {
    const size = other.input.value.trim();
    if (/^\d+$/.test(size) && sockSize(size)) {
      list.append(one(size));
      other.input.value = "";
    }
  }

  /** @param {string} size */
  function one(size) {
    const { text, facts } = /** @type {any} */ (sockSize(size));
    const field = new SavedField(page, `socks/${system.id}/${size}`, `${words("socks")}, ${text}`, {
      asked: (body) => numberAsked(page, body, "count", "0", "1000", true),
      parts: () => ({ count }),
    });
    const count = entry(text, { inputmode: "numeric", value: field.shown?.count ?? "", onchange: () => save() });
    const amount = agreed.find((/** @type {any} */ task) => sizeOf(task) === size)?.amount;
    const asAgreed = amount === undefined ? null : h("button", { class: "button", type: "button", onclick: () => takeAgreed() }, words("socks-as-agreed", amount));
    const offer = () => asAgreed && (asAgreed.hidden = count.input.value.trim() !== "");
    const takeAgreed = () => {
      count.input.value = amount;
      save();
      page.agreedDone.get(`${system.id}/SOCK_SWAP/${size}`)?.();
    };
    offer();
    const save = () => {
      offer();
      if (count.input.value.trim()) {
        void field.save("visit.socks", { system: system.id, ...facts, count: count.input.value.trim() });
      } else {
        field.emptied(count.input, "count");
      }
    };
    return h("div", {}, count.element, asAgreed, field.element);
  }
}

/**
 * @param {any} page
 * @param {any} system
 */
function doses(page, system) {
  const list = h("div", {});
  linesOf(page, "dose/", system).forEach((line) => list.append(one(line)));
  return h(
    "div",
    {},
    h("h3", {}, words("dose")),
    list,
    h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7())) }, words("dose-add"))),
  );

  /** @param {string} line */
  function one(line) {
    const field = new SavedField(page, `dose/${line}`, words("dose"), { asked: (body) => numberAsked(page, body, "amount", "0.001", "100000"), parts: () => ({ product, amount, unit }) });
    const stored = field.shown;
    /** Whether it was given besides what was ticked; undefined before anybody said so. @type {boolean | undefined} */
    let further = stored?.further;
    const entered = () => ({ product: product.input.value, amount: amount.input.value.trim(), unit: unit.select.value });
    const guard = guarded(page, system, field, entered, stored?.because ?? "", (said) => {
      further = said.further ?? further;
      void save(said.prepared);
    });
    const product = entry(words("product"), { value: stored?.product ?? "", onchange: () => save() });
    const amount = entry(words("amount"), { inputmode: "decimal", value: stored?.amount ?? "", onchange: () => save() });
    const unit = choice(
      words("unit"),
      ["mL", "g"].map((code) => ({ value: code, text: code })),
      stored?.unit ?? "mL",
      () => save(),
    );
    const save = async (prepared = false) => {
      if (product.input.value.trim() && amount.input.value.trim()) {
        const why = guard.because();
        await field.save("visit.dose", {
          system: system.id,
          line,
          product: product.input.value.trim(),
          amount: amount.input.value.trim(),
          unit: unit.select.value,
          ...(prepared ? { prepared } : {}),
          ...(further === undefined ? {} : { further }),
          ...(why ? { because: why } : {}),
        });
      } else if (field.body !== null) {
        field.emptied(product.input, "product");
        field.emptied(amount.input, "amount");
      }
    };
    return h("div", { class: "dose" }, h("div", { class: "columns-3" }, product.element, amount.element, unit.element), field.element, guard.element);
  }
}

/** What may be answered where a dose is asked back. @type {Record<string, {text: string, said: {prepared?: boolean, further?: boolean}}[]>} */
const ANSWERS = {
  "plans.dose.before-medicine": [{ text: "dose-prepared", said: { prepared: true } }],
  "plans.dose.same-or-further": [
    { text: "dose-same", said: { further: false } },
    { text: "dose-further", said: { further: true } },
  ],
};

/**
 * What the guard over doses says of a dose and what it asks: whether all is ready for a medicine, and why it was given where
 * something speaks against it.
 *
 * @param {any} page
 * @param {any} system
 * @param {SavedField} field
 * @param {() => {product: string, amount: string, unit: string} | null} dose
 * @param {string} why
 * @param {(said: {prepared?: boolean, further?: boolean}) => void} save
 */
function guarded(page, system, field, dose, why, save) {
  const { words } = page;
  const mind = h("p", { class: "say", role: "status" });
  const because = entry(words("dose-because"), { value: why, onchange: () => save({}) });
  because.element.hidden = why === "";
  const given = () => because.input.value.trim();
  const { answered, asked } = field.options;
  field.options.asked = (body) => {
    const given = dose();
    return asked?.(body) ?? (given === null ? null : heldBack(page, system, field.key, given, body));
  };
  field.options.waiting = (step) => {
    const given = dose();
    mind.textContent = given === null ? "" : advice(page, system, field.key, given, because.input.value.trim() !== "");
    if (step === "failed" && mind.textContent !== "") {
      because.element.hidden = false;
    }
  };
  field.options.answered = (result, body) => {
    mind.textContent = result.args.words ?? "";
    because.element.hidden = given() === "";
    answered?.(result, body);
  };
  field.options.refused = (result) => {
    mind.textContent = "";
    const answers = ANSWERS[result.code] ?? [];
    // What is only asked back needs no reason.
    because.element.hidden = answers.length > 0 && given() === "";
    return answers.length > 0 ? h("div", { class: "actions" }, answers.map(({ text, said }) => h("button", { class: "button", type: "button", onclick: () => save(said) }, words(text)))) : null;
  };
  return { element: h("div", {}, mind, because.element), because: given };
}

/** @param {any} page */
function notes(page) {
  const list = h("div", {});
  entered(page, "note/").forEach((key) => list.append(one(key.slice("note/".length))));
  if (!list.hasChildNodes()) {
    list.append(one(uuid7()));
  }
  return section("notes", words("notes"), "", list, h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7())) }, words("note-add"))));

  /** @param {string} line */
  function one(line) {
    const field = new SavedField(page, `note/${line}`, words("note"));
    const area = h("textarea", { rows: 3, "aria-label": words("note"), value: field.shown?.text ?? "", onchange: () => void field.save("visit.note", { line, text: area.value.trim() }) });
    return h("div", { class: "field" }, h("div", { class: "entry" }, area), field.element);
  }
}

/**
 * @param {any} page
 * @param {any} running what may be off or running
 */
function departure(page, running) {
  const facts = h("p", {});
  const fields = page.departureLines.map((/** @type {string} */ line) => new SavedField(page, `departure/${line}`, words(`departure.${line}`), { changed: () => count(), resumed: () => again.get(line)?.() }));
  /** What asks once more for a line that was left half answered. @type {Map<string, () => void>} */
  const again = new Map();
  /** What was done about each reading that nobody should leave with, by the reading. @type {Map<string, {element: HTMLElement, field: SavedField}>} */
  const done = new Map();
  const perils = h("ul", { class: "ticks ticks-departure" });
  const list = h("ul", { class: "ticks ticks-departure" }, page.departureLines.map((/** @type {string} */ line, /** @type {number} */ at) => one(line, fields[at])));
  const open = running.leaving(count);
  page.measured.push(askAboutPerils);
  const made = section("leaving", words("departure"), facts, open.element, perils, list);
  made.id = "leaving";
  page.unanswered = () => page.departureLines.filter((/** @type {string} */ line, /** @type {number} */ at) => !fields[at].body?.answer).map((/** @type {string} */ line) => words(`departure.${line}`));
  askAboutPerils();
  return made;

  function count() {
    const asked = [...Object.values(page.perils)].map((/** @type {any} */ args) => done.get(args.reading)?.field.body?.done);
    // Between two people's values somebody has to decide first.
    const answered = [...open.answers(), ...fields.map((field) => field.body?.answer), ...asked, ...Object.keys(page.contested).map(() => "")];
    facts.textContent = words("answered", answered.filter(Boolean).length, answered.length);
  }

  function askAboutPerils() {
    const asked = Object.entries(page.perils).map(([key, args]) => {
      const line = done.get(args.reading) ?? about(key, args);
      done.set(args.reading, line);
      return line.element;
    });
    perils.hidden = asked.length === 0;
    if (asked.length !== perils.childElementCount || asked.some((element, at) => perils.children[at] !== element)) {
      perils.replaceChildren(...asked);
    }
    count();
  }

  /**
   * @param {string} key
   * @param {any} args
   */
  function about(key, args) {
    const system = key.split("/")[1];
    const name = page.names[key] ?? key;
    const field = new SavedField(page, `danger/${args.reading}`, name, { changed: () => count() });
    const what = entry(words("danger.done"), { value: field.shown?.done ?? "", onchange: () => save() });
    const save = () => {
      if (what.input.value.trim() === "") {
        field.emptied(what.input, "done");
        return;
      }
      void field.save("visit.danger", { system, reading: args.reading, done: what.input.value.trim() });
    };
    const said = args.peril.certain ? args.peril.words : args.words.repeat;
    const element = h(
      "li",
      { "data-peril": args.reading },
      h("p", { class: "state state-strong state-signal" }, icon("needed"), h("span", {}, words("danger.of", name, args.words.asWritten))),
      h("p", {}, said),
      what.element,
      field.element,
    );
    return { element, field };
  }

  /**
   * @param {string} line
   * @param {SavedField} field
   */
  function one(line, field) {
    const why = entry(words("departure-why"), { value: field.shown?.because ?? "", onchange: () => save() });
    let answer = field.shown?.answer ?? "";
    const describe = () => {
      why.element.hidden = answer !== "NO";
    };
    const half = () => answer === "NO" && why.input.value.trim() === "";
    const save = () => {
      describe();
      const because = why.input.value.trim();
      if (half()) {
        why.input.focus();
        if (!page.visit.finishedWords && (field.busy || field.body?.answer)) {
          // What was answered before holds no longer.
          void field.save("visit.departure", { line }, { open: { kind: "visit.departure", body: { line, answer } } });
        } else {
          void field.pend("visit.departure", { line, answer });
        }
        return;
      }
      void field.save("visit.departure", { line, answer, ...(answer === "NO" ? { because } : {}) });
    };
    again.set(line, save);
    describe();
    const options = ["YES", "NO", "NOT_HERE"].map((code) => ({ value: code, text: words(`departure.${code}`) }));
    return h(
      "li",
      { "data-line": line },
      oneOf(words(`departure.${line}`), options, answer, (value) => {
        answer = value;
        save();
      }),
      why.element,
      field.element,
    );
  }
}

/**
 * @param {any} page
 * @param {any} running what may be off or running
 */
function finish(page, running) {
  const problem = h("div", { role: "alert" });
  const button = h("button", { class: "button button-main button-large", type: "button", onclick: () => void close() }, words("finish-button"));
  const outcome = h("div", {});
  // What stood against the end may be over by now.
  running.listen(() => {
    if (problem.querySelector("[href='#leaving']") && running.stillSo().length === 0) {
      problem.replaceChildren();
    }
  });
  if (page.visit.finishedWords) {
    done(page.visit.finishedWords);
    if (page.visit.finishing) {
      void awaited(page.visit.finishing, () => {}).then(told);
    }
  } else {
    outcome.append(h("p", { class: "facts" }, words("finish-facts")), problem, h("div", { class: "actions" }, button));
  }
  return section("finish", words("finish"), "", signing(page), outcome);

  /** @param {string} at */
  function done(at) {
    page.visit.finishedWords = at;
    text("finished", at);
    outcome.replaceChildren(
      h("p", { class: "say" }, words("finished", at)),
      problem,
      h("div", { class: "actions" }, h("a", { class: "button button-strong", href: `/visits/${page.visit.id}/report` }, words("report"))),
    );
  }

  async function close() {
    const open = unsaid(page);
    if (open !== "") {
      refuse(h("span", {}, words("danger-open", open)));
      return;
    }
    problem.replaceChildren();
    const left = running.stillSo();
    if (left.length > 0) {
      refuse(h("a", { href: "#leaving" }, words("running.open", left.join("; "))));
      return;
    }
    const unanswered = page.unanswered();
    if (unanswered.length > 0) {
      refuse(h("a", { href: "#leaving" }, words("departure-open", unanswered.join(", "))));
      return;
    }
    button.disabled = true;
    const at = Date.now();
    const result = await enqueue("visit.finish", page.visit.id, {}, null, (step) => {
      if (step === "kept") {
        done(timeOf(at));
      } else if (step === "full") {
        problem.replaceChildren(h("p", { class: "field-error" }, words("full")), ...noRoom(words));
        button.disabled = false;
      }
    });
    told(result);
  }

  /** @param {import("./store.js").Result} result */
  function told(result) {
    button.disabled = false;
    if (result.status === "applied") {
      done(timeOf(Date.parse(result.args.at)));
    } else {
      page.visit.finishedWords = undefined;
      text("finished", words("still"));
      outcome.replaceChildren(h("p", { class: "facts" }, words("finish-facts")), problem, h("div", { class: "actions" }, button));
      refuse(h("span", {}, result.args.words ?? result.code));
    }
  }

  /** What stands against the end. @param {HTMLElement} said */
  function refuse(said) {
    problem.replaceChildren(h("p", { class: "field-error" }, icon("needed"), said));
  }
}
