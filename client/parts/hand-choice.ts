/** Which hand plays the line, and by which shapes it is explained: several, or one alone as the exercise. */

import type { ShapeRow } from "../../server/contract/library.ts";
import type { AnalyseOptionsInput, Analysis } from "../../src/account.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { listInWords } from "../../src/words/index.ts";
import { shapeFromA } from "../draw/shape-keys.ts";
import { h } from "../shell/dom.ts";
import type { KeptDraft } from "../shell/kept-draft.ts";
import { HAND_SIZES } from "./hand-sizes.ts";
import { select } from "./select.ts";

export type HandOptions = Pick<AnalyseOptionsInput, "soloHand" | "shapes" | "ownShapes" | "handSize">;

export interface HandChoice {
  readonly element: HTMLElement;
  /** What to send with the take: shapes by name, none at all (an empty list), or null, which offers all of them. */
  read(): HandOptions;
}

const HANDS: readonly (readonly [string, string])[] = [
  ["", "chosen by the program"],
  ["right", "right hand"],
  ["left", "left hand"],
  ["both", "both hands"],
];

/** What is chosen and not sent yet. */
export interface HandDraft {
  readonly hand: string;
  readonly size: string;
  readonly without: boolean;
  /** Names of shapes. */
  readonly shapes: readonly string[];
}

/**
 * @param now what the take was analysed with, when there is one
 * @param kept what was chosen before the page was left, and where what is chosen from now on is kept
 */
export function handChoice(
  own: readonly ShapeRow[],
  now?: Analysis["options"],
  kept?: KeptDraft<HandDraft>,
): HandChoice {
  const left = kept?.read() ?? null;
  // A shape that was deleted since stays with the takes that were explained by it.
  const mine = new Map((now?.ownShapes ?? []).map((shape) => [shape.name, shape as HandShape]));
  for (const { shape } of own) mine.set(shape.name, shape);
  const built = BUILT_IN_SHAPES.filter((shape) => !mine.has(shape.name));
  const boxes = [...built, ...mine.values()].map((shape) => ({
    shape,
    input: h("input", {
      type: "checkbox",
      name: "shape",
      value: shape.name,
      checked: (left?.shapes ?? now?.shapes)?.includes(shape.name) ?? false,
    }),
  }));
  const hand = select("hand", HANDS, left?.hand ?? now?.soloHand ?? "");
  const size = select("hand-size", HAND_SIZES, left?.size ?? now?.handSize ?? "middle");
  const without = h("input", {
    type: "checkbox",
    name: "no-shape",
    checked: left?.without ?? now?.shapes?.length === 0,
  });
  const said = h("p", { class: "hint", role: "status" });
  const say = () => {
    for (const { input } of boxes) input.disabled = without.checked;
    const chosen = boxes.filter(({ input }) => input.checked);
    said.textContent = explainedWords(without.checked ? null : chosen.map(({ shape }) => shape.name));
  };
  const changed = () => {
    say();
    const chosen = boxes.filter(({ input }) => input.checked).map(({ shape }) => shape.name);
    kept?.write({ hand: hand.value, size: size.value, without: without.checked, shapes: chosen });
  };
  const element = h(
    "fieldset",
    { class: "hand-choice", onChange: changed },
    h("legend", {}, "The hand"),
    h("label", {}, "Played by ", hand),
    h("label", {}, "The player’s hand ", size),
    h("p", { class: "small-head" }, "Hand shapes that it is explained by"),
    h(
      "div",
      { class: "shape-choices" },
      ...boxes.map(({ shape, input }) =>
        h("label", { class: "shape-choice" }, input, h("span", {}, shape.name), smallShape(shape)),
      ),
    ),
    h("label", {}, without, " No shape: fingers alone"),
    said,
    h("p", { class: "hint" }, "Make shapes of your own under ", h("a", { href: "#/shapes" }, "Shapes"), "."),
  );
  say();
  return {
    element,
    read() {
      const chosen = without.checked
        ? []
        : boxes.filter(({ input }) => input.checked).map(({ shape }) => shape);
      const offered = chosen.length === 0 ? [...mine.values()] : chosen.filter(({ name }) => mine.has(name));
      return {
        soloHand: (hand.value || null) as "right" | "left" | "both" | null,
        ...(size.value === "middle" && now?.handSize === undefined
          ? {}
          : { handSize: size.value as NonNullable<HandOptions["handSize"]> }),
        shapes: chosen.length === 0 && !without.checked ? null : chosen.map(({ name }) => name),
        ownShapes: offered.map((shape) => ({
          ...shape,
          fingers: [...shape.fingers],
          semitones: [...shape.semitones],
          anchorDegrees: shape.anchorDegrees.map((at) => ({ ...at, qualities: [...at.qualities] })),
        })),
      };
    },
  };
}

/** @param names of the shapes that are chosen; null where there is to be none */
function explainedWords(names: readonly string[] | null): string {
  if (names === null) return "No shape: every note has its finger, and no placement is sought.";
  switch (names.length) {
    case 0:
      return "None chosen: all of them are offered, and used where the line gives evidence of them.";
    case 1:
      return `“${names[0]}” alone is the exercise: what does not lie in it counts as outside.`;
    default:
      return `The line is explained by these ${names.length} and no others.`;
  }
}

/**
 * The choice behind a heading; shapes are fetched when it is first opened, and at once where something was chosen before
 * the page was left. Until then nothing is chosen.
 */
export function handSlot(
  fetchShapes: () => Promise<readonly ShapeRow[]>,
  kept?: KeptDraft<HandDraft>,
): HandChoice {
  let choice: HandChoice | null = null;
  const element = h("details", { class: "hand-slot" }, h("summary", {}, "Which hand, which shapes"));
  const open = async () => {
    choice = handChoice(await fetchShapes(), undefined, kept);
    element.append(choice.element);
  };
  element.addEventListener("toggle", () => void open(), { once: true });
  if (kept && kept.read() !== null) element.open = true;
  return { element, read: () => choice?.read() ?? {} };
}

/** "Explained by third-and-steps alone, in the right hand" */
export function handWords(analysis: Analysis): string {
  const { shapes, ownShapes } = analysis.options;
  const hands = new Set(analysis.notes.filter((note) => note.solo).map((note) => note.hand));
  const played = hands.size > 1 ? "both hands" : `the ${[...hands][0] ?? "right"} hand`;
  const own = ownShapes.length > 0 && shapes === null ? ", the teacher's own included" : "";
  const by =
    shapes === null
      ? `all hand shapes${own}`
      : shapes.length === 0
        ? "no hand shape"
        : shapes.length === 1
          ? `${shapes[0]} alone`
          : listInWords(shapes);
  return `Played by ${played}, explained by ${by}`;
}

function smallShape(shape: HandShape): SVGSVGElement {
  const svg = shapeFromA(shape, 150);
  svg.setAttribute("aria-hidden", "true");
  // No words stand under these keys, nor bows above them.
  svg.setAttribute("viewBox", "0 12 150 58");
  return svg;
}
