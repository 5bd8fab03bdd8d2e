/** A label of a compared distribution as the pictures name it: a role by the word of its sign, a degree by its figure. */
import type { DistributionComparison } from "../../src/compare/comparison-schema.ts";
import { capital, withAccidentals } from "../../src/words/index.ts";
import { ROLE_MARKS } from "../draw/role-marks.ts";

export function labelShown(distribution: DistributionComparison["id"], label: string): string {
  if (distribution === "roles") return capital(ROLE_MARKS.find((mark) => mark.role === label)?.word ?? label);
  return capital(withAccidentals(label));
}
