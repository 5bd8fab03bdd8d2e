import type { AccountNote, AccountPhrase } from "../../../account.ts";
import type { MeasuredLine } from "../../measured-line.ts";

/** Notes from which on a phrase draws an outline. [practice] */
const DRAWS = 4;

interface Shaped {
  readonly shape: AccountPhrase["shape"];
  readonly notes: readonly AccountNote[];
}

/** The phrases that are long enough to draw an outline. */
export function shapedPhrases({ phrases, outlines }: MeasuredLine): Shaped[] {
  return phrases.flatMap(({ notes }, i) => (notes.length >= DRAWS ? [{ notes, shape: outlines[i]! }] : []));
}

/** The outline that most of them draw, and how many do. */
export function commonest(line: MeasuredLine): {
  shaped: Shaped[];
  shape: AccountPhrase["shape"];
  count: number;
} {
  const shaped = shapedPhrases(line);
  const counts = new Map<AccountPhrase["shape"], number>();
  for (const { shape } of shaped) counts.set(shape, (counts.get(shape) ?? 0) + 1);
  const [shape, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? (["level", 0] as const);
  return { shaped, shape, count };
}

export function commonestShare(line: MeasuredLine): number | null {
  const { shaped, count } = commonest(line);
  return shaped.length === 0 ? null : count / shaped.length;
}
