/** How much of the handbooks' fingering is found by weights that were fitted to other rows of the handbooks. */
import { PUBLISHED_WEIGHTS } from "../../src/hands/ergonomics.ts";
import type { FingeringOptions } from "../../src/hands/fingerings.ts";
import { LINE_FINGERING } from "../../src/hands/line-weights.ts";
import { fitWeights, type Rows } from "./fit-weights.ts";
import { handbookAgreement, publishedOptions } from "./handbook-agreement.ts";
import type { HandbookRow } from "./handbooks.ts";

export interface HeldOut {
  readonly name: string;
  /** Notes held out, and shares of them fingered as in either handbook. */
  readonly notes: number;
  readonly fitted: number;
  readonly heldOut: number;
  /** By the published rules as they stand, and by the weights in use, which were chosen with all rows in view. */
  readonly published: number;
  readonly inUse: number;
}

const isScale = (row: HandbookRow) => row.kind.endsWith("scale");
const isBlack = (row: HandbookRow) => [1, 3, 6, 8, 10].includes(row.keys[0]! % 12);
const isRight = (row: HandbookRow) => row.hand === "right";
const quarter = (n: number) => (row: HandbookRow) => row.keys[0]! % 4 === n;

const FOLDS: readonly (readonly [name: string, heldOut: Rows])[] = [
  ["arpeggios, fitted to scales", (row) => !isScale(row)],
  ["scales, fitted to arpeggios", isScale],
  ["keys on black tonics, fitted to white ones", isBlack],
  ["keys on white tonics, fitted to black ones", (row) => !isBlack(row)],
  ["left hand, fitted to the right", (row) => !isRight(row)],
  ["right hand, fitted to the left", isRight],
  ...[0, 1, 2, 3].map(
    (n) =>
      [
        `three keys (${["C E Ab", "Db F A", "D Gb Bb", "Eb G B"][n]}), fitted to the other nine`,
        quarter(n),
      ] as const,
  ),
];

/** @param only picks folds by name */
export function heldOutFigures(only: (name: string) => boolean = () => true): HeldOut[] {
  return FOLDS.filter(([name]) => only(name)).map(([name, heldOut]) => {
    const rest: Rows = (row) => !heldOut(row);
    const options = fitWeights(rest);
    return {
      name,
      notes: handbookAgreement(heldOut, options).notes,
      fitted: share(rest, options),
      heldOut: share(heldOut, options),
      published: share(heldOut, publishedOptions(PUBLISHED_WEIGHTS)),
      inUse: share(heldOut, LINE_FINGERING),
    };
  });
}

function share(rows: Rows, options: FingeringOptions): number {
  const { notes, either } = handbookAgreement(rows, options);
  return either / notes;
}
