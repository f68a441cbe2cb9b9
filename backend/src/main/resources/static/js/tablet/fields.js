// @ts-check
import { noRoom } from "./file.js";
import { uuid7 } from "./ids.js";
import { awaited, enqueue } from "./store.js";

const ID = /^[0-9a-f]{8}-[0-9a-f-]{27}$/;

const SVG = "http://www.w3.org/2000/svg";
const RESTORED = new Set(["input", "select", "textarea"]);
let made = 0;

/**
 * @typedef {{photo?: import("./kept.js").Photo, open?: {kind: string, body: any}}} More
 *   the photo that an entry speaks of, and what is to follow it in its field and is not complete
 * @typedef {{visit: any, words: (key: string, ...args: any[]) => string, say: (text: string) => void,
 *   keypad: import("./keypad.js").Keypad, unsigned: () => void, drafts: import("./drafts.js").Drafts, unsaved: Map<string, string>, told: () => void}} Page
 */

/**
 * An element with attributes, listeners (on…) and children; absent children are left out.
 *
 * @param {string} name
 * @param {Record<string, any>} [attributes]
 * @param {...any} children
 * @returns {any}
 */
export function h(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  if (RESTORED.has(name)) {
    // A browser that puts back what stood in a page before it was loaded again may put it into another field.
    element.setAttribute("autocomplete", "off");
  }
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) {
      continue;
    }
    if (key.startsWith("on")) {
      element.addEventListener(key.slice(2), value);
    } else if (key === "value" || key === "checked") {
      /** @type {any} */ (element)[key] = value;
    } else {
      element.setAttribute(key, value === true ? "" : String(value));
    }
  }
  element.append(...children.flat().filter((child) => child !== undefined && child !== null && child !== false));
  return element;
}

export function newId() {
  return `v-${++made}`;
}

/**
 * @param {string} name
 * @param {Record<string, string>} attributes
 */
export function shape(name, attributes) {
  const element = document.createElementNS(SVG, name);
  Object.entries(attributes).forEach(([key, value]) => element.setAttribute(key, value));
  return element;
}

/** @param {string} name */
export function icon(name) {
  const svg = shape("svg", { class: "icon", "aria-hidden": "true", focusable: "false" });
  svg.append(shape("use", { href: `/img/marks.svg#${name}` }));
  return svg;
}

/** The drawn verdict, from the shapes that the server worked out. @param {any} mark */
function drawn(mark) {
  const svg = shape("svg", { class: "mark", viewBox: "0 0 132 28", "aria-hidden": "true", focusable: "false" });
  const path = (/** @type {string} */ kind, /** @type {string|undefined} */ d) => d && svg.append(shape("path", { class: kind, d }));
  path("mk-in", mark.band);
  path("mk-base", "M2 14H130");
  mark.limits.forEach((/** @type {string} */ limit) => path("mk-lim", limit));
  path("mk-prev", mark.previous);
  path("mk-bar mk-dash", mark.dashes);
  path(mark.signal ? "mk-bar mk-bar-out" : "mk-bar", mark.bar);
  path(mark.signal ? "mk-out" : "mk-dot", mark.diamond);
  const circle = (/** @type {string} */ kind, /** @type {string|undefined} */ cx) => cx && svg.append(shape("circle", { class: kind, cx, cy: "14", r: "5" }));
  circle("mk-dot", mark.dot);
  circle("mk-ring", mark.ring);
  path("mk-half", mark.half);
  path("mk-slash", mark.slash);
  return svg;
}

/** Mark, word and target of a verdict. @param {any} answer */
export function verdict(answer) {
  const { words, mark } = answer;
  const sign = mark ?? answer.sign;
  const word = sign?.icon
    ? h("span", { class: `state state-strong${sign.signal ? " state-signal" : ""}` }, icon(sign.icon), h("span", {}, words.word))
    : h("strong", {}, words.word);
  const note = answer.trusted ? words.target : words.corrected;
  return [mark ? drawn(mark) : null, h("span", { class: "verdict-word" }, word, " ", note ? h("span", { class: "fine" }, note) : null)];
}

/** What is entered or changed after the visit only with a reason, as at the server. */
const CORRECTED_WITH_A_REASON = new Set(["reading", "top-up", "water-change", "socks", "dose", "task", "film", "feeding", "note", "livestock", "departure", "handed-over"].map((kind) => `visit.${kind}`));

/**
 * One field of the visit: sends each change as an entry, and shows what became of it. "Saved" stands there only after
 * the server said so; what could not be sent or was refused stays in the field, also when the page is loaded again.
 */
