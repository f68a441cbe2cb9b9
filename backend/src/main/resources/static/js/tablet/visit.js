// @ts-check
import { enqueue, send, sendPhoto, status, uuid7, waiting } from "./store.js";
import { loadVisit, loadWords } from "./bundle.js";
import { SavedField, choice, entry, h, icon, newId, oneOf } from "./fields.js";
import { readings } from "./readings.js";

const LINES = ["TOP_OFF_ON", "HEATER_ON", "RETURN_PUMP_RUNS", "FLOOR_DRY", "RCD_TESTED"];
const main = /** @type {HTMLElement} */ (document.getElementById("content"));
const root = /** @type {HTMLElement} */ (document.getElementById("visit"));
const spoken = /** @type {HTMLElement} */ (document.getElementById("spoken"));
const fact = /** @type {HTMLElement} */ (document.getElementById("sync-fact"));

const words = await loadWords();
let sections = 0;

const { date, technician, visit: visitId } = /** @type {Record<string, string>} */ ({ ...main.dataset });
const loaded = await loadVisit(date, technician, visitId).catch(() => null);
if (loaded === null) {
  fact.textContent = words("not-loaded");
} else {
  show(loaded);
}

/** @param {{bundle: any, visit: any, due: any[], systems: any[]}} loaded */
function show({ bundle, visit, due, systems }) {
  const page = {
    visit,
    words,
    volumeUnit: bundle.volumeUnit,
    instruments: bundle.instruments,
    batches: bundle.batches,
    /** @type {(() => void)[]} told whenever a reading was written */
    measured: [],
    say: (/** @type {string} */ text) => {
      spoken.textContent = text;
    },
  };
  text("arrived", visit.startedWords ?? "");
  if (visit.finishedWords) {
    text("finished", visit.finishedWords);
  }
  const parts = [
    ...systems.flatMap((system) => systemParts(page, system, due)),
    photos(page, systems),
    notes(page),
    departure(page),
    finish(page),
  ];
  root.replaceChildren(...parts);
  tabs(parts);
  status((count) => {
    fact.textContent = count === 0 ? words("all-saved") : count === 1 ? words("one-unsaved") : words("some-unsaved", count);
  });
  window.addEventListener("beforeunload", (leaving) => {
    if (waiting() > 0) {
      leaving.preventDefault();
    }
  });
  window.addEventListener("online", () => void send());
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
 */
function systemParts(page, system, due) {
  const name = words("system", `${system.name}, ${system.kindWords}`, Math.round(system.netVolumeL));
  const cautions = [
    system.sick ? h("p", { class: "say" }, icon("apart"), " ", words("sick", system.classWords)) : null,
    system.eaten ? h("p", { class: "say" }, words("eaten")) : null,
    h("p", {}, h("a", { href: `/emergencies?system=${system.id}` }, words("emergencies"))),
  ];
  return [
    section("readings", words("readings"), name, ...cautions, system.salt ? sump(page, system) : null, readings(page, system)),
    section("water", words("change"), name, waterChange(page, system, due)),
    section("work", words("work"), name, work(page, system, due), film(page, system), socks(page, system, due), doses(page, system)),
    section("livestock", words("livestock"), name, livestock(page, system)),
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
  const field = new SavedField(page, `top-up/${system.id}`, { answered: (result) => (advice.textContent = result.args.words ?? ""), refused: () => void (advice.textContent = "") });
  const stored = field.body;
  const measure = system.measures.find((/** @type {any} */ each) => each.quantity === "SALINITY");
  const scales = (measure?.units ?? []).filter((/** @type {any} */ each) => each.code !== "SG" || measure.gravityReference);
  const scale = choice(
    words("sump.scale"),
    scales.map((/** @type {any} */ each) => ({ value: each.code, text: each.code === "SG" ? `SG ${measure.gravityReference}` : each.symbol })),
    stored?.salinityUnit ?? measure?.unit ?? "",
    () => save(),
  );
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
      put("gravityReference", scale.select.value === "SG" ? measure.gravityReference : "");
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
function waterChange(page, system, due) {
  const field = new SavedField(page, `water-change/${system.id}`);
  const stored = field.body ?? {};
  const measure = system.measures.find((/** @type {any} */ each) => each.quantity === "SALINITY");
  const out = entry(words("out"), { inputmode: "decimal", value: stored.out ?? "", onchange: () => save() }, page.volumeUnit);
  const into = entry(words("in"), { inputmode: "decimal", value: stored.in ?? "", onchange: () => save() }, page.volumeUnit);
  const scale = measure ? [measure.unit, measure.gravityReference].filter(Boolean).join(" ") : "";
  const salinity = entry(words("new-salinity"), { inputmode: "decimal", value: stored.salinity ?? "", onchange: () => save() }, scale);
  salinity.element.hidden = !system.salt || !measure;
  const known = page.batches.some((/** @type {any} */ each) => each.id === stored.batch);
  const batch = choice(
    words("batch"),
    [
      { value: "", text: words("batch-none") },
      ...page.batches.map((/** @type {any} */ each) => ({ value: each.id, text: each.words })),
      ...(stored.batch && !known ? [{ value: stored.batch, text: words("batch-earlier") }] : []),
    ],
    stored.batch ?? "",
    () => save(),
  );
  batch.element.hidden = page.batches.length === 0 && !stored.batch;
  const because = entry(words("change-because"), { value: stored.because ?? "", onchange: () => save() });
  because.element.hidden = !stored.because;
  // What was missed at an earlier visit is not made up for twice.
  const agreed = new Set(due.filter((each) => each.system === system.id).flatMap((each) => each.tasks.flatMap((/** @type {any} */ task) => (task.volume ? [task.volume] : []))));
  if (agreed.size > 0) {
    const hint = h("p", { class: "hint", id: newId() }, words("out-agreed", [...agreed].join(" + ")));
    out.input.setAttribute("aria-describedby", hint.id);
    out.element.append(hint);
  }
  return h("div", {}, h("div", { class: "columns-3" }, out.element, into.element, salinity.element, batch.element), field.element, because.element);

  async function save() {
    if (out.input.value.trim() === "") {
      return;
    }
    /** @type {Record<string, any>} */
    const body = { system: system.id, out: out.input.value.trim(), unit: page.volumeUnit };
    if (into.input.value.trim()) {
      body.in = into.input.value.trim();
    }
    if (salinity.input.value.trim() && measure) {
      body.salinity = salinity.input.value.trim();
      body.salinityUnit = measure.unit;
      if (measure.gravityReference) {
        body.gravityReference = measure.gravityReference;
      }
    }
    if (batch.select.value) {
      body.batch = batch.select.value;
    }
    const why = because.input.value.trim();
    if (why) {
      body.because = why;
    }
    await field.save("visit.water-change", body);
    because.element.hidden = !why && field.problem.childElementCount === 0;
  }
}

/**
 * @param {any} page
 * @param {any} system
 * @param {any[]} due
 */
function work(page, system, due) {
  const tasks = due.filter((each) => each.system === system.id).flatMap((each) => each.tasks.map((/** @type {any} */ task, /** @type {number} */ position) => ({ ...task, position, plannedVisit: each.id })));
  const facts = h("p", { class: "facts" });
  const fields = tasks.map((task) => new SavedField(page, `task/${task.plannedVisit}/${task.position}`, { answered: () => count() }));
  count();
  const list = h("ul", { class: "ticks" }, tasks.map((task, at) => line(task, fields[at])));
  page.measured.push(count);
  return h("div", {}, facts, list);

  function count() {
    const done = tasks.filter((task, at) => measured(task) || fields[at].body?.state === "DONE").length;
    facts.textContent = words("agreed", done, tasks.length);
  }

  /** A test is done by its reading, at whichever sample point. @param {any} task */
  function measured(task) {
    const key = `reading/${system.id}/${task.quantity}`;
    return task.kind === "TEST" && Object.entries(page.visit.fields).some(([field, { body }]) => (field === key || field.startsWith(`${key}/`)) && body.answer !== "NOT_MEASURED");
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
    const why = entry(words("skip-why"), { value: field.body?.because ?? "", onchange: () => saveSkipped() });
    const done = h("input", { type: "checkbox", checked: field.body?.state === "DONE", onchange: () => void field.save("visit.task", body(done.checked ? "DONE" : "OPEN")) });
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
    return h(
      "li",
      {},
      h("label", { class: "tick" }, done, h("span", {}, h("strong", {}, task.words), glass ? h("span", { class: "facts" }, words("acrylic")) : null)),
      h("details", { class: "reading-more", open: field.body?.state === "SKIPPED" }, h("summary", {}, words("skip")), why.element),
      field.element,
    );
  }

  /**
   * @param {any} task
   * @param {{element: any}} why
   * @param {SavedField} field
   */
  function test(task, why, field) {
    const state = h("p", {});
    const skip = h("details", { class: "reading-more", open: field.body?.state === "SKIPPED" }, h("summary", {}, words("skip")), why.element);
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
  const field = new SavedField(page, `film/${system.id}`);
  const stored = field.body;
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
  const written = Object.keys(page.visit.fields)
    .filter((key) => key.startsWith(`socks/${system.id}/`))
    .map((key) => Number(key.split("/")[2]));
  const sizes = [...new Set([...agreed.map((/** @type {any} */ task) => task.sizeMm), ...written])].filter(Boolean);
  const list = h("div", { class: "columns-3" }, sizes.map((size) => one(String(size))));
  const other = entry(words("add-socks"), { inputmode: "numeric", onchange: () => add() }, "mm");
  return h("div", {}, h("h3", {}, words("socks")), list, other.element);

  function add() {
    const size = other.input.value.trim();
    if (/^\d+$/.test(size)) {
      list.append(one(size));
      other.input.value = "";
    }
  }

  /** @param {string} size */
  function one(size) {
    const field = new SavedField(page, `socks/${system.id}/${size}`);
    const count = entry(`${size} mm`, { inputmode: "numeric", value: field.body?.count ?? "", onchange: () => save() });
    const save = () => {
      if (count.input.value.trim()) {
        void field.save("visit.socks", { system: system.id, sizeMm: size, count: count.input.value.trim() });
      }
    };
    return h("div", {}, count.element, field.element);
  }
}

/**
 * @param {any} page
 * @param {any} system
 */
function doses(page, system) {
  const list = h("div", {});
  stored(page, "dose/", system).forEach((line) => list.append(one(line)));
  return h(
    "div",
    {},
    h("h3", {}, words("dose")),
    list,
    h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7())) }, words("dose-add"))),
  );

  /** @param {string} line */
  function one(line) {
    const mind = h("p", { class: "say" });
    const field = new SavedField(page, `dose/${line}`, { answered: (result) => (mind.textContent = result.args.words ?? ""), refused: (result) => prepare(result) });
    const product = entry(words("product"), { value: field.body?.product ?? "", onchange: () => save() });
    const amount = entry(words("amount"), { inputmode: "decimal", value: field.body?.amount ?? "", onchange: () => save() });
    const unit = choice(
      words("unit"),
      ["mL", "g"].map((code) => ({ value: code, text: code })),
      field.body?.unit ?? "mL",
      () => save(),
    );
    const because = entry(words("dose-because"), { value: field.body?.because ?? "", onchange: () => save() });
    because.element.hidden = !field.body?.because;
    const save = async (prepared = false) => {
      if (product.input.value.trim() && amount.input.value.trim()) {
        const why = because.input.value.trim();
        await field.save("visit.dose", {
          system: system.id,
          line,
          product: product.input.value.trim(),
          amount: amount.input.value.trim(),
          unit: unit.select.value,
          ...(prepared ? { prepared } : {}),
          ...(why ? { because: why } : {}),
        });
        because.element.hidden = !why && field.problem.childElementCount === 0;
      }
    };
    /** A medicine goes in only where somebody says that the tank is ready for it. @param {any} result */
    const prepare = (result) => {
      mind.textContent = "";
      return result.code === "plans.dose.before-medicine" ? h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => void save(true) }, words("dose-prepared"))) : null;
    };
    return h("div", { class: "dose" }, h("div", { class: "columns-3" }, product.element, amount.element, unit.element), field.element, because.element, mind);
  }
}

