/** A lens in the making: what is chosen and written, and the lens that follows from it. No page is needed for it. */
import type { Lens } from "../../src/account.ts";
import {
  LENS_MEASURES,
  LENS_UNITS,
  type LensMeasureId,
  type LensUnit,
  lensMeasure,
} from "../../src/lens/names.ts";
import { PRACTICE_KINDS, type PracticeKind } from "../../src/practice/kinds.ts";

const MOST_ASKS = 4;
const MOST_EXERCISES = 4;

export interface AskDraft {
  readonly measure: LensMeasureId;
  readonly bound: "least" | "most";
  /** As written, in the unit that is shown: shares in percent. */
  readonly amount: string;
  readonly partly: string;
}

export interface LensDraft {
  readonly name: string;
  readonly about: string;
  readonly asks: readonly AskDraft[];
  readonly reached: string;
  readonly partly: string;
  readonly notYet: string;
  readonly exercises: readonly { readonly kind: PracticeKind; readonly text: string }[];
}

export const NEW_LENS: LensDraft = {
  name: "",
  about: "",
  asks: [usualAsk("rests")],
  reached: "It is reached.",
  partly: "It is there in part.",
  notYet: "It is not there yet.",
  exercises: [],
};

/** The unit that a bound is written in. */
export const shownUnit = (unit: LensUnit): string => LENS_UNITS[unit];

function shown(value: number, unit: LensUnit): string {
  return String(unit === "share" ? Math.round(value * 100) : value);
}

function meant(text: string, unit: LensUnit): number {
  return text.trim() === "" ? Number.NaN : Number(text) / (unit === "share" ? 100 : 1);
}

/** A measure with the bound that teachers usually begin with, and "partly" at half of it, or half as much again. */
function usualAsk(measure: LensMeasureId): AskDraft {
  const { unit, asks, usual } = lensMeasure(measure);
  const half = asks === "least" ? usual / 2 : usual * 1.5;
  const partly = unit === "share" ? half : Math.round(half);
  return { measure, bound: asks, amount: shown(usual, unit), partly: shown(partly, unit) };
}

export function changed(draft: LensDraft, part: Partial<LensDraft>): LensDraft {
  return { ...draft, ...part };
}

/** Another measure brings its own usual bounds. */
export function askChanged(draft: LensDraft, i: number, part: Partial<AskDraft>): LensDraft {
  const asks = draft.asks.map((ask, k) => {
    if (k !== i) return ask;
    return part.measure !== undefined && part.measure !== ask.measure
      ? usualAsk(part.measure)
      : { ...ask, ...part };
  });
  return { ...draft, asks };
}

/** The first measure that is not asked for yet; no more than four. */
export function askAdded(draft: LensDraft): LensDraft {
  const free = LENS_MEASURES.find(({ id }) => !draft.asks.some(({ measure }) => measure === id));
  if (free === undefined || draft.asks.length >= MOST_ASKS) return draft;
  return { ...draft, asks: [...draft.asks, usualAsk(free.id)] };
}

/** The last one stays: a lens without a number measures nothing. */
export function askRemoved(draft: LensDraft, i: number): LensDraft {
  return draft.asks.length === 1 ? draft : { ...draft, asks: draft.asks.filter((_, k) => k !== i) };
}

export function exerciseAdded(draft: LensDraft): LensDraft {
  if (draft.exercises.length >= MOST_EXERCISES) return draft;
  return { ...draft, exercises: [...draft.exercises, { kind: PRACTICE_KINDS[0], text: "" }] };
}

export function exerciseChanged(
  draft: LensDraft,
  i: number,
  part: Partial<LensDraft["exercises"][number]>,
): LensDraft {
  return { ...draft, exercises: draft.exercises.map((one, k) => (k === i ? { ...one, ...part } : one)) };
}

export function exerciseRemoved(draft: LensDraft, i: number): LensDraft {
  return { ...draft, exercises: draft.exercises.filter((_, k) => k !== i) };
}

/** What is missing before the lens can be kept, in words; null when nothing is. */
export function missing({ name, about, asks }: LensDraft): string | null {
  if (name.trim() === "") return "The lens needs a name.";
  if (about.trim() === "") return "Say in a sentence what the student is to do.";
  for (const { measure, amount, partly } of asks) {
    const { unit, name: measured } = lensMeasure(measure);
    if (Number.isNaN(meant(amount, unit)) || Number.isNaN(meant(partly, unit))) {
      return `“${measured}” needs two numbers.`;
    }
  }
  return null;
}

/** The lens as it is sent; its id is given by the server. */
export function lensOf(draft: LensDraft): Lens {
  return {
    id: "own",
    name: draft.name.trim(),
    about: draft.about.trim(),
    asks: draft.asks.map(({ measure, bound, amount, partly }) => {
      const { unit } = lensMeasure(measure);
      const value = meant(amount, unit);
      return {
        measure,
        least: bound === "least" ? value : null,
        most: bound === "most" ? value : null,
        partly: meant(partly, unit),
      };
    }),
    said: { reached: draft.reached, partly: draft.partly, notYet: draft.notYet },
    exercises: draft.exercises.map(({ kind, text }) => ({
      kind,
      title: kind.charAt(0).toUpperCase() + kind.slice(1),
      text: text.trim() || "Slowly and by itself, before it goes back into a chorus.",
    })),
  };
}

/** A lens as a pattern for another: everything of it but its name. */
export function draftFrom(lens: Lens): LensDraft {
  return {
    name: `${lens.name}, our way`,
    about: lens.about,
    asks: lens.asks.map(({ measure, least, most, partly }) => {
      const { unit } = lensMeasure(measure);
      const amount = shown((least ?? most)!, unit);
      return { measure, bound: least !== null ? "least" : "most", amount, partly: shown(partly, unit) };
    }),
    ...lens.said,
    exercises: lens.exercises.map(({ kind, text }) => ({ kind: kind as PracticeKind, text })),
  };
}
