/** What this browser keeps: nothing of a pupil, unless somebody chooses it here; and the way to sign out. */
import { forgetLeft } from "../findings/left-behind.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { refusalNote } from "../shell/refusal-note.ts";

/** The worker (`worker.js`) keeps the takes that are opened while a cache of this name exists, and in it. */
const TAKES = "ledgerline-takes";

/** Empty where the browser has no caches, or the pages were not opened over a safe connection. */
export function thisBrowser(): HTMLElement {
  if (!("caches" in window)) return h("div", {});
  const keeps = h("input", { type: "checkbox", name: "keep-takes" });
  const trouble = h("div", {});
  void caches.has(TAKES).then((chosen) => {
    keeps.checked = chosen;
  });
  keeps.addEventListener("change", () => void (keeps.checked ? caches.open(TAKES) : caches.delete(TAKES)));
  const signOut = async () => {
    try {
      await fetchJson("/session", { method: "DELETE" });
      await caches.delete(TAKES);
      // What is half written speaks of pupils too; whoever signs in next may not read it.
      sessionStorage.clear();
      forgetLeft();
      location.reload();
    } catch (error) {
      trouble.replaceChildren(refusalNote(error));
    }
  };
  return h(
    "section",
    { class: "sheet this-browser" },
    h("h2", {}, "This browser"),
    h(
      "label",
      { class: "choice" },
      keeps,
      " Keep the takes that I open, to read them without a network. Not on a computer that others use.",
    ),
    h(
      "p",
      { class: "faint" },
      "Otherwise nothing of a take is kept here. What is kept goes when you sign out, when anything is deleted, or when you take the choice back.",
    ),
    h("button", { type: "button", onClick: () => void signOut() }, "Sign out"),
    trouble,
  );
}
