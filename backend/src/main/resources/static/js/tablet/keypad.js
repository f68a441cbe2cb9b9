// @ts-check
/**
 * The keypad of the visit page: large keys for wet hands, with what the person needs to know of the value beside them. A
 * keyboard does the same: digits, Enter for the next reading, Escape to put the keypad away.
 */
import { h, icon } from "./fields.js";

/**
 * @typedef {{text: string, pressed: boolean, take: () => void}} Choice
 * @typedef {{
 *   element: HTMLElement, input: HTMLInputElement, upper: HTMLInputElement, name: string, last: string, target: string,
 *   scale: () => string, smallest: () => string, decimals: () => number, choices: () => Choice[], byEye: () => boolean, answer: () => string,
 *   answered: (answer: string, because?: string) => void, isOpen: () => boolean, saved: () => string, undo: () => void
 * }} Target a value that is asked for: where it is typed (upper is the higher one of two colours), what it was last time and
 *   should be, its scale, the smallest value that its method can show and how
 *   many decimals it has, what is chosen beside it, whether it is read by eye,
 *   its kind of answer, whether it is still to be taken, what was saved of it, and what takes that back
 */

/** What somebody chose on this device; without it a device that is touched has the keypad. */
const CHOSEN = "tankround-keypad";
const REASONS = ["no-kit", "no-time", "used-up", "unsure"];

export class Keypad {
  /** @param {{words: (key: string, ...args: any[]) => string, say: (text: string) => void}} page */
  constructor(page) {
    this.page = page;
    /** @type {Target[]} */
    this.targets = [];
    /** @type {Target | null} */
    this.target = null;
    /** The input that the keys write into. @type {HTMLInputElement | null} */
    this.into = null;
    /** Whether the next digit begins a new number. */
    this.fresh = false;
    /** Whether the keys wrote something that no field has been told of. */
    this.dirty = false;
    this.on = (localStorage.getItem(CHOSEN) ?? (matchMedia("(pointer: coarse)").matches ? "on" : "off")) === "on";
    /** @type {HTMLButtonElement[]} */
    this.switches = [];
    const { words } = page;
    const sign = (this.sign = new Intl.NumberFormat(document.documentElement.lang).formatToParts(1.5).find((part) => part.type === "decimal")?.value ?? ".");
    const key = (/** @type {string} */ text, /** @type {() => void} */ press, /** @type {Record<string, any>} */ more = {}) => h("button", { class: "button keypad-key", type: "button", onclick: press, ...more }, text);
    const digit = (/** @type {string} */ text) => key(text, () => this.type(text));
    this.title = h("h2");
    this.facts = h("dl", { class: "keypad-facts" });
    this.value = h("output", { class: "keypad-value" });
    this.choices = h("div", { class: "keypad-choices" });
    this.answers = h("div", { class: "keypad-choices" });
    this.done = h("p", { class: "fine keypad-done", role: "status" });
    this.next = key(words("pad.next"), () => this.forward(), { class: "button button-main keypad-next" });
    this.element = h(
      "section",
      { class: "keypad", hidden: true, "aria-label": words("pad.name") },
      h(
        "div",
        { class: "keypad-side" },
        h("div", { class: "keypad-head" }, this.title, h("button", { class: "button keypad-away", type: "button", onclick: () => this.away() }, words("pad.away"))),
        this.facts,
        this.choices,
        this.answers,
        this.done,
      ),
      h(
        "div",
        { class: "keypad-keys" },
        this.value,
        ["7", "8", "9", "4", "5", "6", "1", "2", "3"].map(digit),
        key(sign, () => this.type(sign), { "aria-label": words("pad.sign") }),
        digit("0"),
        key("⌫", () => this.erase(), { "aria-label": words("pad.erase") }),
        this.next,
      ),
    );
    // The input keeps the focus, so that a keyboard goes on where a finger was.
    this.element.addEventListener("pointerdown", (pressed) => {
      if (pressed.target instanceof Element && pressed.target.closest("button")) {
        pressed.preventDefault();
      }
    });
    this.element.addEventListener("mousedown", (pressed) => pressed.preventDefault());
    this.element.addEventListener("focusout", (left) => this.leave(left));
    this.element.addEventListener("keydown", (pressed) => {
      if (pressed.key === "Escape") {
        this.away();
      }
    });
    document.getElementById("bar")?.after(this.element);
  }

