/** Two sides or a row of them next to each other: as numbers with their doubt, as pictures, and in plain words. */
import type { Comparison, ManyCompared } from "../../src/compare/comparison-schema.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalWords } from "../shell/refusal-words.ts";
import { showIn } from "../shell/show-in.ts";
import { compared, comparedMany } from "./comparison-pictures.ts";
import { MOST_SIDES } from "./side-model.ts";
import { type SidePicker, sideNamed, sidePicker } from "./side-picker.ts";
import { sideRows } from "./side-rows.ts";

const ORDINALS = ["First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth"];

const label = (i: number) => ORDINALS[i] ?? `${i + 1}th`;

export const comparePage: PageMaker = async (_parameters, query, shell) => {
  const result = h("div", { class: "pictures" });
  const fields = h("div", { class: "side-pickers" });
  let pickers: SidePicker[] = [];
  let missing: readonly string[] = [];
  const wholeRows = sideRows((sides) => void lay(sides).then(show));
  const chosenAnew = () => void wholeRows.show(pickers[0]?.chosen() ?? null);
  const lay = async (sides: readonly string[]) => {
    const named = await Promise.all(sides.map(sideNamed));
    missing = named.flatMap((one) => one.missing ?? []);
    pickers = Array.from({ length: Math.max(2, sides.length) }, (_, i) =>
      sidePicker(label(i), named[i]?.side ?? null, named[i]?.chorus ?? "", chosenAnew),
    );
    fields.replaceChildren(...pickers.map((picker) => picker.element));
    chosenAnew();
  };
  const show = () =>
    showSides(pickers.map((picker) => picker.value()).filter(Boolean), missing, result, shell);
  const form = h(
    "form",
    { class: "sheet sides" },
    h("h1", {}, "Compare"),
    fields,
    wholeRows.element,
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
            if (pickers.length < MOST_SIDES) void lay([...pickers.map((picker) => picker.value()), ""]);
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
  await lay(asked(query));
  await show();
  return {
    title: "Compare",
    element: h("div", { class: "stack" }, form, result),
    query(next) {
      void lay(asked(next)).then(show);
    },
  };
};

/** Compares the sides and draws the answer, or says what is to be chosen first. */
async function showSides(
  sides: readonly string[],
  missing: readonly string[],
  result: HTMLElement,
  shell: Parameters<PageMaker>[2],
): Promise<void> {
  if (sides.length < 2) {
    const todo = "Choose two takes, or two choruses, to lay side by side; or a whole row of them.";
    const gone = missing.map((side) => `There is no take or player here by the name of “${side}”.`);
    result.replaceChildren(
      ...(gone.length > 0 ? [refusalWords(new Error(gone.join(" ")))] : []),
      h("p", { class: "empty" }, todo),
    );
    return;
  }
  const question = questionOf(sides);
  shell.replaceQuery(question);
  await showIn(result, async () =>
    sides.length === 2
      ? compared(await fetchJson<Comparison>(`/compare?${question}`), sides)
      : comparedMany(await fetchJson<ManyCompared>(`/compare?${question}`), sides),
  );
}

/** The sides that an address asks for. */
const asked = (query: URLSearchParams): string[] =>
  (query.get("sides") ?? [query.get("a"), query.get("b")].filter(Boolean).join(","))
    .split(",")
    .filter(Boolean);

function questionOf(sides: readonly string[]): string {
  const [a = "", b = ""] = sides;
  return new URLSearchParams(sides.length === 2 ? { a, b } : { sides: sides.join(",") }).toString();
}
