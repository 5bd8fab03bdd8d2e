/** How much doubtful passages are worth: wrong hands inside and outside of them, on keyboard scores of two staves. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { readTake } from "../../src/ingest/index.ts";
import { doubtfulPassages } from "../../src/parting/doubtful.ts";
import { partByPath } from "../../src/parting/part-hands.ts";
import type { Note } from "../../src/take/index.ts";
import { partedRows } from "./parted-rows.ts";

/** Scores with printed fingers beside the checkout; never part of it. */
export const STAFF_SCORES = new URL("../../../shared/data/fingered/", import.meta.url);
export const hasStaffScores = existsSync(STAFF_SCORES);

export interface DoubtFigures {
  readonly notes: number;
  /** Share of the notes that lie in the hand of their staff. */
  readonly share: number;
  /** Share of the notes in doubtful passages; and of those inside and outside, the share in the wrong hand. */
  readonly told: number;
  readonly wrongInside: number;
  readonly wrongOutside: number;
}

/** Staff taken for hand, parts of two staves flattened and parted again. */
export function doubtFigures(): DoubtFigures {
  const counts = { inside: 0, outside: 0, wrongInside: 0, wrongOutside: 0 };
  for (const file of readdirSync(STAFF_SCORES).filter((name) => name.endsWith(".musicxml"))) {
    const take = readTake(readFileSync(new URL(file, STAFF_SCORES)), { name: file });
    for (const { id } of take.parts.filter(({ staves }) => staves === 2)) {
      count(
        take.notes.filter((note) => note.part === id && note.printed !== null),
        counts,
      );
    }
  }
  const { inside, outside, wrongInside, wrongOutside } = counts;
  return {
    notes: inside + outside,
    share: 1 - (wrongInside + wrongOutside) / (inside + outside),
    told: inside / (inside + outside),
    wrongInside: wrongInside / inside,
    wrongOutside: wrongOutside / outside,
  };
}

function count(notes: readonly Note[], counts: Record<string, number>): void {
  const { right, margin } = partByPath(notes);
  const doubted = new Set<number>();
  const rows = partedRows(notes, right, margin);
  for (const { first, last } of doubtfulPassages(rows)) for (let i = first; i <= last; i++) doubted.add(i);
  notes.forEach(({ printed }, i) => {
    const place = doubted.has(i) ? "inside" : "outside";
    counts[place]!++;
    const isRight = right[i] === 1;
    if (isRight !== (printed!.staff === 1)) counts[place === "inside" ? "wrongInside" : "wrongOutside"]!++;
  });
}
