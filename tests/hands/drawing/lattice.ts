/**
 * A line as a lattice of grips for drawing points: what each grip, each step and each three in a row cost without any
 * points, and which facts each of them holds. Costs come from `src/hands` itself, asked with no points at all.
 */
import type { FingerCosts } from "../../../src/hands/finger-costs.ts";
import {
  FACT_KINDS,
  type Fact,
  type FactKind,
  type FingerPoints,
  FRESH,
  isRestruck,
  noteFacts,
  ownFacts,
  pairFacts,
  surroundingsOf,
  togetherFacts,
  tripleFacts,
} from "../../../src/hands/finger-features.ts";
import { linkCost, pathSteps, type Step, tieOf } from "../../../src/hands/finger-steps.ts";
import type { HandEvent } from "../../../src/hands/hand-event.ts";
import { type PathWeights, weightsOf } from "../../../src/hands/line-weights.ts";
import { ownPoints } from "../../../src/hands/own-points.ts";
import { isBlackKey } from "../../../src/pitch/index.ts";
import type { Finger } from "../../../src/take/index.ts";

/** Where each kind of fact begins among all, and how many there are. */
const KINDS = Object.keys(FACT_KINDS) as FactKind[];
const STARTS = new Map<FactKind, number>();
let facts = 0;
for (const kind of KINDS) {
  STARTS.set(kind, facts);
  facts += FACT_KINDS[kind];
}
export const FACTS = facts;

/** The points of all facts in one row, kind by kind. */
export function pointsOf(row: ArrayLike<number>): FingerPoints {
  return Object.fromEntries(
    KINDS.map((kind) => [
      kind,
      Array.from({ length: FACT_KINDS[kind] }, (_, k) => row[STARTS.get(kind)! + k]!),
    ]),
  ) as unknown as FingerPoints;
}

/** A row with a number for every fact. */
export function rowOf(number: (kind: FactKind, index: number) => number): Float64Array {
  return Float64Array.from(
    KINDS.flatMap((kind) => Array.from({ length: FACT_KINDS[kind] }, (_, index) => number(kind, index))),
  );
}

/** Sets of facts, each kept once where it can be named. */
export class FactSets {
  readonly #named = new Map<string, number>();
  readonly facts: number[][] = [];
  readonly times: number[][] = [];

  /** Number of the set. `name` null: never asked for again. */
  of(name: string | null, gather: (fact: Fact) => void): number {
    const known = name === null ? undefined : this.#named.get(name);
    if (known !== undefined) return known;
    const found = new Map<number, number>();
    gather((kind, index, times) => {
      const at = STARTS.get(kind)! + index;
      found.set(at, (found.get(at) ?? 0) + times);
    });
    const id = this.facts.length;
    this.facts.push([...found.keys()]);
    this.times.push([...found.values()]);
    if (name !== null) this.#named.set(name, id);
    return id;
  }
}

/** One moment: numbers of grips are `own.length`; those of the moments before come first in links and triples. */
export interface LatticeStep {
  readonly own: Float64Array;
  readonly ownFacts: Int32Array;
  /** From grip p before to grip c: at p * grips + c. */
  readonly link: Float64Array;
  readonly linkFacts: Int32Array;
  readonly linkScale: Float64Array;
  /** From grips e and p before to grip c, at (p * grips + c) * (grips two before) + e; empty where nothing binds them. */
  readonly tripleFacts: Int32Array;
  readonly tripleScale: number;
  /** Grips that the known fingers leave. */
  readonly allowed: Uint8Array;
  readonly isKnown: boolean;
}

const NOTHING = weightsOf(pointsOf(new Float64Array(FACTS)));

/** Weights under which a link costs what it counts of its two top keys (`unit` 1), or nothing of them (0). */
function probe(unit: number): PathWeights {
  const pair = (_a: Finger, _from: number, _b: Finger, _to: number, tie: number) => unit * tie;
  const { together } = NOTHING;
  return { costs: Object.assign(Object.create(NOTHING.costs) as FingerCosts, { pair }), together };
}
const [UNIT, SILENT] = [probe(1), probe(0)];

/** Weights under which a link costs what it counts of one fact beside the top line. */
const BESIDE_PROBES = (["leavesKey", "crosses", "changesFinger"] as const).map((name) => ({
  ...SILENT,
  together: { ...NOTHING.together, [name]: 1 },
}));

