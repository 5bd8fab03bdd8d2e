import type { RuleWeights } from "../../src/hands/ergonomics.ts";
import { cheapestFingering, type FingeringOptions } from "../../src/hands/fingerings.ts";
import { mirrorPitch } from "../../src/hands/placements.ts";
import { HANDBOOK_ROWS, type HandbookRow } from "./handbooks.ts";

export interface HandbookAgreement {
  readonly notes: number;
  /** Notes fingered as in handbook A, in B, and in either. */
  readonly a: number;
  readonly b: number;
  readonly either: number;
}

/** Fingers of a row played two octaves up and down again, as rising digits: on the way up, and on the way down. */
export function fingersOf(
  row: HandbookRow,
  options: FingeringOptions,
): { readonly up: string; readonly down: string } {
  const seen = row.hand === "right" ? row.keys : row.keys.map(mirrorPitch);
  const there = [...seen, ...[...seen].reverse().slice(1)];
  const { fingers } = cheapestFingering(there, options)!;
  return {
    up: fingers.slice(0, seen.length).join(""),
    down: fingers
      .slice(seen.length - 1)
      .reverse()
      .join(""),
  };
}

/** Agreement over the rows that pass, note by note, both ways. */
export function handbookAgreement(
  passes: (row: HandbookRow) => boolean,
  options: FingeringOptions,
): HandbookAgreement {
  let [notes, a, b, either] = [0, 0, 0, 0];
  for (const row of HANDBOOK_ROWS.filter(passes)) {
    for (const fingers of Object.values(fingersOf(row, options))) {
      for (let i = 0; i < fingers.length; i++) {
        const [inA, inB] = [fingers[i] === row.a[i], fingers[i] === row.b[i]];
        notes++;
        if (inA) a++;
        if (inB) b++;
        if (inA || inB) either++;
      }
    }
  }
  return { notes, a, b, either };
}

/** The published rules as they stand, with the least that lets them play on: the hand may leap, a finger may repeat. */
export function publishedOptions(weights: RuleWeights): FingeringOptions {
  return { weights, leap: 3, sameFinger: 12 };
}
