/** What a chord symbol has said so far, and what its parts add to it. */
import { Problem } from "../take/index.ts";
import { impliedTensions, NATURAL_TENSION, type Recipe } from "./chord-recipe.ts";

const EXPECTED =
  "Write a capital root A to G with b or # if needed, then the kind of chord, then /bass if needed: C7, F#m7b5, Bbmaj7, C7(b9)/E, or N.C.";

/** How a symbol starts after its root. */
export type Head = "none" | "major" | "delta" | "minor" | "diminished" | "half-diminished" | "augmented";

/** A chord while it is being read. */
export interface Draft {
  third: Recipe["third"];
  fifths: Set<number>;
  seventh: Recipe["seventh"];
  /** What the number implies. */
  implied: Set<number>;
  /** What is named by itself. */
  tensions: Set<number>;
  altered: boolean;
}

export interface Modifier {
  readonly pattern: RegExp;
  /** Only after this kind of part. */
  readonly after?: "number" | "other";
  readonly isNumber?: boolean;
  /** Changes the draft; false when the part makes no sense in this chord. */
  apply(draft: Draft, part: string, head: Head): boolean;
}

/** What may follow the number, tried in this order. */
export const MODIFIERS: readonly Modifier[] = [
  { pattern: /sus(?:2\/?4|4\/?2|[24])?/iy, apply: suspend },
  { pattern: /alt(?:ered)?/iy, apply: alter },
  { pattern: /add\s?(?:maj|ma|[MΔ△∆^])\s?7/iy, apply: addMajorSeventh },
  { pattern: /add\s?3/iy, apply: addThird },
  {
    pattern: /add\s?[b#+-]?(?:13|11|[2469])/iy,
    apply: (draft, part) => addTension(draft, part.replace(/add\s?/i, "")),
  },
  { pattern: /(?:no|omit)\s?[35](?:rd|th)?/iy, apply: omit },
  { pattern: /b7/y, apply: minorSeventh },
  { pattern: /#7/y, apply: majorSeventh },
  { pattern: /[b#+-](?:13|11|[24569])/y, apply: (draft, part) => addTension(draft, part) },
  { pattern: /M(?![Aa])/y, after: "number", apply: (draft) => setSeventh(draft, 11) },
  { pattern: /(?:major|maj|ma(?!dd)|[MjΔ△∆^])\s?(?:13|11|[79])?/iy, apply: majorSeventh },
  { pattern: /aug(?:mented)?|\+/iy, apply: (draft) => alterFifth(draft, 8) },
  { pattern: /13|11|9/y, after: "other", isNumber: true, apply: (draft, part) => addTension(draft, part) },
  {
    pattern: /6/y,
    after: "other",
    apply: (draft, part) => draft.seventh === null && addTension(draft, part),
  },
];

/** The chord that head and number make; null when the number has no meaning after the head. */
export function startDraft(head: Head, number: string | null): Draft | null {
  const minorThird = head === "minor" || head === "diminished" || head === "half-diminished";
  const fifth = head === "augmented" ? 8 : head === "diminished" || head === "half-diminished" ? 6 : 7;
  const draft: Draft = {
    third: minorThird ? "minor" : "major",
    fifths: new Set([fifth]),
    seventh: null,
    implied: new Set(),
    tensions: new Set(),
    altered: false,
  };
  if (head === "half-diminished") draft.seventh = 10;
  if (head === "delta") draft.seventh = 11;
  switch (number) {
    case null:
      return draft;
    case "5":
      draft.third = null;
      return head === "none" ? draft : null;
    case "2":
      draft.tensions.add(2);
      return head === "none" ? draft : null;
    case "6":
    case "69":
      if (head !== "none" && head !== "major" && head !== "minor") return null;
      draft.seventh = 9;
      if (number !== "6") draft.tensions.add(2);
      return draft;
    default:
      // "+11" may be a raised eleventh or an augmented chord with one.
      if (head === "augmented" && Number(number) > 9) return null;
      draft.seventh = head === "major" || head === "delta" ? 11 : head === "diminished" ? 9 : 10;
      for (const tension of impliedTensions(Number(number), minorThird)) draft.implied.add(tension);
      // A dominant eleventh is played without its third: it is a ninth with a suspended fourth (Levine 1995 [memory]).
      if (number === "11" && draft.third === "major" && draft.seventh === 10) draft.third = "fourth";
      return draft;
  }
}

function suspend(draft: Draft, part: string): boolean {
  if (draft.third === "minor") return false;
  const both = /\d\D?\d/.test(part);
  const stand = !both && part.endsWith("2") ? "second" : "fourth";
  if (both || (draft.third !== "major" && draft.third !== stand)) {
    draft.third = "fourth";
    draft.tensions.add(2);
  } else {
    draft.third = stand;
  }
  return true;
}

/** A third beside the note that stands in for it: "7sus(add3)". */
function addThird(draft: Draft): boolean {
  if (draft.third === "fourth") draft.tensions.add(5);
  if (draft.third === "second") draft.tensions.add(2);
  if (draft.third !== "minor") draft.third = "major";
  return true;
}

/** An altered dominant: both ninths, the sharp eleventh and the flat thirteenth in place of a natural fifth. */
function alter(draft: Draft, _part: string, head: Head): boolean {
  if (head !== "none" || draft.third !== "major") return false;
  draft.seventh = 10;
  draft.altered = true;
  return true;
}

function omit(draft: Draft, part: string): boolean {
  if (part.includes("3")) draft.third = null;
  else draft.fifths.clear();
  return true;
}

function majorSeventh(draft: Draft, part: string, head: Head): boolean {
  // "Dm9(maj7)": the ninth brought a seventh along, and the bracket says which.
  if (draft.third === "minor" && draft.seventh === 10 && draft.implied.size > 0) {
    draft.seventh = 11;
    return true;
  }
  // "Maj Maj" says nothing, and "7 maj 7" contradicts itself.
  if (draft.seventh === 10 || (head === "major" && draft.seventh === 11)) return false;
  const number = Number(/\d+$/.exec(part)?.[0] ?? 7);
  for (const tension of impliedTensions(number, draft.third === "minor")) draft.implied.add(tension);
  return addMajorSeventh(draft);
}

/** A major seventh beside another one, "dim7(add maj7)". */
function addMajorSeventh(draft: Draft): boolean {
  if (draft.seventh !== 9 && draft.seventh !== 10) return setSeventh(draft, 11);
  draft.tensions.add(11);
  return true;
}

function minorSeventh(draft: Draft): boolean {
  return draft.seventh === null && setSeventh(draft, 10);
}

function setSeventh(draft: Draft, seventh: 10 | 11): boolean {
  draft.seventh = seventh;
  return true;
}

function alterFifth(draft: Draft, fifth: number): boolean {
  draft.fifths.delete(7);
  draft.fifths.add(fifth);
  return true;
}

/** Semitones of an altered or added degree; 2, 4 and 6 are other names for 9, 11 and 13. */
const NAMED_SEMITONES: Readonly<Record<string, number>> = {
  b2: 1,
  "2": 2,
  "#2": 3,
  b9: 1,
  "9": 2,
  "#9": 3,
  "4": 5,
  "#4": 6,
  "11": 5,
  "#11": 6,
  b6: 8,
  "6": 9,
  b13: 8,
  "13": 9,
};

function addTension(draft: Draft, part: string): boolean {
  const name = part.replace("+", "#").replace("-", "b");
  if (name === "b5") return alterFifth(draft, 6);
  if (name === "#5") return alterFifth(draft, 8);
  const semitones = NAMED_SEMITONES[name];
  if (semitones === undefined) return false;
  if (semitones === 9 && draft.seventh === null) {
    draft.seventh = 9;
    return true;
  }
  const natural = NATURAL_TENSION[semitones];
  if (natural !== undefined) draft.implied.delete(natural);
  draft.tensions.add(semitones);
  return true;
}

/** Takes out what is said twice; refuses what contradicts itself. */
export function finish(draft: Draft, symbol: string): Recipe {
  if (draft.altered) {
    return { third: "major", fifths: [], seventh: 10, tensions: [1, 3, 6, 8], altered: true };
  }
  const tensions = new Set([...draft.implied, ...draft.tensions]);
  const diminished = draft.third === "minor" && draft.fifths.size === 1 && draft.fifths.has(6);
  if (draft.seventh === 9 && tensions.has(11) && !diminished) {
    // Only the diminished seventh stands beside a major one; a sixth below it is its thirteenth.
    draft.seventh = 11;
    tensions.delete(11);
    tensions.add(9);
  }
  if (draft.third === "minor" && tensions.has(3))
    throw notAChord(symbol, "its sharp ninth is its minor third");
  if (draft.third === "fourth") tensions.delete(5);
  if (draft.third === "second") tensions.delete(2);
  if (draft.seventh === 9) tensions.delete(9);
  for (const fifth of draft.fifths) tensions.delete(fifth);
  const rising = (set: ReadonlySet<number>) => [...set].sort((a, b) => a - b);
  return {
    third: draft.third,
    fifths: rising(draft.fifths),
    seventh: draft.seventh,
    tensions: rising(tensions),
    altered: false,
  };
}

export function notAChord(text: string, reason: string): Problem {
  return new Problem("not-a-chord", `"${text}" is not a chord: ${reason}`, null, EXPECTED);
}
