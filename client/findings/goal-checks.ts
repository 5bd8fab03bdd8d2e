/** Goals that a take can be checked for, as a teacher says them. */
import type { Goal } from "../../src/account.ts";
import { count, percent } from "../../src/words/index.ts";

export type GoalCheck = NonNullable<Goal["check"]>;
export type GoalKind = GoalCheck["kind"] | "words";

export interface GoalForm {
  readonly kind: GoalKind;
  /** What is chosen in the list of kinds. */
  readonly name: string;
  /** Unit of the number, or null when the kind has none. */
  readonly amount: { readonly label: string; readonly start: number; readonly most: number } | null;
}

export const GOAL_FORMS: readonly GoalForm[] = [
  { kind: "placement", name: "use a placement", amount: { label: "Notes, at least", start: 6, most: 500 } },
  { kind: "rests", name: "leave room", amount: { label: "Rest, % at least", start: 25, most: 90 } },
  { kind: "motif", name: "keep an idea", amount: { label: "Times, at least", start: 3, most: 50 } },
  {
    kind: "answers",
    name: "let phrases answer",
    amount: { label: "Phrases, % at least", start: 30, most: 100 },
  },
  {
    kind: "guide tones",
    name: "meet changes with a third or seventh",
    amount: { label: "Changes, % at least", start: 40, most: 100 },
  },
  { kind: "slides", name: "slide", amount: { label: "Times, at least", start: 2, most: 100 } },
  { kind: "range", name: "widen the range", amount: { label: "Semitones, at least", start: 19, most: 80 } },
  {
    kind: "runs",
    name: "fewer scale runs",
    amount: { label: "Notes in runs, % at most", start: 25, most: 100 },
  },
  { kind: "words", name: "in words only", amount: null },
];

/** Degrees under the anchor finger: the first and the second placement of the usual shapes. */
export const ANCHORS: readonly (readonly [
  Extract<GoalCheck, { kind: "placement" }>["anchorDegree"],
  string,
])[] = [
  ["5", "second placement, on the fifth"],
  ["1", "first placement, on the root"],
  ["3", "on the third"],
  ["b7", "on the seventh"],
  ["9", "on the ninth"],
];

/** @throws RangeError for a number that is none */
export function checkOf(
  kind: GoalKind,
  amount: number,
  placement: { anchorDegree: string; numeral: string | null },
): GoalCheck | null {
  if (kind === "words") return null;
  if (!Number.isFinite(amount) || amount < 0) throw new RangeError("The goal needs a number.");
  const whole = Math.max(1, Math.round(amount));
  switch (kind) {
    case "placement": {
      const anchorDegree = ANCHORS.find(([degree]) => degree === placement.anchorDegree)?.[0] ?? "5";
      return { kind, anchorDegree, numeral: placement.numeral, shape: null, least: whole };
    }
    case "rests":
    case "answers":
    case "guide tones":
      return { kind, least: Math.min(1, amount / 100) };
    case "runs":
      return { kind, most: Math.min(1, amount / 100) };
    case "motif":
      return { kind, least: Math.max(2, whole) };
    case "slides":
    case "range":
      return { kind, least: whole };
  }
}

/** The goal in plain words, for when the teacher writes none. */
export function goalText(check: GoalCheck): string {
  switch (check.kind) {
    case "placement": {
      const name = ANCHORS.find(([degree]) => degree === check.anchorDegree)?.[1] ?? check.anchorDegree;
      return `${name.replace(/,.*/, "")} on ${check.numeral === null ? "every chord" : `the ${check.numeral} chord`}`;
    }
    case "rests":
      return `leave room: ${percent(check.least)} rest`;
    case "runs":
      return `no more than ${percent(check.most)} of the notes in scale runs`;
    case "motif":
      return `keep one idea and play it ${count(check.least, "time")}`;
    case "slides":
      return `slide ${count(check.least, "time")}`;
    case "range":
      return `use ${check.least} semitones from the lowest to the highest note`;
    case "guide tones":
      return `meet ${percent(check.least)} of the changes with a third or a seventh`;
    case "answers":
      return `let ${percent(check.least)} of the phrases answer the one before`;
  }
}
