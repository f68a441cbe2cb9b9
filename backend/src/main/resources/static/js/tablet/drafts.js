// @ts-check
/**
 * What a person entered at a visit and the server has not taken: kept on the device, so that loading the page again shows
 * it as what it is, not saved. An entry leaves here once the server has it.
 */

/** @typedef {{kind: string, body: any, base: any, open: boolean, refusal: any, at: number}} Draft */

const PREFIX = "tankround-unsaved/";
const KEPT_MS = 14 * 24 * 3600 * 1000;

export class Drafts {
  /**
   * @param {string} visit
   * @param {string} person who enters; on a shared device another person's are left alone
   */
  constructor(visit, person) {
    this.place = `${PREFIX}${person}/${visit}`;
    forgetOld();
    /** @type {Record<string, Draft>} */
    this.all = read(this.place);
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
   * @param {string} key
   * @param {Omit<Draft, "at">} draft
   */
  keep(key, draft) {
    this.all[key] = { ...draft, at: Date.now() };
    this.write();
  }

  /** @param {string} key */
  drop(key) {
    if (key in this.all) {
      delete this.all[key];
      this.write();
    }
  }

  write() {
    if (Object.keys(this.all).length === 0) {
      localStorage.removeItem(this.place);
    } else {
      localStorage.setItem(this.place, JSON.stringify(this.all));
    }
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

/** @param {string} place @returns {Record<string, Draft>} */
function read(place) {
  try {
    return JSON.parse(localStorage.getItem(place) ?? "{}");
  } catch {
    return {};
  }
}

/** Beyond this age the server takes no device's word for when something happened. */
function forgetOld() {
  Object.keys(localStorage)
    .filter((place) => place.startsWith(PREFIX))
    .filter((place) => Object.values(read(place)).every((draft) => draft.at < Date.now() - KEPT_MS))
    .forEach((place) => localStorage.removeItem(place));
}