/** @param known for every event and key the fingers that may be meant, or null */
export function latticeOf(
  events: readonly HandEvent[],
  known: readonly (readonly (readonly Finger[] | null)[])[],
  sets: FactSets,
  byHeart: boolean,
): LatticeStep[] {
  const biases = byHeart ? undefined : events.map(() => null);
  const free = events.map((event) => event.keys.map(() => null));
  const steps = pathSteps(events, free, NOTHING, ownPoints(events, NOTHING.costs, biases));
  const tops = steps.map(({ top }) => top);
  const fresh = events.map(({ ease }) => Number(ease > FRESH));
  const times = events.map(({ interval }) => interval);
  return steps.map((step, i): LatticeStep => {
    const [before, earlier] = [steps[i - 1], steps[i - 2]];
    const links = before === undefined ? NO_LINKS : linksOf(before, step, sets);
    const { together } = NOTHING;
    const bound =
      before === undefined ? 0 : Math.min(tieOf(step.event, together), tieOf(before.event, together));
    const triples = earlier !== undefined && !isRestruck(earlier.top, before!.top, step.top);
    const allowed = allowedIn(step, known[i]!);
    return {
      own: Float64Array.from(step.own),
      ownFacts: Int32Array.from(step.grips, (_, c) => ownSet(step, c, { tops, fresh, times }, i, sets)),
      ...links,
      tripleFacts: triples ? triplesOf(earlier, before!, step, sets) : new Int32Array(0),
      tripleScale: triples ? bound : 0,
      allowed: allowed ?? new Uint8Array(step.grips.length).fill(1),
      isKnown: allowed !== null,
    };
  });
}

const NO_LINKS = { link: new Float64Array(0), linkFacts: new Int32Array(0), linkScale: new Float64Array(0) };

interface Line {
  readonly tops: readonly number[];
  readonly fresh: readonly number[];
  readonly times: readonly number[];
}

function ownSet(step: Step, c: number, { tops, fresh, times }: Line, i: number, sets: FactSets): number {
  return sets.of(null, (fact) => {
    const { fingers } = step.grips[c]!;
    const { keys } = step.moment;
    fingers.forEach((b, n) => {
      for (let m = 0; m < n; m++)
        if (fingers[m] && b) togetherFacts(keys[m]!, fingers[m]!, keys[n]!, b, fact);
    });
    const finger = step.tops[c];
    if (!finger || step.event.keys.length > 1) return;
    const whites = [tops[i - 1], tops[i + 1]].filter((key) => key !== undefined && !isBlackKey(key)).length;
    noteFacts(finger, isBlackKey(step.top), whites, fact);
    ownFacts(surroundingsOf(tops, fresh, i, times), finger, fact);
  });
}

function linksOf(
  before: Step,
  step: Step,
  sets: FactSets,
): Pick<LatticeStep, "link" | "linkFacts" | "linkScale"> {
  const [ps, cs] = [before.grips.length, step.grips.length];
  const link = new Float64Array(ps * cs);
  const linkFacts = new Int32Array(ps * cs);
  const linkScale = new Float64Array(ps * cs);
  for (let p = 0; p < ps; p++) {
    for (let c = 0; c < cs; c++) {
      const k = p * cs + c;
      link[k] = linkCost(before, p, step, c, NOTHING);
      linkScale[k] = linkCost(before, p, step, c, UNIT) - linkCost(before, p, step, c, SILENT);
      const [a, b] = [before.tops[p], step.tops[c]];
      const gather = (fact: Fact) => {
        if (a && b) pairFacts(before.top, a, step.top, b, fact);
      };
      if (before.moment.keys.length === 1 && step.moment.keys.length === 1) {
        const colours = `${isBlackKey(before.top)} ${isBlackKey(step.top)}`;
        linkFacts[k] = sets.of(`p ${a} ${b} ${step.top - before.top} ${colours}`, gather);
        continue;
      }
      const scale = linkScale[k]!;
      linkScale[k] = 1;
      const silent = linkCost(before, p, step, c, SILENT);
      linkFacts[k] = sets.of(null, (fact) => {
        gather((kind, index, times) => fact(kind, index, scale * times));
        BESIDE_PROBES.forEach((weights, which) => {
          const times = linkCost(before, p, step, c, weights) - silent;
          if (times !== 0) fact("beside", which, times);
        });
      });
    }
  }
  return { link, linkFacts, linkScale };
}

function triplesOf(earlier: Step, before: Step, step: Step, sets: FactSets): Int32Array {
  const [es, ps, cs] = [earlier.grips.length, before.grips.length, step.grips.length];
  const found = new Int32Array(es * ps * cs);
  const semitones = Math.max(-36, Math.min(36, step.top - earlier.top));
  for (let p = 0; p < ps; p++) {
    for (let c = 0; c < cs; c++) {
      for (let e = 0; e < es; e++) {
        const [a, b, last] = [earlier.tops[e], before.tops[p], step.tops[c]];
        found[(p * cs + c) * es + e] = sets.of(`t ${a} ${b} ${last} ${semitones}`, (fact) => {
          if (a && b && last) tripleFacts(a, b, last, semitones, fact);
        });
      }
    }
  }
  return found;
}

/** The grips that hold a known finger on every key that has one; null where nothing is known, or no grip does. */
function allowedIn(step: Step, known: readonly (readonly Finger[] | null)[]): Uint8Array | null {
  const isAsked = step.moment.struck.some((n) => n >= 0 && known[n] !== null);
  if (!isAsked) return null;
  const allowed = Uint8Array.from(step.grips, ({ fingers }) =>
    Number(
      step.moment.struck.every((n, k) => {
        const wanted = n < 0 ? null : known[n];
        return wanted === null || wanted === undefined || wanted.includes(fingers[k]!);
      }),
    ),
  );
  return allowed.includes(1) ? allowed : null;
}
