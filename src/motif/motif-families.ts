import { MOTIF_VIEWPOINTS, type MotifViewpoint, type MotifWay } from "../account.ts";
import { falseDiscoveryRates } from "../statistics/false-discovery.ts";
import { type Candidate, discover, LIFT, RATE } from "./discovery.ts";
import { markovOf } from "./markov.ts";
import { NO_STEP, type StepChances, stepChances } from "./near.ts";
import { PitchChainTest } from "./pitch-chain-test.ts";
import { keptOf, salienceOf, wayOf } from "./salience.ts";
import type { SoloLine } from "./solo-line.ts";
import { sortText, textOf } from "./symbol-text.ts";
import { type Variant, variantsOf } from "./variants.ts";
import { discoverVaried, VARIED_LENGTHS } from "./varied.ts";

/** A family: an idea with all that returns of it. */
export interface MotifFamily {
  readonly viewpoint: MotifViewpoint;
  /** Codes of the viewpoint. */
  readonly pattern: readonly number[];
  readonly notes: number;
  /** In time order; no two overlap by more than a note. */
  readonly matches: readonly Variant[];
  readonly expected: number;
  readonly q: number;
  readonly coverage: number;
  readonly compactness: number;
  readonly weight: number;
  /** How it comes back, and the share of its occurrences that open a phrase. */
  readonly way: MotifWay;
  readonly openings: number;
}

/** A teacher sees so many ideas and no more. */
const MOST_IDEAS = 10;
/** Of these, so many of the hand at most, which stand after the others. */
const MOST_OF_HAND = 3;
/** Candidates whose variants are gathered for them, each of which means a walk through the line. */
const MOST_TRIES = 60;
/** An idea of whose notes more than this share already belong to weightier ideas is one of them again. */
const OVERLAP = 0.5;

/** What an idea's notes count for: where less is the same, less is said. [practice] */
const TELLING: Readonly<Record<MotifViewpoint, number>> = {
  "chromatic interval": 1,
  "interval and rhythm": 1.02,
  degree: 0.9,
  finger: 0.7,
  rhythm: 0.6,
  contour: 0.5,
};

/** Viewpoints that hear one and the same melody. */
const MELODY: readonly MotifViewpoint[] = ["chromatic interval", "interval and rhythm", "degree"];

/**
 * Patterns of fingers are tested as if so many times as many were looked at: the rules that fingers are inferred by
 * bring patterns of their own. On pitches drawn at random a fourth of the lines had an idea of the hand without it.
 */
const HAND = 4;

/** Without it an idea would be told by a form of it that has a chance note more on one end. */
const VARIED_LESS = 0.3;

/**
 * The ideas of a line, at most ten: those that are heard, the weightiest first, then those of the hand. Every
 * viewpoint's repeats are tested against chance, with the false-discovery rate held over all of them; what survives
 * gathers its variants and takes its notes with it, so that no idea is told twice, and is ranked by coverage,
 * compactness and what a listener keeps of it (`salience.ts`).
 */
export function motifFamilies(line: SoloLine): MotifFamily[] {
  if (line.heads.length < 2) return [];
  const steps = stepsOf(line);
  const rhythm = textOf(line, "rhythm");
  const pitchTest = new PitchChainTest(line, steps, { text: rhythm, model: markovOf(rhythm) });
  const found: Candidate[] = [];
  const tests = { melody: 0, varied: 0, all: 0 };
  let chances: StepChances | null = null;
  for (const viewpoint of MOTIF_VIEWPOINTS) {
    const text = sortText(textOf(line, viewpoint));
    if (text.codes.length === 0) continue;
    const { candidates, tests: own, model } = discover(text, viewpoint);
    for (const candidate of significant(candidates, own, own, pitchTest)) found.push(candidate);
    tests.all += own;
    if (MELODY.includes(viewpoint)) tests.melody = Math.max(tests.melody, own);
    if (viewpoint !== "chromatic interval") continue;
    chances = stepChances(steps, model, text.codes);
    tests.varied = own * VARIED_LENGTHS.length;
    for (const candidate of significant(discoverVaried(steps, chances), tests.varied, own, pitchTest))
      found.push(candidate);
    tests.all += tests.varied;
  }
  if (chances === null) return [];
  found.sort((a, b) => weightOf(b) - weightOf(a) || a.p - b.p || a.starts[0]! - b.starts[0]!);
  // Repeats within repeats crowd the list and would lower the bar for the rest; the rate is held over what is told.
  const families = (candidates: readonly Candidate[], told: Uint8Array, most: number) =>
    atRateByKind(chosen(candidates, steps, chances, { told, most }), tests)
      .map((candidate) => withVariants(candidate, line, steps, chances))
      .sort((a, b) => b.weight - a.weight);
  const heard = families(
    found.filter((candidate) => !isOfHand(candidate)),
    new Uint8Array(line.heads.length),
    MOST_IDEAS,
  );
  // Fingers are inferred and not heard: they take no notes from what is heard, and tell none of it again.
  const told = new Uint8Array(line.heads.length);
  for (const { matches } of heard) for (const { start, notes } of matches) told.fill(1, start, start + notes);
  const most = Math.min(MOST_OF_HAND, MOST_IDEAS - heard.length);
  return [...heard, ...families(found.filter(isOfHand), told, most)];
}

const isOfHand = ({ viewpoint }: Candidate): boolean => viewpoint === "finger";

