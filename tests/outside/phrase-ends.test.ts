/** Phrase ends against those that people annotated; the half of the solos that the weights were not learned from. */
import { describe, expect, it } from "vitest";
import { phraseCuts } from "../../src/rhythm/cuts.ts";
import { melodicLine, type PlacedNote } from "../../src/take/index.ts";
import { beatClock, OPEN_SOLOS_MISSING, openSolos } from "./open-solos.ts";

describe("phrase ends on open solos held out", () => {
  it.skipIf(OPEN_SOLOS_MISSING !== null)(
    `agree with people's${OPEN_SOLOS_MISSING === null ? "" : ` (skipped: ${OPEN_SOLOS_MISSING})`}`,
    () => {
      let [hits, extra, missed] = [0, 0, 0];
      for (const solo of openSolos().filter(({ half }) => half === 1)) {
        const line = melodicLine(
          solo.notes.map((n, i) => ({ ...n, id: `n${i}` }) as unknown as PlacedNote & { phrase: string }),
        );
        const cuts = new Set(phraseCuts(line, { beatAt: beatClock(solo.beats) }).map(({ after }) => after));
        for (let i = 0; i + 1 < line.length; i++) {
          const ends = line[i]!.note.phrase !== line[i + 1]!.note.phrase;
          if (cuts.has(i)) ends ? hits++ : extra++;
          else if (ends) missed++;
        }
      }
      const f = (2 * hits) / (2 * hits + extra + missed);
      // A rest of .8 beats alone reaches .852 on these; a rule that falls to it has lost its reason.
      expect(f).toBeGreaterThan(0.88);
      expect(hits / (hits + extra)).toBeGreaterThan(0.88);
    },
  );
});