export class SavedField {
  /**
   * @param {Page} page
   * @param {string} key of the field in the visit
   * @param {string} name what the person calls it
   * @param {{answered?: (result: any, body: any) => void, refused?: (result: any) => Node | null, reload?: () => void,
   *   conflicted?: (result: any) => void, resumed?: () => void, changed?: () => void, waiting?: (step: import("./store.js").Progress, item?: import("./kept.js").Item) => void,
   *   asked?: (body: any) => any, parts?: () => Record<string, {label: string, input: HTMLElement}>}} [options]
   *   asked is what the server would ask back of it; parts are the inputs by the names that the body has for them
   */
  constructor(page, key, name, options = {}) {
    this.page = page;
    this.key = key;
    this.name = name;
    this.options = options;
    const stored = page.visit.fields[key];
    /** What is saved; null where nothing is. */
    this.body = stored ? stored.body : null;
    const draft = page.drafts.of(key);
    /** What the inputs begin with: what was entered and not saved, else what is saved. */
    this.shown = draft ? draft.body : this.body;
    this.conflicts = stored ? stored.conflicts : [];
    /** The entry that was kept on this device and may not have arrived. @type {string | null} */
    this.entry = stored?.item?.entry.id ?? null;
    /** @type {{kind: string, body: any, more: More} | null} */
    this.next = null;
    this.busy = false;
    /** The entry that was kept last; what is answered to one before it is not shown. @type {object | null} */
    this.latest = null;
    this.line = h("p", { class: "fine" });
    this.problem = h("div", { role: "alert" });
    this.problemId = newId();
    this.problem.id = this.problemId;
    this.reason = h("p", { class: "fine" });
    this.element = h("div", { class: "reading-more", "data-field": key }, this.line, this.reason, this.problem);
    this.tellReason();
    if (this.body !== null) {
      this.line.textContent = page.words(stored.item ? "kept" : "saved");
    }
    this.conflicts.forEach((/** @type {any} */ conflict) => this.showConflict(conflict.body, conflict.by, conflict.at, stored.kind));
    // Once the inputs around this field stand.
    queueMicrotask(() => {
      if (stored?.item) {
        void this.awaitAnswer(stored.kind, stored.body, stored.item.entry.base, awaited(stored.item, (step) => this.showProgress(step)));
      }
      if (draft) {
        this.resume(draft);
      }
    });
  }

  /** Goes on where the page was left. @param {import("./drafts.js").Draft} draft */
  resume(draft) {
    const asked = draft.open ? (this.options.asked?.(draft.body) ?? null) : null;
    if (asked !== null) {
      this.showRefusal(asked);
    } else if (draft.open && this.options.resumed) {
      this.options.resumed();
    } else if (draft.open && this.corrects(draft.kind, draft.body)) {
      this.askWhy(draft.kind, draft.body);
    } else if (!draft.open) {
      this.showRefusal(draft.refusal);
    }
  }

  /**
   * @param {string} kind
   * @param {any} body
   * @param {More} [more]
   */
  async save(kind, body, more = {}) {
    const asked = this.options.asked?.(body) ?? null;
    if (asked !== null) {
      this.refuse(kind, body, asked);
      return;
    }
    this.mark(true);
    if (this.corrects(kind, body)) {
      await this.page.drafts.pend(this.key, { kind, body, base: this.body });
      this.askWhy(kind, body);
      return;
    }
    if (this.busy) {
      this.next = { kind, body, more };
      return;
    }
    this.busy = true;
    const base = this.body;
    const open = more.open && { ...more.open, base: body };
    const id = uuid7();
    /** @type {Promise<import("./store.js").Result>} */
    let result;
    const kept = await new Promise((decided) => {
      result = enqueue(
        kind,
        this.page.visit.id,
        body,
        base,
        (step, item) => {
          this.showProgress(step, item);
          if (step === "kept" || step === "full") {
            decided(step === "kept");
          }
        },
        { key: this.key, name: this.name, photo: more.photo, open, id },
      );
    });
    this.busy = false;
    if (kept) {
      this.body = body;
      this.entry = id;
      this.page.visit.fields[this.key] = { body, kind, entry: id, conflicts: [] };
      this.tellReason();
      if (open) {
        this.page.drafts.opened(this.key, open);
        this.line.textContent = this.page.words("unsaved");
      } else {
        void this.page.drafts.drop(this.key);
        this.mark(false);
      }
      if (this.key !== "signature") {
        // Whoever signed has not seen this.
        this.page.unsigned();
      }
      this.options.changed?.();
      // @ts-ignore assigned before the decision
      void this.awaitAnswer(kind, body, base, result);
    }
    if (this.next !== null) {
      const { kind: nextKind, body: nextBody, more: nextMore } = this.next;
      this.next = null;
      void this.save(nextKind, nextBody, nextMore);
    }
  }