/**
 * @param {any} page
 * @param {any} system
 */
function livestock(page, system) {
  const list = h("div", {});
  stored(page, "livestock/", system).forEach((line) => list.append(one(line)));
  return h(
    "div",
    {},
    list,
    h("p", { class: "fine" }, words("veterinarian")),
    h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7())) }, words("animals-add"))),
  );

  /** @param {string} line */
  function one(line) {
    const field = new SavedField(page, `livestock/${line}`);
    const body = field.body ?? {};
    const kinds = system.livestock.length > 0 ? ["SEEN", "LOST", "NEW"] : ["NEW"];
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
    const describe = () => {
      const fresh = change.select.value === "NEW";
      which.element.hidden = fresh;
      name.element.hidden = !fresh;
    };
    const save = () => {
      const fresh = change.select.value === "NEW";
      void field.save("visit.livestock", {
        system: system.id,
        line,
        change: change.select.value,
        count: count.input.value.trim(),
        ...(fresh ? { name: name.input.value.trim() } : { livestock: which.select.value }),
        ...(note.input.value.trim() ? { note: note.input.value.trim() } : {}),
      });
    };
    describe();
    return h(
      "div",
      {},
      h("div", { class: "columns-3" }, change.element, which.element, name.element, count.element, note.element),
      h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: save }, words("save"))),
      field.element,
    );
  }
}

