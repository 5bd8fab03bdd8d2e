import type { AccountPlacement } from "../../../account.ts";
import { between, type Facts } from "../../facts.ts";

export function notesOf(facts: Facts, placements: readonly AccountPlacement[]) {
  return placements.flatMap((placement) => between(facts.solo, facts.place, placement));
}
