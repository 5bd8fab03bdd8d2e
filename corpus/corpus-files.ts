import { CHARTS, classCharts, PLAYERS } from "./class.ts";
import { TAKES } from "./class-takes.ts";
import { generateTake } from "./generator/generate-take.ts";
import { truthText } from "./generator/truth.ts";

/** `corpus/manifest.json`: what there is, for programs and people. */
export interface Manifest {
  readonly name: string;
  readonly note: string;
  readonly players: typeof PLAYERS;
  readonly charts: typeof CHARTS;
  readonly takes: readonly ManifestTake[];
}

export interface ManifestTake {
  readonly id: string;
  /** Paths from the corpus folder. */
  readonly file: string;
  readonly truth: string;
  /** `id` of a chart of the manifest. */
  readonly chart: string;
  readonly player: string;
  readonly title: string;
  readonly date: string;
  readonly tags: readonly string[];
  /** Names of the shapes that the player uses, for `options.shapes`. */
  readonly shapes: readonly string[];
}

/** All generated files of the corpus; `textOf` reads a chart file by its path from the corpus folder. */
export function corpusFiles(textOf: (file: string) => string): { path: string; bytes: Uint8Array }[] {
  const charts = classCharts(textOf);
  const utf8 = new TextEncoder();
  const files: { path: string; bytes: Uint8Array }[] = [];
  const takes = TAKES.map((take): ManifestTake => {
    const { id, chart, player, title, date, tags } = take;
    const made = generateTake(take.seed, { ...take.spec, title, chart: charts[chart] });
    const file = `takes/${id}.${made.format === "midi" ? "mid" : "musicxml"}`;
    const truth = `takes/${id}.truth.json`;
    files.push({ path: file, bytes: made.bytes }, { path: truth, bytes: utf8.encode(truthText(made.truth)) });
    const shapes = take.shapes ?? CHARTS.find((one) => one.id === chart)!.shapes;
    return { id, file, truth, chart, player, title, date, tags, shapes };
  });
  const manifest: Manifest = {
    name: "Thursday evening class",
    note: "Invented players, invented tunes, generated takes: nobody was recorded.",
    players: PLAYERS,
    charts: CHARTS,
    takes,
  };
  files.push({ path: "manifest.json", bytes: utf8.encode(`${JSON.stringify(manifest, null, 2)}\n`) });
  return files;
}