/**
 * The lines of one kind that are stored for a system.
 *
 * @param {any} page
 * @param {string} prefix
 * @param {any} system
 * @returns {string[]}
 */
function stored(page, prefix, system) {
  return Object.entries(page.visit.fields)
    .filter(([key, field]) => key.startsWith(prefix) && /** @type {any} */ (field).body.system === system.id)
    .map(([key]) => key.slice(prefix.length));
}

/**
 * @param {any} page
 * @param {any[]} systems
 */
function photos(page, systems) {
  const list = h("ul", { class: "photos" });
  Object.keys(page.visit.fields)
    .filter((key) => key.startsWith("photo/"))
    .forEach((key) => list.append(one(key.slice("photo/".length), null)));
  const camera = h("input", { type: "file", accept: "image/jpeg,image/png", capture: "environment", class: "visually-hidden", onchange: () => taken() });
  const take = h("li", {}, h("label", { class: "photo-take" }, camera, words("photo-take")));
  list.append(take);
  return section("photos", words("photos"), "", list);

  function taken() {
    const file = camera.files?.[0];
    if (file) {
      take.before(one(uuid7(), file));
      camera.value = "";
    }
  }

  /**
   * @param {string} id
   * @param {File|null} file
   */
  function one(id, file) {
    const field = new SavedField(page, `photo/${id}`);
    const image = h("img", { alt: field.body?.caption ?? words("photos"), src: file ? URL.createObjectURL(file) : `/api/photos/${id}` });
    const caption = entry(words("photo-caption"), { value: field.body?.caption ?? "", onchange: () => save() });
    const system = systems.length === 1 ? { system: systems[0].id } : {};
    const save = () => void field.save("visit.photo", { photo: id, caption: caption.input.value.trim(), ...system });
    const upload = async () => {
      if (!file) {
        return;
      }
      field.line.textContent = words("photo-sending");
      const sent = await sendPhoto(id, file);
      if (sent.ok) {
        save();
        return;
      }
      field.line.textContent = words("unsaved");
      field.problem.replaceChildren(
        h("p", { class: "field-error" }, icon("needed"), h("span", {}, sent.words ?? words("failed"))),
        sent.retry ? h("button", { class: "button", type: "button", onclick: () => void upload() }, words("retry")) : null,
      );
    };
    void upload();
    return h("li", {}, h("figure", {}, image, h("figcaption", {}, caption.element)), field.element);
  }
}

