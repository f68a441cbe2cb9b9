// @ts-check
/** The page of a tablet: a day, or a visit, by its address. */
import { alone } from "./alone.js";
import { showBarred, showDay } from "./day.js";
import { h } from "./fields.js";
import { tidy } from "./kept.js";
import { Barred, places, send } from "./store.js";
import { showVisit } from "./visit.js";
import { keepPages } from "./pages.js";
import { kits } from "./kits.js";
import { watch } from "./running.js";

const visit = /^\/visits\/(?:for-stop\/)?([0-9a-f-]{36})$/.exec(location.pathname);
const shown = await (visit ? showVisit(visit[1]) : showDay()).catch((failure) => {
  if (failure instanceof Barred) {
    return showBarred();
  }
  throw failure;
});
if (shown === null) {
  const fact = /** @type {HTMLElement} */ (document.getElementById("sync-fact"));
  fact.textContent = fact.dataset.missing ?? "";
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
void tidy(new Date().toLocaleDateString("sv"));
void keepPages((takeOver) => {
  document.getElementById("sync")?.after(h("p", { class: "say" }, shown?.("newer") ?? "", " ", h("button", { class: "button", type: "button", onclick: takeOver }, shown?.("newer.take") ?? "")));
});
