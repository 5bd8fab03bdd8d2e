/** Enclosures by the handbooks' definition: precision and recall over fifty that are and fifty that are not. */
import { describe, expect, it } from "vitest";
import { labelled } from "../harmony/notation.ts";
import { ENCLOSURES, type Figure, NEAR_MISSES } from "./enclosure-examples.ts";

/** Line roles of the notes asked about. */
function rolesOf({ text, setting }: Figure): readonly (string | null)[] {
  const { labels, marked } = labelled(text, setting);
  return marked.map((i) => labels[i]!.lineRole);
}

const isFound = (figure: Figure) => rolesOf(figure).every((role) => role === "enclosure");
const isSaid = (figure: Figure) => rolesOf(figure).includes("enclosure");

describe("enclosures", () => {
  it("there are fifty of either kind", () => {
    expect([ENCLOSURES.length, NEAR_MISSES.length]).toEqual([50, 50]);
  });
  it("are found and said rightly in at least nine of ten", () => {
    const found = ENCLOSURES.filter(isFound).length;
    const false_ = NEAR_MISSES.filter(isSaid).length;
    expect(found / ENCLOSURES.length).toBeGreaterThanOrEqual(0.9);
    expect(found / (found + false_)).toBeGreaterThanOrEqual(0.9);
  });
  it.each(ENCLOSURES)("$text encloses: $why", (figure) => {
    expect(rolesOf(figure)).toEqual(rolesOf(figure).map(() => "enclosure"));
  });
  it.each(NEAR_MISSES)("$text does not: $why", (figure) => {
    expect(rolesOf(figure)).not.toContain("enclosure");
  });
});