  /** A value that the keypad may write. @param {Target} target */
  serve(target) {
    this.targets.push(target);
    for (const input of [target.input, target.upper]) {
      input.addEventListener("focus", () => this.on && this.open(target, input));
      input.addEventListener("focusout", (left) => this.leave(left));
      input.addEventListener("input", (typed) => {
        // What a keyboard writes the browser tells of by itself.
        this.dirty &&= !typed.isTrusted;
        this.describe();
      });
      input.addEventListener("keydown", (pressed) => {
        if (pressed.key === "Enter") {
          pressed.preventDefault();
          this.target = target;
          this.into = input;
          this.forward();
        } else if (pressed.key === "Escape") {
          this.away();
        }
      });
    }
    this.shape(target);
  }

  /** What turns the keypad on and off. */
  switch() {
    const button = h("button", { class: "link-button", type: "button", onclick: () => this.turn(!this.on) });
    this.switches.push(button);
    this.label();
    return button;
  }

  /** @param {boolean} on */
  turn(on) {
    this.on = on;
    localStorage.setItem(CHOSEN, on ? "on" : "off");
    this.label();
    this.targets.forEach((each) => this.shape(each));
    if (!on) {
      this.away();
    } else {
      const first = this.ordered().find((each) => each.isOpen()) ?? this.ordered()[0];
      first?.input.focus();
    }
  }

  label() {
    this.switches.forEach((each) => {
      each.textContent = this.page.words(this.on ? "pad.off" : "pad.on");
    });
  }

  /** A device brings up no keyboard of its own beside the keypad. @param {Target} target */
  shape(target) {
    for (const input of [target.input, target.upper]) {
      input.setAttribute("inputmode", this.on ? "none" : "decimal");
    }
  }

  /**
   * @param {Target} target
   * @param {HTMLInputElement} input
   */
  open(target, input) {
    const moved = this.target !== target || this.element.hidden;
    this.target = target;
    this.into = input;
    this.fresh = input.value !== "";
    this.element.hidden = false;
    this.describe();
    if (moved) {
      target.element.scrollIntoView({ block: "center" });
    }
  }

  /** @param {FocusEvent} left */
  leave(left) {
    if (left.target === this.into) {
      this.tell();
    }
    const to = left.relatedTarget;
    const stays = to instanceof Node && (this.element.contains(to) || this.targets.some((each) => each.input === to || each.upper === to));
    if (!stays) {
      this.hide();
    }
  }

  /** Says to the field what the keys wrote into it. */
  tell() {
    if (this.dirty) {
      this.dirty = false;
      this.into?.dispatchEvent(new Event("change", { bubbles: true }));
    }
  }

  hide() {
    this.element.hidden = true;
    this.done.replaceChildren();
    document.documentElement.style.removeProperty("--keypad");
  }

  /** Puts the keypad away; what was typed is saved as by leaving the field. */
  away() {
    this.into?.blur();
    this.hide();
  }

  /** @param {string} text */
  type(text) {
    if (this.into) {
      this.write((this.fresh ? "" : this.into.value) + text);
    }
  }

  erase() {
    if (this.into) {
      this.write(this.into.value.slice(0, -1));
    }
  }

