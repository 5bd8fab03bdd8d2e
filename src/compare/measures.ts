import type { MEASURE_UNITS } from "./comparison-schema.ts";
import type { Unit } from "./sample.ts";

/** Something that two sides can have more or less of: a ratio of sums over phrases, or a quantile over their values. */
export interface Measure {
  readonly id: string;
  readonly name: string;
  readonly unit: (typeof MEASURE_UNITS)[number];
  readonly of: RatioOfSums | QuantileSpread;
  /** What a side has more of when its value is greater, after "clearly has". */
  readonly more: string;
  readonly less: string;
  /** What a greater and a smaller value is called, where it is not "more" and "less". */
  readonly ways?: readonly [string, string];
}

/** Sum of `over` divided by sum of `under`; phrases for which `over` is null are left out. */
export interface RatioOfSums {
  readonly kind: "ratio";
  readonly over: (unit: Unit) => number | null;
  readonly under: (unit: Unit) => number;
}

/** The quantile `high` of all values, less the quantile `low` when there is one. */
export interface QuantileSpread {
  readonly kind: "quantile";
  readonly values: (unit: Unit) => readonly number[];
  readonly high: number;
  readonly low: number | null;
  /** Fewest values that say something. */
  readonly least: number;
}

const ratio = (over: RatioOfSums["over"], under: RatioOfSums["under"]): RatioOfSums => ({
  kind: "ratio",
  over,
  under,
});

const shareOfNotes = (count: (unit: Unit) => number) => ratio(count, (unit) => unit.notes.length);

const median = (values: QuantileSpread["values"]): QuantileSpread => ({
  kind: "quantile",
  values,
  high: 0.5,
  low: null,
  least: 1,
});

/** What is compared, in the order of a page. */
export const MEASURES: readonly Measure[] = [
  {
    id: "density",
    name: "Notes a bar",
    unit: "notes a bar",
    of: ratio(
      (unit) => (unit.bars === null ? null : unit.notes.length),
      (unit) => unit.bars!,
    ),
    more: "more notes a bar",
    less: "fewer notes a bar",
  },
  {
    id: "speed",
    name: "Notes a second",
    unit: "notes a second",
    of: ratio(
      (unit) => unit.notes.length,
      (unit) => unit.seconds + unit.restSeconds,
    ),
    more: "more notes a second",
    less: "fewer notes a second",
  },
  {
    id: "rests",
    name: "Share of rest",
    unit: "share",
    of: ratio(
      (unit) => unit.restSeconds,
      (unit) => unit.seconds + unit.restSeconds,
    ),
    more: "more rest",
    less: "less rest",
  },
  {
    id: "phrase-length",
    name: "Notes in a phrase",
    unit: "notes",
    of: ratio(
      (unit) => unit.notes.length,
      () => 1,
    ),
    more: "longer phrases",
    less: "shorter phrases",
  },
  {
    id: "answers",
    name: "Phrases that answer",
    unit: "share",
    of: ratio(
      (unit) => (unit.answers ? 1 : 0),
      () => 1,
    ),
    more: "more answering phrases",
    less: "fewer answering phrases",
  },
  {
    id: "runs",
    name: "Notes in stepwise runs",
    unit: "share",
    of: shareOfNotes((unit) => unit.inRuns),
    more: "more running scales",
    less: "fewer running scales",
  },
  {
    id: "motifs",
    name: "Notes in motifs",
    unit: "share",
    of: shareOfNotes((unit) => unit.inMotifs),
    more: "more notes in returning ideas",
    less: "fewer notes in returning ideas",
  },
  {
    id: "guide-tones",
    name: "Thirds and sevenths",
    unit: "share",
    of: shareOfNotes((unit) => unit.notes.filter((note) => note.guideTone).length),
    more: "more thirds and sevenths",
    less: "fewer thirds and sevenths",
  },
  {
    id: "colours",
    name: "Tensions and blue notes",
    unit: "share",
    of: shareOfNotes(
      (unit) => unit.notes.filter((note) => note.role === "tension" || note.role === "blue").length,
    ),
    more: "more tensions and blue notes",
    less: "fewer tensions and blue notes",
  },
  {
    id: "outside",
    name: "Notes outside the chord",
    unit: "share",
    of: shareOfNotes(
      (unit) => unit.notes.filter((note) => note.role === "outside" || note.role === "avoid").length,
    ),
    more: "more notes outside the chord",
    less: "fewer notes outside the chord",
  },
  {
    id: "height",
    name: "Median pitch",
    unit: "MIDI number",
    of: median((unit) => unit.notes.map((note) => note.pitch)),
    more: "a higher line",
    less: "a lower line",
  },
  {
    id: "breadth",
    name: "Range in use (10 % to 90 %)",
    unit: "semitones",
    of: {
      kind: "quantile",
      values: (unit) => unit.notes.map((note) => note.pitch),
      high: 0.9,
      low: 0.1,
      least: 8,
    },
    more: "a wider range",
    less: "a narrower range",
  },
  {
    id: "swing",
    name: "Beat-upbeat ratio",
    unit: "ratio",
    of: median((unit) => unit.swing),
    more: "a longer first eighth",
    less: "a shorter first eighth",
  },
  {
    id: "timing",
    name: "Early or late",
    unit: "ms",
    of: median((unit) => unit.timing),
    more: "notes that come later",
    less: "notes that come earlier",
    ways: ["later", "earlier"],
  },
  {
    id: "placed",
    name: "Notes in a known placement",
    unit: "share",
    of: shareOfNotes((unit) => unit.placed),
    more: "more notes in known placements",
    less: "fewer notes in known placements",
  },
  {
    id: "shifts",
    name: "Shifts in ten notes",
    unit: "shifts",
    of: ratio(
      (unit) => 10 * unit.shifts,
      (unit) => unit.notes.length,
    ),
    more: "more shifts of the hand",
    less: "fewer shifts of the hand",
  },
];

/** A set of labels whose shares two sides can have alike or unlike. */
export interface Distribution {
  readonly id: string;
  readonly name: string;
  readonly labels: (unit: Unit) => readonly (string | null)[];
}

export const DISTRIBUTIONS: readonly Distribution[] = [
  { id: "roles", name: "Harmonic roles", labels: (unit) => unit.notes.map((note) => note.role) },
  { id: "line-roles", name: "Line roles", labels: (unit) => unit.notes.map((note) => note.lineRole) },
  { id: "degrees", name: "Degrees", labels: (unit) => unit.notes.map((note) => note.degree) },
  { id: "placements", name: "Placements", labels: (unit) => unit.placements },
];
