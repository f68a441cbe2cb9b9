// @ts-check
/** The page of a tablet: a day, or a visit, by its address. */
import { alone } from "./alone.js";
import { showBarred, showDay } from "./day.js";
import { showEmergencies } from "./emergencies.js";
import { h } from "./fields.js";
import { isOfAnother, tidy } from "./kept.js";
import { showLoad } from "./load.js";
import { Barred, places, send, signedOutHere } from "./store.js";
import { showVisit } from "./visit.js";
import { keepPages } from "./pages.js";
import { kits } from "./kits.js";
import { watch } from "./running.js";

const TIDY_MS = 60_000;
const visit = /^\/visits\/(?:for-stop\/)?([0-9a-f-]{36})$/.exec(location.pathname);
const load = /^\/rounds\/([0-9a-f-]{36})\/load$/.exec(location.pathname);
const emergencies = location.pathname === "/emergencies";

function show() {
  if (visit) {
    return showVisit(visit[1]);
  }
  if (load) {
    return showLoad(load[1]);
  }
  return emergencies ? showEmergencies(new URLSearchParams(location.search).get("system")) : showDay();
}

// How to get in is gone at the end of the day, before anything is shown.
await tidy().catch(() => {});
const shown = await show().catch((failure) => {
  if (failure instanceof Barred) {
    return showBarred();
  }
  throw failure;
});
if (shown === null && (load || emergencies) && !new URLSearchParams(location.search).has("wait")) {
  // This device has nothing of it, so the server's answer is waited for, however long it takes.
  const address = new URL(location.href);
  address.searchParams.set("wait", "");
  location.replace(address);
} else if (shown === null) {
  const fact = /** @type {HTMLElement} */ (document.getElementById("sync-fact"));
  const { ofAnother, signedOut, missing, signIn } = fact.dataset;
  const another = visit && (await isOfAnother(visit[1]));
  fact.textContent = (another ? ofAnother : signedOutHere() ? signedOut : missing) ?? "";
  if (signedOutHere()) {
    fact.after(h("div", { class: "actions" }, h("a", { class: "button button-strong", href: "/sign-in" }, signIn ?? "")));
  }
} else {
  watch(shown);
  void kits.show(shown);
  void alone(shown, visit ? visit[1] : null);
}
const navigation = document.getElementById("navigation");
if (navigation && places().length > 0) {
  navigation.replaceChildren(h("ul", {}, places().map(({ href, label }) => h("li", {}, h("a", { href }, label)))));
  navigation.hidden = false;
}
void send();
setInterval(() => void tidyShown(), TIDY_MS);
void keepPages((takeOver) => {
  document.getElementById("sync")?.after(h("p", { class: "say" }, shown?.("newer") ?? "", " ", h("button", { class: "button", type: "button", onclick: takeOver }, shown?.("newer.take") ?? "")));
});

/** A page may stay open over night. */
async function tidyShown() {
  if (await tidy()) {
    document.getElementById("access")?.parentElement?.remove();
  }
}