  /** @param {string} text */
  write(text) {
    const into = /** @type {HTMLInputElement} */ (this.into);
    this.fresh = false;
    this.dirty = true;
    into.value = text;
    into.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** Saves what stands there and goes on to the next reading that is still to be taken. */
  forward() {
    const target = this.target;
    if (target === null) {
      return;
    }
    if (target.answer() === "BETWEEN" && this.into === target.input && target.upper.value === "") {
      target.upper.focus();
      return;
    }
    this.tell();
    const order = this.ordered();
    const next = order.slice(order.indexOf(target) + 1).find((each) => each.isOpen());
    if (next) {
      next.input.focus();
      this.tellDone(target);
      return;
    }
    const part = target.element.closest("section")?.nextElementSibling;
    this.away();
    part?.scrollIntoView({ block: "start" });
  }

  ordered() {
    return this.targets.filter((each) => each.element.isConnected).sort((one, other) => (one.element.compareDocumentPosition(other.element) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1));
  }

  /** What was saved last can be taken back at once. @param {Target} target */
  tellDone(target) {
    const saved = target.saved();
    const undo = () => {
      this.done.replaceChildren();
      target.undo();
      target.input.focus();
    };
    this.done.replaceChildren(...(saved === "" ? [] : [h("span", {}, `${target.name}: ${saved}`), " ", h("button", { class: "link-button", type: "button", onclick: undo }, this.page.words("pad.undo"))]));
  }

  describe() {
    const target = this.target;
    if (target === null || this.element.hidden) {
      return;
    }
    const { words } = this.page;
    const fact = (/** @type {string} */ key, /** @type {string} */ value) => (value === "" ? null : h("div", {}, h("dt", {}, words(key)), h("dd", {}, value)));
    this.title.textContent = target.name;
    this.facts.replaceChildren(...[fact("pad.last", target.last), fact("pad.target", target.target)].filter((each) => each !== null));
    this.choices.replaceChildren(...target.choices().map((each) => this.toggle(each)));
    this.answers.replaceChildren(...this.kinds(target).map((each) => this.toggle(each)));
    const [low, high] = [target.input.value, target.upper.value];
    const shown = { BELOW_DETECTION: words("pad.value.below", low), ABOVE_RANGE: words("pad.value.above", low), BETWEEN: words("pad.value.between", low, high), NOT_MEASURED: words("pad.value.not") };
    const places = target.decimals();
    const text = shown[/** @type {keyof shown} */ (target.answer())] ?? (low || `–${places > 0 ? this.sign + "–".repeat(places) : ""}`);
    this.value.replaceChildren(h("span", {}, text), " ", h("span", { class: "unit" }, target.scale()));
    document.documentElement.style.setProperty("--keypad", `${this.element.offsetHeight}px`);
  }

  /** What may be answered instead of a number. @param {Target} target @returns {Choice[]} */
  kinds(target) {
    const { words } = this.page;
    const kind = (/** @type {string} */ code, /** @type {string} */ key) => ({
      text: words(key),
      pressed: target.answer() === code,
      take: () => {
        const back = target.answer() === code;
        this.dirty = true;
        target.answered(back ? "VALUE" : code);
        if (!back && code === "BELOW_DETECTION" && target.input.value === "") {
          target.input.value = target.smallest();
          this.fresh = true;
        }
        (code === "BETWEEN" && !back && target.input.value !== "" ? target.upper : target.input).focus();
        this.describe();
      },
    });
    const reason = (/** @type {string} */ code) => ({
      text: words(`pad.${code}`),
      pressed: false,
      take: () => {
        target.answered("NOT_MEASURED", words(`pad.${code}`));
        this.forward();
      },
    });
    const not = target.answer() === "NOT_MEASURED";
    return [
      kind("BELOW_DETECTION", "pad.below"),
      kind("ABOVE_RANGE", "pad.above"),
      ...(target.byEye() ? [kind("BETWEEN", "pad.between")] : []),
      kind("NOT_MEASURED", "pad.not"),
      ...(not ? REASONS.map(reason) : []),
    ];
  }

  /** @param {Choice} choice */
  toggle({ text, pressed, take }) {
    const press = () => {
      take();
      this.describe();
    };
    return h("button", { class: "button keypad-choice", type: "button", "aria-pressed": String(pressed), onclick: press }, pressed ? icon("done") : null, text);
  }
}
