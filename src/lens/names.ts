/**
 * The numbers of the account that a lens may ask for, as a teacher chooses among them. How each is read stands under
 * its id in `measures/`.
 */

export const LENS_UNITS = {
  times: "times",
  notes: "notes",
  places: "places",
  share: "%",
  semitones: "semitones",
  seconds: "seconds",
  milliseconds: "milliseconds",
} as const;

export type LensUnit = keyof typeof LENS_UNITS;

interface NamedMeasure {
  readonly id: string;
  /** What is counted, as a line of a list. */
  readonly name: string;
  readonly unit: LensUnit;
  /** What it counts among, where it is a share: "changes"; null for the rest. */
  readonly among: string | null;
  /** Which way a teacher usually asks. */
  readonly asks: "least" | "most";
  /** A bound to begin with, and the farthest that makes sense, in the unit. */
  readonly usual: number;
  readonly farthest: number;
  /** Read against the chart: silent while the chart is in question. */
  readonly harmony: boolean;
  /**
   * The chance that it must do better than to count as reached; "closed form" where what it reads has passed a test
   * against chance of its own; "fact" where the player simply did it, as with rests.
   */
  readonly chance: "pitches drawn" | "pitches shuffled" | "moved in time" | "closed form" | "fact";
  /** True where a draw of chance must work the hand out anew. */
  readonly hand: boolean;
}

export const LENS_MEASURES = [
  {
    id: "both-places",
    name: "Notes in a shape that is played in both its places of the chord",
    ...{ unit: "share", among: "notes", asks: "least", usual: 0.5, farthest: 1 },
    ...{ harmony: true, chance: "pitches shuffled", hand: true },
  },
  {
    id: "fingering-moved",
    name: "Places of the keyboard at which one fingering is played",
    ...{ unit: "places", among: null, asks: "least", usual: 3, farthest: 24 },
    ...{ harmony: false, chance: "pitches shuffled", hand: true },
  },
  {
    id: "slides",
    name: "Slides from a black key into the white key above",
    ...{ unit: "times", among: null, asks: "least", usual: 2, farthest: 100 },
    ...{ harmony: false, chance: "pitches shuffled", hand: true },
  },
  {
    id: "blue-thirds",
    name: "Blue thirds",
    ...{ unit: "notes", among: null, asks: "least", usual: 3, farthest: 200 },
    ...{ harmony: true, chance: "fact", hand: false },
  },
  {
    id: "blue-third-to-third",
    name: "Blue thirds that go straight on to the third",
    ...{ unit: "times", among: null, asks: "least", usual: 2, farthest: 100 },
    ...{ harmony: true, chance: "pitches shuffled", hand: false },
  },
  {
    id: "avoid-leaned",
    name: "Notes that lean on the avoid note",
    ...{ unit: "share", among: "notes", asks: "most", usual: 0.01, farthest: 1 },
    ...{ harmony: true, chance: "pitches shuffled", hand: false },
  },
  {
    id: "guide-tones-at-changes",
    name: "Changes met with a third or a seventh",
    ...{ unit: "share", among: "changes", asks: "least", usual: 0.3, farthest: 1 },
    ...{ harmony: true, chance: "pitches shuffled", hand: false },
  },
  {
    id: "approaches",
    name: "Notes that lead into a chord tone by step",
    ...{ unit: "share", among: "notes", asks: "least", usual: 0.07, farthest: 1 },
    ...{ harmony: true, chance: "pitches shuffled", hand: false },
  },
  {
    id: "enclosures",
    name: "Chord tones reached from above and below",
    ...{ unit: "times", among: null, asks: "least", usual: 2, farthest: 100 },
    ...{ harmony: true, chance: "pitches shuffled", hand: false },
  },
  {
    id: "outside-notes",
    name: "Notes outside the chord's scale",
    ...{ unit: "notes", among: null, asks: "least", usual: 4, farthest: 500 },
    ...{ harmony: true, chance: "fact", hand: false },
  },
  {
    id: "outside-and-back",
    name: "Outside notes that come back by step",
    ...{ unit: "share", among: "outside notes", asks: "least", usual: 0.6, farthest: 1 },
    ...{ harmony: true, chance: "pitches shuffled", hand: false },
  },
  {
    id: "idea-in-one-chorus",
    name: "Times that one idea is heard in one chorus",
    ...{ unit: "times", among: null, asks: "least", usual: 3, farthest: 50 },
    ...{ harmony: false, chance: "closed form", hand: false },
  },
  {
    id: "idea-through-chorus",
    name: "Part of the chorus from the first to the last time of that idea",
    ...{ unit: "share", among: "bars of the chorus", asks: "least", usual: 0.6, farthest: 1 },
    ...{ harmony: false, chance: "closed form", hand: false },
  },
  {
    id: "rests",
    name: "Time in which the line rests",
    ...{ unit: "share", among: null, asks: "least", usual: 0.25, farthest: 0.95 },
    ...{ harmony: false, chance: "fact", hand: false },
  },
  {
    id: "answers",
    name: "Phrases that answer the one before",
    ...{ unit: "share", among: "phrases", asks: "least", usual: 0.1, farthest: 1 },
    ...{ harmony: false, chance: "pitches shuffled", hand: false },
  },
  {
    id: "longest-phrase",
    name: "Length of the longest phrase",
    ...{ unit: "seconds", among: null, asks: "most", usual: 10, farthest: 600 },
    ...{ harmony: false, chance: "fact", hand: false },
  },
  {
    id: "range",
    name: "From the lowest to the highest note",
    ...{ unit: "semitones", among: null, asks: "least", usual: 19, farthest: 87 },
    ...{ harmony: false, chance: "fact", hand: false },
  },
  {
    id: "register-change",
    name: "From the lowest-lying to the highest-lying part of the solo",
    ...{ unit: "semitones", among: null, asks: "least", usual: 7, farthest: 60 },
    ...{ harmony: false, chance: "pitches shuffled", hand: false },
  },
  {
    id: "swing-spread",
    name: "How far long and short eighths scatter around their middle",
    ...{ unit: "share", among: null, asks: "most", usual: 0.45, farthest: 3 },
    ...{ harmony: false, chance: "moved in time", hand: false },
  },
  {
    id: "placing-spread",
    name: "How far the notes scatter around their place in the beat",
    ...{ unit: "milliseconds", among: null, asks: "most", usual: 60, farthest: 1000 },
    ...{ harmony: false, chance: "fact", hand: false },
  },
] as const satisfies readonly NamedMeasure[];

export type LensMeasure = (typeof LENS_MEASURES)[number];
export type LensMeasureId = LensMeasure["id"];

/** The measure of that id. */
export function lensMeasure(id: LensMeasureId): NamedMeasure {
  return LENS_MEASURES.find((one) => one.id === id)!;
}

/** "41 %", "3 times", "1 chord", "9 semitones": a value of a lens's measure with its unit. */
export function lensValue(value: number, unit: LensUnit): string {
  if (unit === "share") return `${Math.round(value * 100)} %`;
  const shown = unit === "seconds" ? Math.round(value * 10) / 10 : Math.round(value);
  return `${shown} ${shown === 1 ? LENS_UNITS[unit].replace(/s$/, "") : LENS_UNITS[unit]}`;
}
