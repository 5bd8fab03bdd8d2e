import type { AccountNote } from "../../../account.ts";

const RESOLVING: ReadonlySet<string> = new Set([
  "approach",
  "enclosure",
  "passing",
  "neighbour",
  "anticipation",
  "appoggiatura",
]);

/** True for a note that leads by step to where it was going. */
export function resolves({ lineRole }: AccountNote): boolean {
  return lineRole !== null && RESOLVING.has(lineRole);
}
