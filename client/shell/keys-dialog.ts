/** The list of keyboard commands, and the switch that turns the single keys off. */
import { h } from "./dom.ts";
import { PICTURE_KEYS } from "./picture-keys.ts";

const OFF = "ledgerline-single-keys-off";

/** Speech input can set off single keys by mistake, so they can be switched off. */
export const singleKeysOn = (): boolean => localStorage.getItem(OFF) === null;

type Commands = readonly (readonly [string, string])[];

const SECTIONS: readonly { readonly where: string; readonly commands: Commands }[] = [
  {
    where: "Anywhere",
    commands: [
      ["?", "this list"],
      ["Tab", "the next control or picture"],
      ["Enter", "open a page, press a button, choose files"],
    ],
  },
  {
    where: "On a take",
    commands: [
      ["1 … 6", "the picture, read by role, line, hand, ideas, time, register"],
      ["Space", "play what is selected, or stop"],
      ["Escape", "select nothing"],
      ["T", "while it plays to be tapped along: a tap"],
    ],
  },
  { where: "In a picture", commands: PICTURE_KEYS },
  {
    where: "While recording, and where a pattern is played",
    commands: [
      ["A S D … ;", "the white keys from C, by their place on the board"],
      ["W E, T Y U, O P", "the black keys above them"],
      ["Z X", "an octave down, an octave up"],
    ],
  },
];

export function openKeysDialog(): void {
  document.querySelector("dialog.keys")?.remove();
  const rows = (list: Commands) =>
    list.map(([key, what]) => h("div", {}, h("dt", {}, h("kbd", {}, key)), h("dd", {}, what)));
  const dialog = h(
    "dialog",
    { class: "keys", "aria-labelledby": "keys-title" },
    // Read from its beginning: the first control stands at the end of a list that may be higher than the window.
    h("h2", { id: "keys-title", tabindex: -1, autofocus: true }, "Keyboard commands"),
    ...SECTIONS.flatMap(({ where, commands }) => [h("h3", {}, where), h("dl", {}, ...rows(commands))]),
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
      "Single keys work outside a picture too",
    ),
    h("form", { method: "dialog" }, h("button", {}, "Close")),
  );
  document.body.append(dialog);
  dialog.addEventListener("close", () => dialog.remove());
  dialog.showModal();
}
