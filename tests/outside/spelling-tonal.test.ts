/** Names of chord tones against npm's tonal 6.4.3, which spells every chord by its intervals. */
import { Chord, Note } from "tonal";
import { describe, expect, it } from "vitest";
import { labelled } from "../harmony/notation.ts";

const ROOTS = ["C", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B", "C#"];

/** Our symbol after the root, and tonal's where it differs. */
const KINDS: readonly (readonly [string, string])[] = [
  ["", "M"],
  ["m", "m"],
  ["7", "7"],
  ["maj7", "maj7"],
  ["m7", "m7"],
  ["6", "6"],
  ["m6", "m6"],
  ["m7b5", "m7b5"],
  ["dim7", "dim7"],
  ["m(maj7)", "mMaj7"],
  ["7sus4", "7sus4"],
  ["7b9", "7b9"],
  ["7#9", "7#9"],
  ["9", "9"],
  ["maj9", "maj9"],
  ["7#11", "7#11"],
  ["7#5", "7#5"],
];

describe("chord tones are spelled as tonal spells them", () => {
  it.each(KINDS)("%s", (kind, theirs) => {
    for (const root of ROOTS) {
      const names = Chord.get(root + theirs).notes;
      expect(names.length).toBeGreaterThan(2);
      const solo = names.map((name, i) => `${Note.simplify(`${name}4`)}@${i + 1}`);
      const { labels } = labelled(
        `${root}${kind} // ${solo.slice(0, 4).join(" ")} | ${solo.slice(4).join(" ")}`,
        {
          key: root === "C#" || root === "F#" ? "F#" : root === "Gb" ? "Gb" : root,
        },
      );
      names.forEach((name, i) => {
        const ours = labels[i]!.spelling.replace(/-?\d+$/, "");
        // Double accidentals are right in theory and not used under a chord: there the plain name of the key is ours.
        const expected = /##|bb/.test(name) ? Note.simplify(name) : name;
        expect([root + kind, ours]).toEqual([root + kind, expected]);
      });
    }
  });
});