/** @param {any} page */
function notes(page) {
  const list = h("div", {});
  Object.keys(page.visit.fields)
    .filter((key) => key.startsWith("note/"))
    .forEach((key) => list.append(one(key.slice("note/".length))));
  if (!list.hasChildNodes()) {
    list.append(one(uuid7()));
  }
  return section("notes", words("notes"), "", list, h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => list.append(one(uuid7())) }, words("note-add"))));

  /** @param {string} line */
  function one(line) {
    const field = new SavedField(page, `note/${line}`);
    const area = h("textarea", { rows: 3, "aria-label": words("note"), value: field.body?.text ?? "", onchange: () => void field.save("visit.note", { line, text: area.value.trim() }) });
    return h("div", { class: "field" }, h("div", { class: "entry" }, area), field.element);
  }
}

/** @param {any} page */
function departure(page) {
  const facts = h("p", {});
  const fields = LINES.map((line) => new SavedField(page, `departure/${line}`, { answered: () => count() }));
  count();
  return section("leaving", words("departure"), facts, h("ul", { class: "ticks ticks-departure" }, LINES.map((line, at) => one(line, fields[at]))));

  function count() {
    facts.textContent = words("answered", fields.filter((field) => field.body?.answer).length, LINES.length);
  }

  /**
   * @param {string} line
   * @param {SavedField} field
   */
  function one(line, field) {
    const why = entry(words("departure-why"), { value: field.body?.because ?? "", onchange: () => void save() });
    let answer = field.body?.answer ?? "";
    const describe = () => {
      why.element.hidden = answer !== "NO";
    };
    const save = async () => {
      describe();
      const because = why.input.value.trim();
      if (answer === "NO" && because === "") {
        why.input.focus();
        if (field.body?.answer) {
          // What was answered before holds no longer.
          await field.save("visit.departure", { line });
        }
        field.line.textContent = words("unsaved");
        return;
      }
      void field.save("visit.departure", { line, answer, ...(answer === "NO" ? { because } : {}) });
    };
    describe();
    const options = ["YES", "NO", "NOT_HERE"].map((code) => ({ value: code, text: words(`departure.${code}`) }));
    return h(
      "li",
      { "data-line": line },
      oneOf(words(`departure.${line}`), options, answer, (value) => {
        answer = value;
        void save();
      }),
      why.element,
      field.element,
    );
  }
}

