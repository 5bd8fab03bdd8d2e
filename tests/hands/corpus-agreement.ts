/** The demo takes against the truth that their generator wrote down, through the whole analysis. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Analysis } from "../../src/account.ts";
import { demoAccount, demoClass } from "../demo-class.ts";

interface TrueNote {
  readonly pitch: number;
  readonly onset: number;
  readonly finger: number;
  readonly placement: { readonly shape: string; readonly anchorPitch: number } | null;
}

export interface TakeAgreement {
  readonly take: string;
  readonly notes: number;
  /** Shares of the true notes. A note that was not found as part of the solo counts as wrong. */
  readonly placements: number;
  readonly fingers: number;
}

/** Seconds by which a performed onset may differ from the one that was written down. */
const NEAR = 0.12;

const at = (path: string) => fileURLToPath(new URL(`../../corpus/${path}`, import.meta.url));

/** One row a take. All shapes are offered, as in the plain use of the program. */
export function corpusAgreement(only: (take: string) => boolean = () => true): TakeAgreement[] {
  return demoClass.takes
    .filter(({ id, truth }) => only(id) && existsSync(at(truth)))
    .map((take) => {
      const truth = (JSON.parse(readFileSync(at(take.truth), "utf8")) as { notes: TrueNote[] }).notes;
      return {
        take: take.id,
        ...compared(truth, demoAccount(take, { shapes: null })),
      };
    });
}

function compared(truth: readonly TrueNote[], account: Analysis): Omit<TakeAgreement, "take"> {
  const placements = new Map(account.placements.map((placement) => [placement.id, placement]));
  const solo = account.notes.filter((note) => note.solo);
  const used = new Set<string>();
  let [right, fingers] = [0, 0];
  for (const wanted of truth) {
    const near = solo
      .filter(
        ({ id, pitch, onset }) =>
          pitch === wanted.pitch && !used.has(id) && Math.abs(onset - wanted.onset) < NEAR,
      )
      .sort((a, b) => Math.abs(a.onset - wanted.onset) - Math.abs(b.onset - wanted.onset))[0];
    if (near === undefined) continue;
    used.add(near.id);
    const found = near.placement === null ? null : placements.get(near.placement)!;
    const same =
      (found?.shape ?? null) === (wanted.placement?.shape ?? null) &&
      (found?.anchorPitch ?? null) === (wanted.placement?.anchorPitch ?? null);
    if (same) right++;
    if (near.finger === wanted.finger) fingers++;
  }
  return { notes: truth.length, placements: right / truth.length, fingers: fingers / truth.length };
}
