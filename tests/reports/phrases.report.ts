/**
 * `npm run report -- phrases`: phrase ends against those that people annotated in the open solos. Learns the weights of
 * `src/rhythm/cuts.ts` from one half and prints what they, and plain rules beside them, are worth on the other.
 */
import {
  BREATH_LIKELY,
  BREATH_WEIGHTS,
  breathLikelihood,
  type GapFeatures,
  gapFeatures,
} from "../../src/rhythm/cuts.ts";
import { melodicLine, type PlacedNote } from "../../src/take/index.ts";
import { beatClock, OPEN_SOLOS_MISSING, openSolos } from "../outside/open-solos.ts";
import { learnLogistic } from "./logistic.ts";

interface Gap {
  readonly features: GapFeatures;
  readonly free: GapFeatures;
  readonly ends: boolean;
  readonly half: 0 | 1;
}

type Column = keyof GapFeatures;
const WITH_BEAT: Column[] = ["restBeats", "restSeconds", "pace", "after", "leap", "peak"];
const WITHOUT: Column[] = ["restSeconds", "stepSeconds", "pace", "after", "leap", "peak"];

export function report(): void {
  if (OPEN_SOLOS_MISSING !== null) {
    console.log(`skipped: ${OPEN_SOLOS_MISSING}`);
    return;
  }
  const gaps = allGaps();
  const [fitted, held] = [gaps.filter((gap) => gap.half === 0), gaps.filter((gap) => gap.half === 1)];
  console.log(`${fitted.length} gaps learned from, ${held.length} held out`);
  for (const [name, columns, of] of [
    ["beat", WITH_BEAT, (gap: Gap) => gap.features],
    ["free", WITHOUT, (gap: Gap) => gap.free],
  ] as const) {
    const weights = learn(fitted, columns, of);
    console.log(name, JSON.stringify(weights), "in use", JSON.stringify(BREATH_WEIGHTS[name]));
    console.log(`  held out: ${score(held, (gap) => breathLikelihood(of(gap)) >= BREATH_LIKELY)}`);
    console.log(`  fitted:   ${score(fitted, (gap) => breathLikelihood(of(gap)) >= BREATH_LIKELY)}`);
    console.log(`  said/found by decile: ${reliability(held, (gap) => breathLikelihood(of(gap)))}`);
  }
  for (const rest of [0.6, 0.8, 1]) {
    const rule = (gap: Gap) => gap.features.restBeats! >= Math.log(rest);
    console.log(`a rest of ${rest} beats alone, held out: ${score(held, rule)}`);
  }
}

function allGaps(): Gap[] {
  return openSolos().flatMap((solo) => {
    const beatAt = beatClock(solo.beats);
    const line = melodicLine(
      solo.notes.map((note, i) => ({ ...note, id: `n${i}` }) as unknown as PlacedNote & { phrase: string }),
    );
    const features = gapFeatures(line, { beatAt });
    const free = gapFeatures(line, null);
    return features.map((gap, i) => ({
      features: gap,
      free: free[i]!,
      ends: line[i]!.note.phrase !== line[i + 1]!.note.phrase,
      half: solo.half,
    }));
  });
}

function learn(gaps: readonly Gap[], columns: readonly Column[], of: (gap: Gap) => GapFeatures) {
  const weights = learnLogistic(
    gaps.map((gap) => columns.map((column) => Number(of(gap)[column]))),
    gaps.map((gap) => gap.ends),
  );
  return Object.fromEntries(["constant", ...columns].map((name, k) => [name, weights[k]!]));
}

function score(gaps: readonly Gap[], said: (gap: Gap) => boolean): string {
  let [hits, extra, missed] = [0, 0, 0];
  for (const gap of gaps) {
    if (said(gap)) gap.ends ? hits++ : extra++;
    else if (gap.ends) missed++;
  }
  const round = (x: number) => x.toFixed(3);
  return `precision ${round(hits / (hits + extra))}, recall ${round(hits / (hits + missed))}, F ${round((2 * hits) / (2 * hits + extra + missed))}`;
}

function reliability(gaps: readonly Gap[], likelihood: (gap: Gap) => number): string {
  const bins = Array.from({ length: 10 }, () => ({ n: 0, said: 0, found: 0 }));
  for (const gap of gaps) {
    const p = likelihood(gap);
    const bin = bins[Math.min(9, Math.floor(p * 10))]!;
    bin.n++;
    bin.said += p;
    if (gap.ends) bin.found++;
  }
  return bins
    .filter((bin) => bin.n > 0)
    .map((bin) => `${(bin.said / bin.n).toFixed(2)}/${(bin.found / bin.n).toFixed(2)} (${bin.n})`)
    .join(" ");
}
