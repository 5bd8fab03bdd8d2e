/**
 * Scores of a pattern discovery by the definitions of Collins (Discovery of Repeated Themes & Sections, MIREX task,
 * 2013) [memory]: a pattern is the set of its occurrences, an occurrence the set of its notes.
 */

export type NoteSet = ReadonlySet<number>;
export type OccurrenceSet = readonly NoteSet[];

export interface PrecisionRecall {
  readonly precision: number;
  readonly recall: number;
  readonly f1: number;
}

/** Notes in common over the notes of the larger. */
export function cardinalityScore(p: NoteSet, q: NoteSet): number {
  let common = 0;
  for (const note of p) if (q.has(note)) common++;
  return common / Math.max(p.size, q.size);
}

/** Rows: occurrences of the true pattern; columns: of the discovered one. */
function scoreMatrix(truth: OccurrenceSet, found: OccurrenceSet): number[][] {
  return truth.map((p) => found.map((q) => cardinalityScore(p, q)));
}

/** Is each true pattern established, in one occurrence at least, by a discovered one? */
export function establishment(
  truth: readonly OccurrenceSet[],
  found: readonly OccurrenceSet[],
): PrecisionRecall {
  const matrix = establishmentMatrix(truth, found);
  return {
    ...withF1(
      mean(found.map((_, j) => Math.max(0, ...matrix.map((row) => row[j]!)))),
      mean(matrix.map((row) => Math.max(0, ...row))),
    ),
  };
}

/** Of the pairs that are established at least so well: how many of the occurrences are right, and are found? */
export function occurrenceScore(
  truth: readonly OccurrenceSet[],
  found: readonly OccurrenceSet[],
  least: number,
): PrecisionRecall {
  const pairs = truth.map((p) =>
    found.map((q) => {
      const matrix = scoreMatrix(p, q);
      if (Math.max(0, ...matrix.flat()) < least) return null;
      return {
        precision: mean(q.map((_, j) => Math.max(...matrix.map((row) => row[j]!)))),
        recall: mean(matrix.map((row) => Math.max(...row))),
      };
    }),
  );
  const rows = pairs
    .map((row) => row.flatMap((x) => (x === null ? [] : [x.recall])))
    .filter((r) => r.length > 0);
  const columns = found
    .map((_, j) => pairs.flatMap((row) => (row[j] == null ? [] : [row[j].precision])))
    .filter((c) => c.length > 0);
  return withF1(mean(columns.map((c) => Math.max(...c))), mean(rows.map((r) => Math.max(...r))));
}

function establishmentMatrix(truth: readonly OccurrenceSet[], found: readonly OccurrenceSet[]): number[][] {
  return truth.map((p) => found.map((q) => Math.max(0, ...scoreMatrix(p, q).flat())));
}

function withF1(precision: number, recall: number): PrecisionRecall {
  return {
    precision,
    recall,
    f1: precision + recall === 0 ? 0 : (2 * precision * recall) / (precision + recall),
  };
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((s, v) => s + v, 0) / values.length;
}
