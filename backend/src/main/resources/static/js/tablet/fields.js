// @ts-check
import { enqueue, send } from "./store.js";

const SVG = "http://www.w3.org/2000/svg";
let made = 0;

/** @typedef {{visit: any, words: (key: string, ...args: any[]) => string, say: (text: string) => void}} Page */

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
function shape(name, attributes) {
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
  const word = mark?.icon
    ? h("span", { class: `state state-strong${mark.signal ? " state-signal" : ""}` }, icon(mark.icon), h("span", {}, words.word))
    : h("strong", {}, words.word);
  const note = answer.trusted ? words.target : words.corrected;
  return [mark ? drawn(mark) : null, h("span", { class: "verdict-word" }, word, " ", note ? h("span", { class: "fine" }, note) : null)];
}

/**
 * One field of the visit: sends each change as an entry, and shows what became of it. "Saved" stands there only after
 * the server said so; what could not be sent or was refused stays in the field.
 */
export class SavedField {
  /**
   * @param {Page} page
   * @param {string} key of the field in the visit
   * @param {{answered?: (result: any, body: any) => void, refused?: (result: any) => Node | null, reload?: () => void}} [options]
   */
  constructor(page, key, options = {}) {
    this.page = page;
    this.key = key;
    this.options = options;
    const stored = page.visit.fields[key];
    this.body = stored ? stored.body : null;
    this.conflicts = stored ? stored.conflicts : [];
    /** @type {{kind: string, body: any} | null} */
    this.next = null;
    this.busy = false;
    this.line = h("p", { class: "fine" });
    this.problem = h("div", { role: "alert" });
    this.problemId = newId();
    this.problem.id = this.problemId;
    this.element = h("div", { class: "reading-more" }, this.line, this.problem);
    if (this.body !== null) {
      this.line.textContent = page.words("saved");
    }
    this.conflicts.forEach((/** @type {any} */ conflict) => this.showConflict(conflict.body, conflict.by, conflict.at, stored.kind));
  }

  /**
   * @param {string} kind
   * @param {any} body
   */
  async save(kind, body) {
    if (this.busy) {
      this.next = { kind, body };
      return;
    }
    this.busy = true;
    const { words } = this.page;
    const result = await enqueue(kind, this.page.visit.id, body, this.body, (trouble) => this.showTrouble(trouble));
    this.busy = false;
    this.problem.replaceChildren();
    if (result.status === "applied" || result.status === "waiting") {
      this.body = body;
      this.page.visit.fields[this.key] = { body, kind, conflicts: [] };
      this.line.textContent = words("saved");
      this.options.answered?.(result, body);
    } else if (result.status === "conflict") {
      this.line.textContent = words("unsaved");
      const mine = body;
      this.body = result.args.theirs ?? null;
      this.showConflict(mine, result.args.by ?? "", "", kind);
    } else {
      this.line.textContent = words("unsaved");
      const message = result.args.words ?? result.code;
      this.problem.replaceChildren(h("p", { class: "field-error" }, icon("needed"), h("span", {}, message)));
      const offered = this.options.refused?.(result);
      if (offered) {
        this.problem.append(offered);
      }
      this.page.say(message);
    }
    if (this.next !== null) {
      const { kind: nextKind, body: nextBody } = this.next;
      this.next = null;
      void this.save(nextKind, nextBody);
    }
  }

  /** @param {string} trouble */
  showTrouble(trouble) {
    const { words } = this.page;
    this.line.textContent = trouble === "saving" ? words("saving") : words("unsaved");
    if (trouble !== "saving") {
      this.problem.replaceChildren(
        h("p", { class: "field-error" }, icon("needed"), h("span", {}, words(trouble))),
        h("div", { class: "actions" }, h("button", { class: "button", type: "button", onclick: () => void send() }, words("retry"))),
      );
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
          h("div", {}, h("dt", {}, words("stored")), h("dd", {}, readable(this.body))),
          h("div", {}, h("dt", {}, words("other")), h("dd", {}, readable(other))),
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

/** What a field says, without the ids in it. @param {any} body */
function readable(body) {
  const isId = (/** @type {any} */ value) => /^[0-9a-f]{8}-[0-9a-f-]{27}$/.test(String(value));
  return Object.entries(body ?? {})
    .filter(([, value]) => value !== null && value !== "" && !isId(value))
    .map(([, value]) => String(value))
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
  const input = h("input", { type: "text", autocomplete: "off", id, ...attributes });
  const element = h(
    "div",
    { class: "field" },
    h("label", { for: id }, label),
    h("div", { class: number ? "entry entry-number" : "entry" }, input, unit ? h("span", { class: "unit" }, unit) : null),
  );
  return { element, input };
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
  return { element, select };
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
