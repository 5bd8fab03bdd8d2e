import type { Verdict } from "./comparison-schema.ts";

/** False-discovery rate at which a difference is called clear. */
const CLEAR = 0.05;

/** An effect (Cliff's delta) below this is not called clear however sure it is: "medium" of Romano et al. 2006. */
const HEARD_EFFECT = 0.33;

export interface Evidence {
  /** First side less second side. */
  readonly difference: number;
  /** Cliff's delta over phrases, or null when single phrases have no value. */
  readonly delta: number | null;
  readonly p: number;
  /** Adjusted over everything that is compared on the page. */
  readonly q: number;
  /** Smallest p that so few phrases could give. */
  readonly least: number;
}

/** "More" and "less" are said of the first side. */
export function verdictOf(evidence: Evidence | null): Verdict {
  if (evidence === null || evidence.least > CLEAR) return "too little to say";
  const { difference, delta, p, q } = evidence;
  const more = difference > 0;
  if (q <= CLEAR && (delta === null || Math.abs(delta) >= HEARD_EFFECT))
    return more ? "clearly more" : "clearly less";
  if (p <= CLEAR) return more ? "perhaps more" : "perhaps less";
  return "no clear difference";
}

export function verdictOfDistributions(evidence: Omit<Evidence, "difference" | "delta"> | null): Verdict {
  if (evidence === null || evidence.least > CLEAR) return "too little to say";
  if (evidence.q <= CLEAR) return "clearly different";
  return evidence.p <= CLEAR ? "perhaps different" : "no clear difference";
}
