import { type Chart, formChart, parseChart } from "../src/chart/index.ts";
import type { TakeSpec } from "./generator/spec.ts";

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
