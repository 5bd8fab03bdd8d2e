/** The list of keyboard commands, and the switch that turns the single keys off. */
import { h } from "./dom.ts";
import { STEERING } from "./steer.ts";

const OFF = "ledgerline-single-keys-off";

/** Speech input can set off single keys by mistake, so they can be switched off. */
export const singleKeysOn = (): boolean => localStorage.getItem(OFF) === null;

const ANYWHERE: readonly (readonly [string, string])[] = [
  ["?", "this list"],
  ["Tab", "the next control or picture"],
  ["1 … 9", "on a take: the first, second, … picture"],
  ["T", "on a take that plays to be tapped along: a tap"],
];

export function openKeysDialog(): void {
  document.querySelector("dialog.keys")?.remove();
  const rows = (list: readonly (readonly [string, string])[]) =>
    list.map(([key, what]) => h("div", {}, h("dt", {}, h("kbd", {}, key)), h("dd", {}, what)));
  const dialog = h(
    "dialog",
    { class: "keys", "aria-labelledby": "keys-title" },
    h("h2", { id: "keys-title" }, "Keyboard commands"),
    h("h3", {}, "Anywhere"),
    h("dl", {}, ...rows(ANYWHERE)),
    h("h3", {}, "In a picture"),
    h("dl", {}, ...rows(STEERING)),
    h(
      "label",
      {},
      h("input", {
        type: "checkbox",
        checked: singleKeysOn(),
        onChange: (event: Event) => {
          if ((event.target as HTMLInputElement).checked) localStorage.removeItem(OFF);
          else localStorage.setItem(OFF, "1");
        },
      }),
      " Single keys work outside a picture too",
    ),
    h("form", { method: "dialog" }, h("button", {}, "Close")),
  );
  document.body.append(dialog);
  dialog.addEventListener("close", () => dialog.remove());
  dialog.showModal();
}