  /**
   * @param {string} kind
   * @param {any} body
   * @param {any} base
   * @param {Promise<import("./store.js").Result>} answer
   */
  async awaitAnswer(kind, body, base, answer) {
    const mine = {};
    this.latest = mine;
    const result = await answer;
    if (this.latest !== mine) {
      return;
    }
    const since = this.page.drafts.of(this.key);
    if (since === null) {
      this.problem.replaceChildren();
      this.blame(null);
    }
    if (result.status === "applied" || result.status === "waiting") {
      // Something else may have been entered here meanwhile, and says for itself how far it is.
      if (since === null) {
        this.line.textContent = this.page.words("saved");
      }
      this.options.answered?.(result, body);
    } else if (result.status === "conflict") {
      this.line.textContent = this.page.words("unsaved");
      this.entry = null;
      this.body = result.args.theirs ?? null;
      this.options.changed?.();
      this.showConflict(body, result.args.by ?? "", "", kind);
      this.options.conflicted?.(result);
    } else {
      // Nothing was changed: what stood before stands.
      this.entry = null;
      this.body = base;
      if (base === null) {
        delete this.page.visit.fields[this.key];
      } else {
        this.page.visit.fields[this.key] = { body: base, kind, conflicts: [] };
      }
      this.options.changed?.();
      this.tellReason();
      this.page.drafts.refused(this.key, { kind, body, base, refusal: result });
      this.showRefusal(result);
    }
  }

  /**
   * Whether this changes or adds to what stood when the visit was finished, and does not say why.
   *
   * @param {string} kind
   * @param {any} body
   */
  corrects(kind, body) {
    return Boolean(this.page.visit.finishedWords) && !body.corrected && CORRECTED_WITH_A_REASON.has(kind) && JSON.stringify(body) !== JSON.stringify(this.body);
  }

  /** Saved once a reason is given; until then what was entered is kept as it is. @param {string} kind @param {any} body */
  askWhy(kind, body) {
    const { words } = this.page;
    this.line.textContent = words("unsaved");
    const why = entry(words("corrected.because"), { maxlength: 500 });
    const save = (/** @type {string} */ corrected) => {
      if (corrected === "") {
        why.input.setAttribute("aria-invalid", "true");
        why.input.focus();
        return;
      }
      this.problem.replaceChildren();
      void this.save(kind, { ...body, corrected });
    };
    const known = (/** @type {string} */ key) => h("button", { class: "button", type: "button", onclick: () => save(words(key)) }, words(key));
    this.problem.replaceChildren(
      h("p", { class: "say" }, words("corrected.ask")),
      h("div", { class: "actions" }, known("corrected.mistyped"), known("corrected.forgotten")),
      why.element,
      h("div", { class: "actions" }, h("button", { class: "button button-strong", type: "button", onclick: () => save(why.input.value.trim()) }, words("corrected.save")), this.forgetting()),
    );
    this.page.say(words("corrected.ask"));
  }

  /** Why it was changed after the visit stands beside what stands there now. */
  tellReason() {
    this.reason.textContent = this.body?.corrected ? this.page.words("corrected.said", this.body.corrected) : "";
  }

  /** What was entered is not to be saved as it stands: something is still asked. @param {any} body @param {string} kind */
  async pend(kind, body) {
    const stored = this.page.drafts.pend(this.key, { kind, body, base: this.body });
    this.mark(true);
    await stored;
    if (this.page.drafts.of(this.key)?.open) {
      this.line.textContent = this.page.words("unsaved");
    }
  }

  /** What cannot be is asked back before it is an entry; what was typed stays. @param {string} kind @param {any} body @param {any} refusal */
  refuse(kind, body, refusal) {
    void this.page.drafts.pend(this.key, { kind, body, base: this.body });
    this.showRefusal(refusal);
  }

  /** What was asked back is answered. */
  allowed() {
    this.problem.replaceChildren();
    this.blame(null);
  }

  /** The inputs say again what is saved. */
  discard() {
    void this.page.drafts.drop(this.key);
    this.problem.replaceChildren();
    this.blame(null);
    this.line.textContent = this.body === null ? "" : this.page.words("saved");
    this.mark(false);
  }

