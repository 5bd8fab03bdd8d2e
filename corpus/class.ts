import { type Chart, formChart, parseChart } from "../src/chart/index.ts";
import {
  type CompingSpec,
  type Manner,
  STEADY_TIME,
  STRONG,
  type TakeSpec,
  type TimeSpec,
} from "./generator/spec.ts";

/**
 * An invented evening class, Thursdays, four adults. Nobody here exists, and every tune is the class's own.
 */
export interface Player {
  readonly id: string;
  readonly name: string;
  readonly about: string;
}

export const PLAYERS: readonly Player[] = [
  { id: "maren", name: "Maren", about: "Has played for twenty years; tells a story in each chorus." },
  { id: "bram", name: "Bram", about: "Quick fingers from years of scales; likes to keep them busy." },
  { id: "tilda", name: "Tilda", about: "In her first year of improvising; three takes over eight weeks." },
  {
    id: "jonas",
    name: "Jonas",
    about: "Came from the guitar; found one place for the hand and stays there.",
  },
];

export type ChartId = "quick-change-in-f" | "minor-blues-in-g" | "lantern-yard";

/** `form` and `key` are built in; `file` is chart text beside the takes. */
export const CHARTS: readonly {
  readonly id: ChartId;
  readonly name: string;
  readonly form: string | null;
  readonly key: string;
  readonly file: string | null;
  /** Shapes that the class uses on it. */
  readonly shapes: readonly string[];
}[] = [
  {
    id: "quick-change-in-f",
    name: "Blues in F, quick change",
    form: "blues-quick-change",
    key: "F",
    file: null,
    shapes: ["third-and-steps"],
  },
  {
    id: "minor-blues-in-g",
    name: "Minor blues in G",
    form: "blues-minor",
    key: "Gm",
    file: null,
    shapes: ["third-and-steps", "minor pentatonic"],
  },
  {
    id: "lantern-yard",
    name: "Lantern Yard",
    form: null,
    key: "Bb",
    file: "charts/lantern-yard.txt",
    shapes: ["third-and-steps", "minor pentatonic", "major pentatonic"],
  },
];

/** The charts of the class; `textOf` reads a chart file. */
export function classCharts(textOf: (file: string) => string): Record<ChartId, Chart> {
  const read = (id: ChartId) => {
    const { form, key, file } = CHARTS.find((chart) => chart.id === id)!;
    return form === null ? parseChart(textOf(file!)) : formChart(form, key);
  };
  return {
    "quick-change-in-f": read("quick-change-in-f"),
    "minor-blues-in-g": read("minor-blues-in-g"),
    "lantern-yard": read("lantern-yard"),
  };
}

/** A take of the class: what is played, by whom and when, and the seed that makes it. */
export interface ClassTake {
  /** File name without ending. */
  readonly id: string;
  readonly player: string;
  readonly chart: ChartId;
  readonly title: string;
  /** ISO date; a Thursday. */
  readonly date: string;
  readonly tags: readonly string[];
  /** Shapes that the player uses, where they are not the chart's. */
  readonly shapes: readonly string[] | null;
  readonly seed: number;
  readonly spec: Omit<TakeSpec, "title" | "chart">;
}

const TWO_TRACKS: CompingSpec = { style: "shells", layout: "two tracks" };
const ONE_TRACK: CompingSpec = { style: "guide tones", layout: "one track" };

const take = (part: {
  choruses: number;
  manner?: Partial<Manner>;
  time?: Partial<TimeSpec>;
  comping?: CompingSpec;
  format?: "midi" | "musicxml";
  pickup?: number;
  annotated?: boolean;
}): ClassTake["spec"] => ({
  choruses: part.choruses,
  format: part.format ?? "midi",
  manner: { ...STRONG, ...part.manner },
  time: { ...STEADY_TIME, ...part.time },
  comping: part.comping ?? TWO_TRACKS,
  pickup: part.pickup ?? 0,
  annotated: part.annotated ?? true,
});

