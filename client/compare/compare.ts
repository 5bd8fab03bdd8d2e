/** Two sides or a row of them next to each other: as numbers with their doubt, as pictures, and in plain words. */
import type { Comparison, ManyCompared } from "../../src/compare/comparison-schema.ts";
import { fetchJson, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { compared, comparedMany } from "./comparison-pictures.ts";
import { type SidePicker, sidePicker } from "./side-picker.ts";
import { MOST_SIDES, sidePresets } from "./side-presets.ts";

const ORDINALS = ["First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth"];

const label = (i: number) => ORDINALS[i] ?? `${i + 1}th`;

export const comparePage: PageMaker = async (_parameters, query, shell) => {
  const rows = await takes.list();
  const result = h("div", { class: "pictures" });
  const fields = h("div", { class: "side-pickers" });
  let pickers: SidePicker[] = [];
  const lay = (sides: readonly string[]) => {
    pickers = Array.from({ length: Math.max(2, sides.length) }, (_, i) =>
      sidePicker(label(i), rows, sides[i] ?? ""),
    );
    fields.replaceChildren(...pickers.map((picker) => picker.element));
  };
  const chosen = () => pickers.map((picker) => picker.value()).filter((side) => side !== "");
  const show = async () => {
    const sides = chosen();
    if (sides.length < 2) {
      result.replaceChildren(
        h(
          "p",
          { class: "empty" },
          "Choose two takes, or two choruses, to lay side by side; or a whole row of them.",
        ),
      );
      return;
    }
    const question = questionOf(sides);
    shell.replaceQuery(question);
    result.setAttribute("aria-busy", "true");
    try {
      result.replaceChildren(
        ...(sides.length === 2
          ? compared(await fetchJson<Comparison>(`/compare?${question}`), sides)
          : comparedMany(await fetchJson<ManyCompared>(`/compare?${question}`), sides)),
      );
    } catch (error) {
      result.replaceChildren(refusalNote(error, () => void show()));
    } finally {
      result.removeAttribute("aria-busy");
    }
  };
  const form = h(
    "form",
    { class: "sheet sides" },
    h("h1", {}, "Compare"),
    sidePresets(rows, (sides) => {
      lay(sides);
      void show();
    }),
    fields,
    h(
      "div",
      { class: "row" },
      h("button", { class: "main", type: "submit" }, "Compare"),
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          onClick: () => {
            if (pickers.length < MOST_SIDES) lay([...pickers.map((picker) => picker.value()), ""]);
          },
        },
        "One more side",
      ),
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void show();
  });
  lay(asked(query));
  await show();
  return {
    title: "Compare",
    element: h("div", { class: "stack" }, form, result),
    query(next) {
      lay(asked(next));
      void show();
    },
  };
};

/** The sides that an address asks for. */
const asked = (query: URLSearchParams): string[] =>
  (query.get("sides") ?? [query.get("a"), query.get("b")].filter(Boolean).join(","))
    .split(",")
    .filter(Boolean);

function questionOf(sides: readonly string[]): string {
  const [a = "", b = ""] = sides;
  return new URLSearchParams(sides.length === 2 ? { a, b } : { sides: sides.join(",") }).toString();
}