  /**
   * An emptied input: what nothing is saved of is forgotten, what is saved comes back and stays.
   *
   * @param {HTMLInputElement} input
   * @param {string} part of the body that it shows
   */
  emptied(input, part) {
    this.discard();
    if (this.body !== null) {
      input.value = this.body[part] ?? "";
      this.problem.replaceChildren(h("p", { class: "fine" }, this.page.words("emptied", input.value)));
      this.page.say(this.page.words("emptied", input.value));
    }
  }

  /** @param {boolean} unsaved */
  mark(unsaved) {
    if (unsaved) {
      this.page.unsaved.set(this.key, this.name);
    } else {
      this.page.unsaved.delete(this.key);
    }
    this.page.told();
  }

  /** @param {{code: string, args: any}} result */
  showRefusal(result) {
    this.line.textContent = this.page.words("unsaved");
    this.mark(true);
    const part = this.options.parts?.()[result.args.field];
    this.blame(part?.input ?? null);
    const said = result.args.words ?? result.code;
    const message = part?.label ? `${part.label}: ${said}` : said;
    this.problem.replaceChildren(h("p", { class: "field-error" }, icon("needed"), h("span", {}, message)));
    const offered = this.options.refused?.(result);
    if (offered) {
      this.problem.append(offered);
    }
    this.problem.append(h("div", { class: "actions" }, this.forgetting()));
    this.page.say(message);
  }

  /** What gives up what was entered: the page is built anew from what is saved. */
  forgetting() {
    const forget = async () => {
      await this.page.drafts.drop(this.key);
      location.reload();
    };
    return h("button", { class: "link-button", type: "button", onclick: () => void forget() }, this.page.words("discard"));
  }

  /** Marks the input that was refused, and no other. @param {HTMLElement | null} input */
  blame(input) {
    for (const part of Object.values(this.options.parts?.() ?? {})) {
      part.input.removeAttribute("aria-invalid");
    }
    if (input) {
      input.setAttribute("aria-invalid", "true");
      const described = input.getAttribute("aria-describedby") ?? "";
      if (!described.includes(this.problemId)) {
        input.setAttribute("aria-describedby", `${described} ${this.problemId}`.trim());
      }
      const closed = input.closest("details");
      if (closed) {
        closed.open = true;
      }
    }
  }

  /**
   * How far an entry is on its way to the server.
   *
   * @param {import("./store.js").Progress} step
   * @param {import("./kept.js").Item} [item]
   */
  showProgress(step, item) {
    const { words } = this.page;
    this.options.waiting?.(step, item);
    if (step === "saving") {
      this.line.textContent = words("saving");
      this.problem.replaceChildren();
      this.blame(null);
    } else if (step === "full") {
      this.line.textContent = words("unsaved");
      this.problem.replaceChildren(h("p", { class: "field-error" }, icon("needed"), h("span", {}, words("full"))), ...noRoom(words));
      this.page.say(words("full"));
    } else if (this.page.drafts.of(this.key) === null) {
      this.line.textContent = words("kept");
    }
  }

  /**
   * @param {any} other
   * @param {string} by
   * @param {string} at
   * @param {string} kind
   */
  showConflict(other, by, at, kind) {
    const { words } = this.page;
    const settle = (/** @type {any} */ body) => {
      this.problem.replaceChildren();
      this.options.reload?.();
      void this.save(kind, body);
    };
    this.problem.append(
      h(
        "section",
        { class: "notice" },
        h("p", { class: "say" }, words("conflict", by, at)),
        h(
          "dl",
          { class: "strip" },
          h("div", {}, h("dt", {}, words("stored")), h("dd", {}, readable(this.page, this.body))),
          h("div", {}, h("dt", {}, words("other")), h("dd", {}, readable(this.page, other))),
        ),
        h(
          "div",
          { class: "actions" },
          h("button", { class: "button button-strong", type: "button", onclick: () => settle(this.body) }, words("conflict.theirs")),
          h("button", { class: "button", type: "button", onclick: () => settle(other) }, words("conflict.mine")),
        ),
      ),
    );
  }
}

/**
 * What an entry says as a person would: without ids and the names of things that stand beside it, with its unit after a value.
 *
 * @param {any} page
 * @param {any} body
 */
