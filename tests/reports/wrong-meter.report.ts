/**
 * `npm run report -- wrong-meter [N] [performances]`: how sure bars are said to be where the chart has the right meter and
 * where the same chords stand in bars of another length, beat for beat or bar by bar, and how often the meter is doubted. N takes (16 where nothing is
 * said) of the generator, of the simulator and of solos with a hand that plays the chart, by their tempo told or a click
 * where they have one; and the performances of people where they are asked for, by tables of other composers, from which it
 * learns the weights of `src/align/meter-doubt.ts`.
 */
import { quartersOfBeat } from "../../src/align/free/free-form.ts";
import { align } from "../../src/align/index.ts";
import { inThrees, METER_WEIGHTS } from "../../src/align/meter-doubt.ts";
import { type Chart, quartersPerBar } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { Take } from "../../src/take/index.ts";
import { freeTablesFrom } from "../align/count-free.ts";
import { compedTakes, soloTakes } from "../align/given-charts.ts";
import { SOLOS_THERE } from "../align/human-solos.ts";
import { drawPerformance } from "../align/simulator/index.ts";
import { PERFORMANCES_THERE, readTwoHanded } from "../align/two-handed.ts";
import { otherMeter, rebarred, stretched } from "../align/wrong-meter.ts";
import { learnLogistic } from "./logistic.ts";

const USUAL = 16;
const SEED = 33_000;

interface Laying {
  readonly sure: number;
  readonly doubted: boolean;
  /** How far its strokes go in threes, on the beats as they were laid; null where none were. */
  readonly threes: number | null;
}

interface Pair {
  readonly right: Laying;
  /** The same chords on the same beats, and in the same bars. */
  readonly wrong: Laying;
  readonly stretched: Laying;
  /** Whether the right meter has bars of three beats. */
  readonly three: boolean;
}

interface GivenTake {
  readonly take: Take;
  readonly chart: Chart;
  readonly tempo: number | null;
}

export function report(args: readonly string[]): void {
  const most = Number(args.find((arg) => Number(arg) > 0) ?? USUAL);
  const simulated = (kind: "click" | "steady") =>
    Array.from({ length: most }, (_, k) => {
      const { take, spec } = drawPerformance(kind, SEED + k);
      return { take, chart: spec.chart, tempo: null, told: spec.tempo };
    });
  const steady = simulated("steady");
  const generated = compedTakes(2 * most, SEED);
  const solos = SOLOS_THERE ? soloTakes(1, most, "comping") : [];
  const cases: readonly (readonly [string, readonly GivenTake[]])[] = [
    ["generator, on a click", generated.filter((_, k) => k % 2 === 0)],
    ["generator, freely", generated.filter((_, k) => k % 2 === 1)],
    ["simulator, on a click", simulated("click")],
    ["simulator, steady", steady],
    ["simulator, steady, tempo told", steady.map((one) => ({ ...one, tempo: one.told }))],
    ["solos with a hand that plays the chart", solos],
  ];
  for (const [name, takes] of cases)
    print(
      name,
      takes.flatMap((one) => pairOf(one, align)),
    );
  if (!PERFORMANCES_THERE || !args.includes("performances")) return;
  const played = performances();
  print("performances", played);
  printWeights(played);
}

function performances(): Pair[] {
  return ([0, 1] as const).flatMap((half) => {
    const tables = freeTablesFrom(readTwoHanded(half === 0 ? 1 : 0));
    const lay: typeof align = (take, chart, hands, options) => align(take, chart, hands, options, tables);
    return readTwoHanded(half).flatMap(({ take, chart }) => pairOf({ take, chart, tempo: null }, lay));
  });
}

function pairOf({ take, chart, tempo }: GivenTake, lay: typeof align): Pair[] {
  const other = otherMeter(chart.meter);
  if (other === null) return [];
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const layingOn = (one: Chart): Laying => {
    const laid = lay(take, one, hands, { method: "auto", tempo, anchors: [] });
    return {
      sure: laid.confidence,
      doubted: laid.warnings.some(({ code }) => code === "meter-doubted"),
      threes: laid.tempo === null ? null : inThrees(take.notes, laid.map, quartersOfBeat(one)),
    };
  };
  const three = quartersPerBar(chart.meter) / quartersOfBeat(chart) === 3;
  return [
    {
      right: layingOn(chart),
      wrong: layingOn(rebarred(chart, other)),
      stretched: layingOn(stretched(chart, other)),
      three,
    },
  ];
}

function print(name: string, pairs: readonly Pair[]): void {
  if (pairs.length === 0) return;
  console.log(`${name}, ${pairs.length} takes:`);
  for (const which of ["right", "wrong", "stretched"] as const) {
    const list = pairs.map((pair) => pair[which]);
    const mean = list.reduce((sum, { sure }) => sum + sure, 0) / list.length;
    const count = (test: (one: Laying) => boolean) => list.filter(test).length;
    console.log(
      `  ${which === "stretched" ? "wrong meter, as many bars" : `${which} meter`}: ${mean.toFixed(2)} sure, .8 and more ${count(({ sure }) => sure >= 0.8)}, .9 and more ${count(({ sure }) => sure >= 0.9)}, doubted ${count(({ doubted }) => doubted)}`,
    );
  }
}

/** Bars of three weigh as much as the others. */
function printWeights(pairs: readonly Pair[]): void {
  const rows = pairs.flatMap(({ right, wrong, three }) =>
    [right, wrong].flatMap(({ threes }) => (threes === null ? [] : [{ threes, three }])),
  );
  const share = rows.filter(({ three }) => three).length / rows.length;
  const weights = learnLogistic(
    rows.map(({ threes }) => [threes]),
    rows.map(({ three }) => three),
    { ridge: 0.3, weight: (i) => (rows[i]!.three ? 0.5 / share : 0.5 / (1 - share)) },
  );
  console.log(`weights ${weights.join(", ")} (in use ${METER_WEIGHTS.join(", ")})`);
}
