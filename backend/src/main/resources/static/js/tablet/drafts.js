// @ts-check
/**
 * What a person entered at a visit on this device, as far as the server has not taken it: what waits to be sent, what was
 * refused, and what is half typed. Loading the page again shows each as what it is.
 */
import * as kept from "./kept.js";

/**
 * @typedef {{kind: string, body: any, base: any, open: boolean, refusal: any, sequence: number | null}} Draft
 *   open: something is still asked before it can be kept as an entry; sequence of the entry that was refused
 */

export class Drafts {
  /**
   * @param {string} visit
   * @param {string} person who enters; on a shared device another person's are left alone
   */
  constructor(visit, person) {
    this.visit = visit;
    this.person = person;
    /** @type {Record<string, Draft>} */
    this.all = {};
    /** What was typed into an input and not left it yet, by field and part. @type {Map<string, string>} */
    this.typed = new Map();
  }

  /**
   * @param {string} visit
   * @param {string} person
   */
  static async load(visit, person) {
    const drafts = new Drafts(visit, person);
    const items = (await kept.about(visit)).filter((item) => item.person === person && item.key !== null);
    for (const item of items) {
      const key = /** @type {string} */ (item.key);
      const refused = item.state === "answered" && item.result.status === "refused" && !item.result.dismissed;
      if (refused) {
        drafts.all[key] = { kind: item.entry.kind, body: item.entry.body, base: item.entry.base, open: false, refusal: item.result, sequence: item.sequence };
      } else {
        delete drafts.all[key];
      }
    }
    for (const { field, part, value } of await kept.typed(person, visit)) {
      if (part === "") {
        drafts.all[field] = { ...value, open: true, refusal: null, sequence: null };
      } else {
        drafts.typed.set(`${field}\n${part}`, value);
      }
    }
    return drafts;
  }

  /** @param {string} key of a field @returns {Draft | null} */
  of(key) {
    return this.all[key] ?? null;
  }

  /** The keys of fields that begin so. @param {string} prefix */
  keys(prefix) {
    return Object.keys(this.all).filter((key) => key.startsWith(prefix));
  }

  /**
   * Something is asked before this can be an entry.
   *
   * @param {string} key
   * @param {{kind: string, body: any, base: any}} draft
   * @returns {Promise<void>} once the device has it
   */
  pend(key, draft) {
    this.opened(key, draft);
    return this.keepTyped(key, "", draft);
  }

  /**
   * The same, where the device has it already.
   *
   * @param {string} key
   * @param {{kind: string, body: any, base: any}} draft
   */
  opened(key, draft) {
    this.all[key] = { ...draft, open: true, refusal: null, sequence: null };
  }

  /**
   * @param {string} key
   * @param {{kind: string, body: any, base: any, refusal: import("./store.js").Result}} draft
   */
  refused(key, draft) {
    this.all[key] = { ...draft, open: false, sequence: draft.refusal.sequence };
  }

  /** It is an entry now, or is forgotten on purpose. @param {string} key */
  async drop(key) {
    const refused = this.all[key]?.sequence ?? null;
    delete this.all[key];
    [...this.typed.keys()].filter((each) => each.startsWith(`${key}\n`)).forEach((each) => this.typed.delete(each));
    await Promise.all([refused === null ? null : kept.dismiss(refused), kept.untyped(this.person, this.visit, key)]);
  }

  /**
   * @param {string} key
   * @param {string} part
   * @param {string} value
   */
  typing(key, part, value) {
    this.typed.set(`${key}\n${part}`, value);
    void this.keepTyped(key, part, value);
  }

  /**
   * A device that takes no more says so when the field is left; until then nothing was promised.
   *
   * @param {string} key
   * @param {string} part
   * @param {any} value
   */
  keepTyped(key, part, value) {
    return kept.typing(this.person, this.visit, key, part, value).catch(() => {});
  }
}

/**
 * The keys of fields that begin so, saved ones first, then those that only this device has.
 *
 * @param {{visit: any, drafts: Drafts}} page
 * @param {string} prefix
 */
export function entered(page, prefix) {
  const saved = Object.keys(page.visit.fields).filter((key) => key.startsWith(prefix));
  return [...new Set([...saved, ...page.drafts.keys(prefix)])];
}

/**
 * The lines of one kind that are stored for a system, or were entered for it and not saved.
 *
 * @param {any} page
 * @param {string} prefix
 * @param {any} system
 * @returns {string[]}
 */
export function linesOf(page, prefix, system) {
  return entered(page, prefix)
    .filter((key) => (page.visit.fields[key] ?? page.drafts.of(key)).body.system === system.id)
    .map((key) => key.slice(prefix.length));
}