function readable(page, body) {
  const unit = page.unitSymbols[body?.unit] ?? body?.unit;
  return Object.entries(body ?? {})
    .filter(([name, value]) => value !== null && value !== "" && value !== "VALUE" && !["quantity", "line", "system", "unit"].includes(name))
    .map(([name, value]) => {
      const text = String(value);
      if (name === "value" && unit) {
        return `${text} ${unit}`;
      }
      // A note stays as it was typed.
      const code = name !== "text" && /^[A-Z][A-Z_]+$/.test(text) ? text.toLowerCase().replaceAll("_", " ") : text;
      return ID.test(text) ? (page.instruments.find((/** @type {any} */ each) => each.id === text)?.code ?? "") : code;
    })
    .filter((text) => text !== "")
    .join(", ");
}

/**
 * A labelled input in a frame with its unit.
 *
 * @param {string} label
 * @param {Record<string, any>} attributes
 * @param {string} [unit]
 */
export function entry(label, attributes, unit) {
  const id = newId();
  const number = attributes.inputmode === "decimal" || attributes.inputmode === "numeric";
  const input = h("input", { type: "text", id, ...attributes });
  const element = h(
    "div",
    { class: "field" },
    h("label", { for: id }, label),
    h("div", { class: number ? "entry entry-number" : "entry" }, input, unit ? h("span", { class: "unit" }, unit) : null),
  );
  return { element, input, label };
}

/**
 * A labelled choice.
 *
 * @param {string} label
 * @param {{value: string, text: string}[]} options
 * @param {string} value
 * @param {() => void} changed
 */
export function choice(label, options, value, changed) {
  const id = newId();
  const select = h(
    "select",
    { id, onchange: changed },
    options.map((option) => h("option", { value: option.value }, option.text)),
  );
  select.value = value;
  const element = h("div", { class: "field" }, h("label", { for: id }, label), h("div", { class: "entry" }, select));
  return { element, select, input: select, label };
}

/**
 * A group of which one is chosen.
 *
 * @param {string} legend
 * @param {{value: string, text: string}[]} options
 * @param {string} value
 * @param {(value: string) => void} changed
 */
export function oneOf(legend, options, value, changed) {
  const name = newId();
  return h(
    "div",
    { role: "radiogroup", "aria-labelledby": name },
    h("p", { id: name }, h("strong", {}, legend)),
    h(
      "div",
      { class: "columns-3" },
      options.map((option) =>
        h(
          "label",
          { class: "tick" },
          h("input", { type: "radio", name: `${name}-choice`, value: option.value, checked: option.value === value, onchange: () => changed(option.value) }),
          h("span", {}, option.text),
        ),
      ),
    ),
  );
}

/**
 * Takes over what was likely meant where a value is asked back: another unit for the digits as they were written, or the
 * value with its point moved.
 *
 * @param {Page} page
 * @param {any} result
 * @param {{code: string, symbol: string}[]} units that the value may be in
 * @param {(meant: {field: string, unit: string, value: string | null}) => void} take value is null where the digits stay
 * @returns {HTMLElement | null}
 */
export function meant(page, result, units, take) {
  if (result.code !== "units.value-implausible-likely") {
    return null;
  }
  const [typed, , , symbol, value, meantSymbol] = result.args.args;
  const unit = units.find((each) => each.symbol === meantSymbol);
  if (!unit) {
    return null;
  }
  const chosen = { field: result.args.field, unit: unit.code, value: symbol === meantSymbol ? value : null };
  return h(
    "div",
    { class: "actions" },
    h("button", { class: "button button-strong", type: "button", onclick: () => take(chosen) }, page.words("meant", chosen.value ?? typed, unit.symbol)),
  );
}

/**
 * A number as this person types it.
 *
 * @param {number} value
 * @param {number} [digits] at most, after the decimal sign
 */
export function written(value, digits = 10) {
  return new Intl.NumberFormat(document.documentElement.lang, { useGrouping: false, maximumFractionDigits: digits }).format(value);
}

/**
 * Why something is not done: one tap on a reason, or words of one's own.
 *
 * @param {Page} page
 * @param {string} label
 * @param {string[]} keys of the reasons
 * @param {string} value
 * @param {(because: string) => void} said
 */
export function reasons(page, label, keys, value, said) {
  const own = entry(label, { value, onchange: () => said(own.input.value.trim()) });
  const take = (/** @type {string} */ because) => {
    own.input.value = because;
    said(because);
  };
  const buttons = keys.map((key) => h("button", { class: "button", type: "button", onclick: () => take(page.words(key)) }, page.words(key)));
  return { element: h("div", {}, h("div", { class: "actions" }, buttons), own.element), input: own.input };
}