/** Semitones from each place to the next, `NO_STEP` across a breath. */
function stepsOf(line: SoloLine): Int32Array {
  return Int32Array.from({ length: Math.max(0, line.heads.length - 1) }, (_, i) =>
    line.breath[i] === 1 ? NO_STEP : line.heads[i + 1]!.pitch - line.heads[i]!.pitch,
  );
}

type Kept = Candidate & { readonly q: number };

/** Candidates of one viewpoint that stand at the rate, also against the chain of pitches. */
function significant(
  candidates: readonly Candidate[],
  tests: number,
  trials: number,
  pitchTest: PitchChainTest,
): Candidate[] {
  const kept = atRate(candidates, tests).map((candidate) => pitchTest.weigh(candidate, trials));
  return atRate(kept, tests);
}

/** Two searches of one melody share its rate. */
const SHARED = 2;

/** Patterns that could have been found: of one view of the melody, of its varied returns, and in all viewpoints. */
interface Tests {
  readonly melody: number;
  readonly varied: number;
  readonly all: number;
}

/**
 * The rate over what is told, for melodies, varied melodies and the rest each by itself. Intervals, their rhythm and
 * degrees look at the same notes: what returns in one returns in the others, so that they count as one search; plain and
 * varied returns of a melody share the rate.
 */
function atRateByKind(candidates: readonly Candidate[], tests: Tests): Kept[] {
  const kindOf = ({ varied, viewpoint }: Candidate) =>
    varied !== undefined ? "varied" : MELODY.includes(viewpoint) ? "melody" : "other";
  const of = (kind: ReturnType<typeof kindOf>) => candidates.filter((one) => kindOf(one) === kind);
  const others = of("other");
  return [
    ...atRate(of("melody"), SHARED * tests.melody),
    ...atRate(of("varied"), SHARED * tests.varied),
    ...atRate(others.filter(isOfHand), tests.all * HAND),
    ...atRate(
      others.filter((one) => !isOfHand(one)),
      tests.all,
    ),
  ];
}

function atRate(candidates: readonly Candidate[], tests: number): Kept[] {
  const rates = falseDiscoveryRates(
    candidates.map((candidate) => candidate.p),
    tests,
  );
  return candidates
    .map((candidate, i) => ({ ...candidate, q: rates[i]! }))
    .filter((candidate) => candidate.q <= RATE && candidate.starts.length - 1 >= LIFT * candidate.expected);
}

/**
 * Rank before the variants are known: notes that come back, beyond what chance would bring; a varied return counts for less.
 * The first statement is not counted, so that four returns of a bar outweigh two of the pair of bars that they make;
 * nor are two of the notes, so that a whole idea outweighs the cell that it shares with half the line.
 */
function weightOf(candidate: Candidate): number {
  const returns = candidate.starts.length - VARIED_LESS * (candidate.varied?.returns ?? 0);
  return TELLING[candidate.viewpoint] * (candidate.notes - 2) * (returns - 1 - candidate.expected);
}

/** The weightiest candidates that do not tell the same notes again; `told` marks what has been told, and is filled. */
function chosen(
  candidates: readonly Candidate[],
  steps: Int32Array,
  chances: StepChances,
  { told, most }: { readonly told: Uint8Array; readonly most: number },
): Candidate[] {
  const kept: Candidate[] = [];
  let tries = 0;
  for (const candidate of candidates) {
    if (kept.length === most || tries === MOST_TRIES) break;
    if (shareTold(candidate, told) > OVERLAP) continue;
    tries++;
    const matches = matchesOf(candidate, steps, chances);
    // What is left when variants that chance would give as well is not counted.
    if (matches.length < Math.max(2, candidate.starts.length / 2)) continue;
    for (const match of matches) told.fill(1, match.start, match.start + match.notes);
    kept.push(candidate);
  }
  return kept;
}

function shareTold(candidate: Candidate, told: Uint8Array): number {
  let [already, all] = [0, 0];
  for (const start of candidate.starts) {
    for (let i = start; i < start + candidate.notes; i++) {
      already += told[i] ?? 0;
      all++;
    }
  }
  return already / all;
}

function withVariants(candidate: Kept, line: SoloLine, steps: Int32Array, chances: StepChances): MotifFamily {
  const matches = matchesOf(candidate, steps, chances);
  const covered = new Uint8Array(line.heads.length);
  let spanned = 0;
  let own = 0;
  for (const match of matches) {
    covered.fill(1, match.start, match.start + match.notes);
    spanned += match.notes;
    own += Math.min(match.notes, candidate.notes);
  }
  const coverage = covered.reduce((sum, c) => sum + c, 0) / line.heads.length;
  const compactness = own / spanned;
  const surplus = Math.max(0, 1 - (1 + candidate.expected) / matches.length);
  const salience = salienceOf(candidate.notes, matches, line);
  return {
    viewpoint: candidate.viewpoint,
    pattern: candidate.pattern,
    notes: candidate.notes,
    matches,
    expected: candidate.expected,
    q: candidate.q,
    coverage,
    compactness,
    weight: coverage * compactness * surplus * TELLING[candidate.viewpoint] * keptOf(salience),
    way: wayOf(salience, matches, line),
    openings: salience.openings,
  };
}

function matchesOf(candidate: Candidate, steps: Int32Array, chances: StepChances): readonly Variant[] {
  switch (candidate.viewpoint) {
    case "chromatic interval":
    case "interval and rhythm":
      return variantsOf(candidate, steps, chances);
    case "degree":
    case "contour":
    case "rhythm":
    case "finger":
      return candidate.starts.map((start) => ({
        start,
        notes: candidate.notes,
        change: "none",
        at: 0,
        kind: "same",
      }));
  }
}
