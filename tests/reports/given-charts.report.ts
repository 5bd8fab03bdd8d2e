/**
 * `npm run report -- given-charts [N] [test|teach] [two-handed] [GIVEN...]`: how often a wrong chart is taken for right and a right
 * one doubted, as users get it: each take is laid on the chart that it is given. N solos of a half (24 of the held-out
 * one where nothing is said) under three conditions, N takes of the generator in which a hand comps, and pieces that
 * people played with both hands where these are asked for (they take their time); or only those whose names hold one of
 * the words: `given-charts 200 teach told click`. Learns the weights by which
 * `src/harmony/comping-fit.ts` weighs a hand that comps, and `src/harmony/line-fit.ts` a line alone.
 */
import {
  byLine,
  COMPING_WEIGHTS,
  LINE_FITS,
  LINE_WEIGHTS,
  tellingSureness,
} from "../../src/harmony/index.ts";
import {
  compedTakes,
  type Found,
  givenCharts,
  soloTakes,
  type Trial,
  twoHandedTakes,
} from "../align/given-charts.ts";
import { SOLOS_THERE } from "../align/human-solos.ts";
import { PERFORMANCES_THERE } from "../align/two-handed.ts";
import { learnLogistic } from "./logistic.ts";

const USUAL = 24;
const OPTIONS = ["test", "teach", "two-handed"];
/** First seed of the generator's takes: one half learns from other seeds than it is tested on. */
const SEEDS = { teach: 9000, test: 19_000 } as const;
/** Longest piece for both hands that is laid, in beats. */
const LONGEST = 700;
/** From this on the bars of a take are sure, and what is said of the harmony is said. */
const SURE = 0.8;

export function report(args: readonly string[]): void {
  const most = Number(args.find((arg) => Number(arg) > 0) ?? USUAL);
  const half = args.includes("teach") ? "teach" : "test";
  const solos = (condition: Parameters<typeof soloTakes>[2]) =>
    SOLOS_THERE ? soloTakes(half === "teach" ? 0 : 1, most, condition) : [];
  const words = args.filter((arg) => !(Number(arg) > 0 || OPTIONS.includes(arg)));
  const cases: readonly [string, () => Parameters<typeof givenCharts>[0]][] = [
    ["a line alone, its tempo told", () => solos("tempo told")],
    ["a line alone, click alone", () => solos("click alone")],
    ["comping hand by the chart", () => solos("comping")],
    ["comping hand of the generator", () => compedTakes(most, SEEDS[half])],
    [
      "both hands, freely",
      () => (PERFORMANCES_THERE && args.includes("two-handed") ? twoHandedTakes(LONGEST) : []),
    ],
  ];
  const takes = cases
    .filter(([name]) => words.length === 0 || words.some((word) => name.includes(word)))
    .map(([name, drawn]) => {
      const trials = givenCharts(drawn());
      if (trials.length > 0) printVerdicts(name, trials);
      return trials;
    });
  printWeights("a hand that comps", takes, ({ comping }) => comping, COMPING_WEIGHTS);
  printWeights("a line alone", takes, ({ line }) => line, LINE_WEIGHTS);
  printLimit(takes);
}

function printVerdicts(name: string, trials: readonly Trial[]): void {
  console.log(`${name}:`);
  const kinds = [...new Set(trials.map(({ kind }) => kind)), "wrong"];
  for (const kind of kinds) {
    const list = trials.filter((one) => (kind === "wrong" ? one.kind !== "own" : one.kind === kind));
    const said = list.flatMap(({ found }) => (found === null ? [] : [found]));
    const share = (test: (one: (typeof said)[number]) => boolean) =>
      `${((100 * said.filter(test).length) / said.length).toFixed(1)} %`;
    console.log(
      [
        `  ${kind.padEnd(6)} ${list.length}, refused ${list.length - said.length}`,
        `fits ${share(({ fit }) => fit?.verdict === "fits")}`,
        `doubtful ${share(({ fit }) => fit?.verdict === "doubtful")}`,
        `does not fit ${share(({ fit }) => fit?.verdict === "does not fit")}`,
        `cannot be told ${share(({ fit }) => fit === null || fit.verdict === "cannot be told")}`,
        `fits and its bars sure ${share(({ fit, confidence }) => fit?.verdict === "fits" && confidence >= SURE)}`,
      ].join(", "),
    );
  }
}

/** Likelihood by a line and the sureness of its bars from which a chart fits, in a fair mixture. */
const FITTING = 0.75;
/** Size of a whole sureness as a feature: of about that of the other. */
const WHOLE = 4;

/** From which log odds by its line on a chart fits, by how sure its bars are. */
function printLimit(cases: readonly (readonly Trial[])[]): void {
  const weights = learned(cases, ({ line, sure }) =>
    line === null ? null : [Math.log(byLine(line) / (1 - byLine(line))), WHOLE * tellingSureness(sure)],
  );
  if (weights === null) return;
  const [constant, odds, whole] = weights as [number, number, number];
  const from = (Math.log(FITTING / (1 - FITTING)) - constant) / odds;
  console.log(
    `a line alone fits from ${from.toFixed(2)} less ${((WHOLE * whole) / odds).toFixed(2)} by how sure its bars are (in use ${LINE_FITS.from}, ${LINE_FITS.each})`,
  );
}

function printWeights(
  name: string,
  cases: readonly (readonly Trial[])[],
  featuresOf: (found: Found) => readonly number[] | null,
  inUse: readonly number[],
): void {
  const weights = learned(cases, featuresOf);
  if (weights !== null) console.log(`weights of ${name} ${weights.join(", ")} (in use ${inUse.join(", ")})`);
}

/** Each kind of take weighs as much as another, and its own charts as much as the wrong ones. */
function learned(
  cases: readonly (readonly Trial[])[],
  featuresOf: (found: Found) => readonly number[] | null,
): number[] | null {
  const rows = cases.flatMap((trials) => {
    const heard = trials.flatMap(({ kind, found }) => {
      const features = found === null ? null : featuresOf(found);
      return features === null ? [] : [{ own: kind === "own", features }];
    });
    const own = heard.filter((one) => one.own).length;
    const weightOf = (isOwn: boolean) => 150 / Math.max(1, isOwn ? own : heard.length - own);
    // A line alone is now and then taken for two hands.
    return heard.length < trials.length / 2
      ? []
      : heard.map((one) => ({ ...one, weight: weightOf(one.own) }));
  });
  if (rows.length === 0) return null;
  return learnLogistic(
    rows.map(({ features }) => features),
    rows.map(({ own }) => own),
    { ridge: 0.1, weight: (i) => rows[i]!.weight },
  );
}