/** Tilda before she was told to breathe. */
const FIRST_WEEKS: Partial<Manner> = {
  plan: "stream",
  places: "root",
  answers: 0,
  motif: 0,
  slides: 0,
  guide: 0,
  enclosures: 0,
  entries: [0],
  centre: 67,
  climb: 0,
  grows: false,
};

const MIDWAY: Partial<Manner> = {
  plan: "talk",
  places: "all",
  silence: 0.1,
  answers: 0.3,
  motif: 0.25,
  slides: 0.2,
  guide: 0.25,
  enclosures: 0,
  entries: [0, 0, 0.5],
  centre: 67,
  climb: 2,
  grows: false,
};

export const TAKES: readonly ClassTake[] = [
  {
    id: "maren-quick-change",
    player: "maren",
    chart: "quick-change-in-f",
    title: "Three choruses for the back row",
    date: "2026-09-10",
    tags: ["strong", "two tracks", "click"],
    shapes: null,
    seed: 101,
    spec: take({ choruses: 3 }),
  },
  {
    id: "maren-minor-blues",
    player: "maren",
    chart: "minor-blues-in-g",
    title: "Late bus",
    date: "2026-09-24",
    tags: ["strong", "one track", "click"],
    shapes: null,
    seed: 102,
    spec: take({
      choruses: 3,
      comping: ONE_TRACK,
      time: { tempo: 112, swing: 1.9 },
      manner: { centre: 70, climb: 3 },
    }),
  },
  {
    id: "maren-lantern-yard",
    player: "maren",
    chart: "lantern-yard",
    title: "Lantern Yard, written out",
    date: "2026-10-08",
    tags: ["strong", "pickup", "notation"],
    shapes: null,
    seed: 103,
    spec: take({
      choruses: 2,
      format: "musicxml",
      pickup: 1.5,
      time: { tempo: 138 },
      manner: { centre: 70 },
    }),
  },
  {
    id: "maren-rubato",
    player: "maren",
    chart: "lantern-yard",
    title: "Lantern Yard, before the others came",
    date: "2026-10-22",
    tags: ["rubato", "one track", "no click"],
    shapes: null,
    seed: 104,
    spec: take({
      choruses: 1,
      time: {
        kind: "rubato",
        tempo: 66,
        wander: 0.12,
        swing: 1.1,
        swingSpread: 0.05,
        jitter: 0.02,
        behind: 0.02,
      },
      comping: { style: "rolled", layout: "one track" },
      manner: { grows: false, silence: 0, centre: 71 },
    }),
  },
  {
    id: "bram-quick-change",
    player: "bram",
    chart: "quick-change-in-f",
    title: "Up and down",
    date: "2026-09-10",
    tags: ["scales", "two tracks", "click"],
    shapes: ["five-finger major", "five-finger minor"],
    seed: 201,
    spec: take({
      choruses: 2,
      manner: { plan: "scales", silence: 0, centre: 69 },
      time: { tempo: 152, swing: 1.3, swingSpread: 0.1, behind: -0.022, jitter: 0.008 },
    }),
  },
  {
    id: "bram-minor-blues",
    player: "bram",
    chart: "minor-blues-in-g",
    title: "Running for the late bus",
    date: "2026-10-01",
    tags: ["no click", "tempo drift", "two tracks"],
    shapes: null,
    seed: 202,
    spec: take({
      choruses: 3,
      manner: { answers: 0.2, motif: 0.15, guide: 0.2, slides: 0.1, enclosures: 0, silence: 0.02, climb: 0 },
      time: {
        kind: "free",
        tempo: 128,
        drift: 9,
        wander: 0.006,
        swing: 1.5,
        swingSpread: 0.25,
        jitter: 0.01,
      },
    }),
  },
  {
    id: "bram-lantern-yard",
    player: "bram",
    chart: "lantern-yard",
    title: "Yard work",
    date: "2026-10-15",
    tags: ["notation"],
    shapes: null,
    seed: 203,
    spec: take({
      choruses: 2,
      format: "musicxml",
      manner: {
        plan: "stream",
        answers: 0,
        motif: 0,
        slides: 0.1,
        guide: 0.3,
        enclosures: 0,
        entries: [0, 0.5, 1],
      },
      time: { tempo: 144 },
      comping: { style: "walking", layout: "two tracks" },
    }),
  },
  {
    id: "tilda-week-1",
    player: "tilda",
    chart: "quick-change-in-f",
    title: "First try",
    date: "2026-09-10",
    tags: ["progress", "two tracks", "click"],
    shapes: null,
    seed: 301,
    spec: take({
      choruses: 2,
      manner: FIRST_WEEKS,
      time: { tempo: 96, swing: 1.6, swingSpread: 0.75, jitter: 0.022, behind: -0.012 },
    }),
  },
  {
    id: "tilda-week-4",
    player: "tilda",
    chart: "quick-change-in-f",
    title: "Second try",
    date: "2026-10-01",
    tags: ["progress", "two tracks", "click"],
    shapes: null,
    seed: 302,
    spec: take({
      choruses: 2,
      manner: MIDWAY,
      time: { tempo: 100, swing: 1.6, swingSpread: 0.4, jitter: 0.015, behind: -0.006 },
    }),
  },
  {
    id: "tilda-week-8",
    player: "tilda",
    chart: "quick-change-in-f",
    title: "Third try, with room",
    date: "2026-10-29",
    tags: ["progress", "two tracks", "click"],
    shapes: null,
    seed: 303,
    spec: take({
      choruses: 2,
      manner: {
        guide: 0.7,
        slides: 0.45,
        enclosures: 0.2,
        motif: 0.6,
        answers: 0.75,
        silence: 0.12,
        climb: 5,
      },
      time: { tempo: 104, swing: 1.65, swingSpread: 0.18, jitter: 0.01, behind: 0.004 },
    }),
  },
  {
    id: "tilda-lantern-yard",
    player: "tilda",
    chart: "lantern-yard",
    title: "Yard without a click",
    date: "2026-11-05",
    tags: ["no click", "one track"],
    shapes: null,
    seed: 304,
    spec: take({
      choruses: 2,
      manner: { ...MIDWAY, answers: 0.6, motif: 0.4 },
      time: { kind: "free", tempo: 108, drift: 0, wander: 0.004, swing: 1.6, swingSpread: 0.2, jitter: 0.01 },
      comping: ONE_TRACK,
    }),
  },
  {
    id: "jonas-quick-change",
    player: "jonas",
    chart: "quick-change-in-f",
    title: "Home place",
    date: "2026-09-17",
    tags: ["one placement", "one track", "click"],
    shapes: null,
    seed: 401,
    spec: take({
      choruses: 2,
      comping: { style: "walking", layout: "one track" },
      manner: { places: "one", climb: 0, slides: 0.15, guide: 0, enclosures: 0, motif: 0.2, answers: 0.3 },
      time: { tempo: 118, behind: 0.028, jitter: 0.01 },
    }),
  },
  {
    id: "jonas-minor-blues",
    player: "jonas",
    chart: "minor-blues-in-g",
    title: "Platform four",
    date: "2026-10-08",
    tags: ["notation"],
    shapes: null,
    seed: 402,
    spec: take({
      choruses: 2,
      format: "musicxml",
      annotated: false,
      manner: { motif: 0.5, answers: 0.5, enclosures: 0, guide: 0.2, climb: 0, centre: 67 },
      time: { tempo: 120 },
    }),
  },
  {
    id: "jonas-pickup",
    player: "jonas",
    chart: "quick-change-in-f",
    title: "From the kitchen",
    date: "2026-11-12",
    tags: ["pickup", "two tracks", "click"],
    shapes: null,
    seed: 403,
    spec: take({
      choruses: 2,
      pickup: 1.5,
      manner: { guide: 0.4, enclosures: 0, slides: 0.3, climb: 2 },
      time: { tempo: 120, behind: 0.018, swing: 1.55, swingSpread: 0.2 },
    }),
  },
];
