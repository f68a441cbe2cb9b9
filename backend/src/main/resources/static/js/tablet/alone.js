// @ts-check
/**
 * Whoever is alone checks in and out. The server counts; this page says how much of it the server knows, and whom to ring
 * where it does not know.
 */
import { choice, entry, h, icon } from "./fields.js";
import { uuid7 } from "./ids.js";
import * as kept from "./kept.js";
import { sound } from "./running.js";
import { enqueue, status, who } from "./store.js";
import { ageOf } from "./times.js";

/**
 * @typedef {{id: string, site: string, siteName: string, at: number | null, until: number, out: number | null}} Stay
 *   by the clock of this device; at is not known of a stay that was checked in elsewhere
 */

const MINUTE_MS = 60_000;
const LOOK_MS = 5_000;
const SOON_MS = 10 * MINUTE_MS;
const LONGER_MINUTES = 30;
const MINUTES = [15, 30, 45, 60, 90, 120, 180, 240];
const USUAL_MINUTES = 60;

/**
 * Shows at the head of the page who is alone where.
 *
 * @param {(key: string, ...args: any[]) => string} words
 * @param {string | null} visitId of the page; null for the day
 */
export async function alone(words, visitId) {
  const person = await who();
  const day = (await kept.days(person)).find((each) => visitId === null || siteOf(each.bundle, visitId) !== undefined);
  if (day === undefined || day.bundle.technician.user !== person) {
    return;
  }
  const { bundle } = day;
  const ahead = day.at - Date.parse(bundle.madeAt);
  const siteId = visitId === null ? undefined : siteOf(bundle, visitId);
  const site = bundle.sites.find((/** @type {any} */ each) => each.id === siteId) ?? null;
  const phone = bundle.officePhone ?? words("alone.no-phone");
  const element = h("section", { class: "notice", id: "alone", hidden: true });
  document.getElementById("particulars")?.after(element);
  let told = "";
  let soundAt = 0;
  let isIn = false;
  await render();
  // The office may have checked this person out by telephone since this day was made.
  void (isIn && ask());
  // What has been sent the office knows from that moment.
  status(() => void render());
  // Time matters only to whoever is in.
  setInterval(() => void (isIn && render()), LOOK_MS);
  setInterval(() => void (isIn && ask()), MINUTE_MS);

  /** Where this person is in, by what was entered here and what the server said. @returns {Promise<Stay | null>} */
  async function current() {
    const here = /** @type {Stay | undefined} */ (await kept.fact(`alone/${person}`));
    if (here !== undefined) {
      const items = await kept.about(here.id);
      const heldOnly = items.every((item) => item.state === "answered" && item.sequence <= (bundle.heldUpTo ?? 0));
      const known = bundle.alone?.find((/** @type {any} */ stay) => stay.id === here.id);
      if (here.out !== null || !heldOnly) {
        return here;
      }
      // The office may have said another time for somebody who rang. What it no longer calls open, it has checked out.
      if (known) {
        return { ...here, until: Date.parse(known.until) + ahead };
      }
    }
    const [open] = bundle.alone ?? [];
    return open === undefined ? null : { id: open.id, site: open.site, siteName: open.siteName, at: null, until: Date.parse(open.until) + ahead, out: null };
  }

  /** Whether the office has checked this person out by telephone meanwhile, or said another time; without a signal nobody knows. */
  async function ask() {
    const stay = await current();
    const items = stay === null ? [] : await kept.about(stay.id);
    if (stay === null || items.some((item) => item.state === "waiting")) {
      return;
    }
    const open = await fetch("/api/alone/open", { redirect: "error", signal: AbortSignal.timeout(MINUTE_MS) }).then((answer) => (answer.ok ? answer.json() : null)).catch(() => null);
    const since = await current();
    if (!Array.isArray(open) || since?.id !== stay.id || since.until !== stay.until) {
      return;
    }
    const known = open.find((/** @type {any} */ each) => each.id === stay.id);
    if (known) {
      await kept.setFact(`alone/${person}`, { ...stay, until: Date.parse(known.until) + ahead });
      await render();
    } else {
      bundle.alone = (bundle.alone ?? []).filter((/** @type {any} */ each) => each.id !== stay.id);
      await kept.setFact(`alone/${person}`, { ...stay, out: Date.now() });
      await render();
    }
  }

  async function render() {
    const stay = await current();
    const items = stay === null ? [] : await kept.about(stay.id);
    const waiting = items.filter((item) => item.state === "waiting").map((item) => item.entry.kind);
    const refused = items.filter((item) => item.result?.status === "refused").map((item) => item.result.args.words ?? item.result.code);
    const left = stay === null ? 0 : Math.ceil((stay.until - Date.now()) / MINUTE_MS);
    const soon = stay !== null && stay.out === null && stay.until - Date.now() <= SOON_MS;
    const state = JSON.stringify([stay, waiting, refused, soon ? left : null]);
    if (soon && Date.now() >= soundAt) {
      soundAt = Date.now() + MINUTE_MS;
      sound(2);
    }
    if (state === told) {
      return;
    }
    told = state;
    isIn = stay !== null && stay.out === null;
    if (stay === null || (stay.out !== null && waiting.length === 0)) {
      free(stay);
    } else {
      const known = bundle.alone?.some((/** @type {any} */ each) => each.id === stay.id) || items.some((item) => item.result?.status === "applied");
      busy(stay, waiting.length === 0 ? null : stay.out !== null ? "alone.unknown-out" : known ? "alone.unknown-longer" : "alone.unknown-in", refused, soon, left);
    }
  }

  /** Nobody is in; the site or the person may ask for it. @param {Stay | null} before */
  function free(before) {
    if (site === null) {
      element.hidden = true;
      return;
    }
    const minutes = choice(
      words("alone.minutes"),
      MINUTES.map((each) => ({ value: String(each), text: words("alone.minutes.of", each) })),
      String(USUAL_MINUTES),
      () => {},
    );
    const because = entry(words("alone.because"), { value: site.checkIn ?? words("alone.because.own") });
    const button = h("button", { class: "button button-strong", type: "button", onclick: () => void checkIn(Number(minutes.select.value), because.input.value.trim()) }, words("alone.in"));
    const fields = [h("div", { class: "columns-3" }, minutes.element, because.element), h("div", { class: "actions" }, button)];
    element.hidden = false;
    element.className = "notice";
    element.replaceChildren(
      h("h2", { class: "notice-title" }, words("alone")),
      ...(before?.out ? [h("p", { class: "facts" }, words("alone.is-out", ageOf(before.out)))] : []),
      ...(site.checkIn ? [h("p", { class: "state state-strong" }, icon("needed"), h("span", {}, words("alone.asked", site.checkIn))), ...fields] : [h("details", { class: "reading-more" }, h("summary", {}, words("alone.choice")), ...fields)]),
    );
  }

  /**
   * @param {Stay} stay
   * @param {string | null} unknown what the office does not know yet
   * @param {string[]} refused
   * @param {boolean} soon
   * @param {number} left minutes
   */
  function busy(stay, unknown, refused, soon, left) {
    const overdue = soon && left <= 0;
    const lines = [
      h("h2", { class: "notice-title" }, `${words("alone")}: ${stay.siteName}`),
      h("p", { class: "say" }, stay.out === null ? words("alone.is-in", stay.at === null ? "" : ageOf(stay.at), ageOf(stay.until)) : words("alone.is-out", ageOf(stay.out))),
      ...(unknown === null ? [h("p", {}, words("alone.known"))] : [signal(words(unknown, phone, ageOf(stay.until)))]),
      ...(overdue ? [signal(words("alone.overdue", phone))] : soon ? [signal(words("alone.soon", left))] : []),
      ...refused.map((said) => h("p", { class: "field-error" }, icon("needed"), h("span", {}, said))),
    ];
    if (stay.out === null) {
      lines.push(
        h(
          "div",
          { class: "actions" },
          h("button", { class: "button button-strong", type: "button", onclick: () => void checkOut(stay) }, words("alone.out")),
          h("button", { class: "button", type: "button", onclick: () => void longer(stay) }, words("alone.longer")),
        ),
      );
    }
    element.hidden = false;
    element.className = unknown !== null || soon ? "notice notice-signal" : "notice";
    element.replaceChildren(...lines);
  }

  /** @param {string} text */
  function signal(text) {
    return h("p", { class: "state state-strong state-signal", role: "alert" }, icon("needed"), h("span", {}, text));
  }

  /**
   * @param {number} minutes
   * @param {string} because
   */
  async function checkIn(minutes, because) {
    const now = Date.now();
    await say({ id: uuid7(), site: site.id, siteName: site.name, at: now, until: now + minutes * MINUTE_MS, out: null }, "alone.check-in", { site: site.id, minutes: String(minutes), because: because || words("alone.because.own") });
  }

  /** @param {Stay} stay */
  async function longer(stay) {
    const minutes = Math.max(0, Math.ceil((stay.until - Date.now()) / MINUTE_MS)) + LONGER_MINUTES;
    await say({ ...stay, until: Date.now() + minutes * MINUTE_MS }, "alone.check-in", { site: stay.site, minutes: String(minutes), because: words("alone.longer") });
  }

  /** @param {Stay} stay */
  async function checkOut(stay) {
    await say({ ...stay, out: Date.now() }, "alone.check-out", {});
  }

  /**
   * @param {Stay} stay as it is once the device has kept the entry
   * @param {string} kind
   * @param {any} body
   */
  async function say(stay, kind, body) {
    await enqueue(kind, stay.id, body, null, (step) => {
      if (step === "kept") {
        void kept.setFact(`alone/${person}`, stay).then(render);
      } else if (step === "full") {
        element.append(signal(words("full")));
      }
    });
    await render();
  }
}

/**
 * @param {any} bundle
 * @param {string} visitId
 * @returns {string | undefined}
 */
function siteOf(bundle, visitId) {
  return [...bundle.visits, ...bundle.rounds.flatMap((/** @type {any} */ round) => round.stops)].find((/** @type {any} */ each) => each.id === visitId)?.site;
}