/** @param {any} page */
function finish(page) {
  const signature = new SavedField(page, "signature");
  const name = entry(words("signed"), { value: signature.body?.name ?? "", onchange: () => signed() });
  const signed = () => {
    if (name.input.value.trim()) {
      void signature.save("visit.signature", { name: name.input.value.trim() });
    }
  };
  const problem = h("div", { role: "alert" });
  const button = h("button", { class: "button button-main button-large", type: "button", onclick: () => void close() }, words("finish-button"));
  const outcome = h("div", {});
  if (page.visit.finishedWords) {
    done(page.visit.finishedWords);
  } else {
    outcome.append(h("p", { class: "facts" }, words("finish-facts")), problem, h("div", { class: "actions" }, button));
  }
  return section("finish", words("finish"), "", name.element, signature.element, outcome);

  /** @param {string} at */
  function done(at) {
    text("finished", at);
    outcome.replaceChildren(
      h("p", { class: "say" }, words("finished", at)),
      h("div", { class: "actions" }, h("a", { class: "button button-strong", href: `/visits/${page.visit.id}/report` }, words("report"))),
    );
  }

  async function close() {
    button.disabled = true;
    const result = await enqueue("visit.finish", page.visit.id, {}, null, (trouble) => {
      if (trouble !== "saving") {
        problem.replaceChildren(h("p", { class: "field-error" }, words(trouble)), h("button", { class: "button", type: "button", onclick: () => void send() }, words("retry")));
      }
    });
    button.disabled = false;
    problem.replaceChildren();
    if (result.status === "applied") {
      done(new Date(result.args.at).toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit" }));
    } else {
      problem.replaceChildren(h("p", { class: "field-error" }, icon("needed"), h("span", {}, result.args.words ?? result.code)));
    }
  }
}
