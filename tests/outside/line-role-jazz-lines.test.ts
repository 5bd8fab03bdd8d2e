/**
 * Lines of the jazz handbooks, every note with its line role. The three outlines of a II-V are Ligon's [memory], the
 * dominant scale with the added half step Baker's [memory], enclosures and chromatic approaches Coker's [memory].
 */
import { describe, expect, it } from "vitest";
import { labelled, type Setting } from "../harmony/notation.ts";

interface LineExample {
  readonly name: string;
  readonly text: string;
  readonly setting?: Setting;
  /** "name role" for every note, separated by commas; "-> name" where the target is worth saying. */
  readonly roles: string;
}

const LINES: readonly LineExample[] = [
  {
    name: "outline 1: from the third of II down the scale to the third of V",
    text: "Dm7 | G7 // F4@1 E4@1.5 D4@2 C4@3 | B3@1",
    roles: "F chord tone, E passing -> D, D chord tone, C chord tone, B chord tone",
  },
  {
    name: "outline 2: up the arpeggio of II, its seventh falls to the third of V",
    text: "Dm7 | G7 // D4@1 F4@1.5 A4@2 C5@2.5 | B4@1",
    roles: "D chord tone, F chord tone, A chord tone, C chord tone, B chord tone",
  },
  {
    name: "outline 3: down the arpeggio from the fifth",
    text: "Dm7 | G7 // A4@1 F4@1.5 D4@2 C4@2.5 | B3@1",
    roles: "A chord tone, F chord tone, D chord tone, C chord tone, B chord tone",
  },
  {
    name: "the dominant scale with a half step added between root and seventh: chord tones fall on the beat",
    text: "C7 // C5@1 B4@1.5 Bb4@2 A4@2.5 G4@3 F4@3.5 E4@4",
    setting: { key: "F" },
    roles:
      "C chord tone, B approach -> Bb, Bb chord tone, A passing -> G, G chord tone, F passing -> E, E chord tone",
  },
  {
    name: "enclosure of the third of I across the bar line",
    text: "G7 | Cmaj7 // B4@2 D5@2.5 C5@3 A4@3.5 F4@4 D#4@4.5 | E4@1",
    roles:
      "B chord tone, D chord tone, C escape, A held colour, F enclosure -> E, D# enclosure -> E, E chord tone",
  },
  {
    name: "two half steps from above into the fifth, two from below into the third",
    text: "Cmaj7 // C5@1 A4@1.5 Ab4@2 G4@2.5 D4@3 D#4@3.5 E4@4",
    roles:
      "C chord tone, A approach -> G, Ab approach -> G, G chord tone, D approach -> E, D# approach -> E, E chord tone",
  },
  {
    name: "chromatic run from root to third",
    text: "Cmaj7 // C4@1 C#4@1.5 D4@2 D#4@2.5 E4@3",
    roles: "C chord tone, C# passing -> E, D passing -> E, D# approach -> E, E chord tone",
  },
  {
    name: "guide tones alone: sevenths fall to thirds round the cycle",
    text: "Dm7 | G7 | Cmaj7 // C5@1 | B4@1 | B4@1",
    roles: "C chord tone, B chord tone, B chord tone",
  },
  {
    name: "every chord pushed by an eighth",
    text: "Dm7 | G7 | Cmaj7 // F4@1 A4@2 B4@4.5:2 | F4@3 E4@4.5:2 | G4@3",
    roles: "F chord tone, A chord tone, B anticipation, F chord tone, E anticipation, G chord tone",
  },
  {
    name: "a minor blues line down the blue fifth",
    text: "C7 // C5@1 Bb4@1.5 G4@2 Gb4@2.5 F4@3 Eb4@3.5 C4@4",
    setting: { idiom: "blues" },
    roles:
      "C chord tone, Bb chord tone, G chord tone, Gb passing -> F, F passing -> Eb, Eb escape, C chord tone",
  },
  {
    name: "the blue third crushed into the third under the fifth, twice",
    text: "C7 // G4@1 ~Eb4@2 E4@2 G4@2 ~Eb4@3 E4@3 G4@3 C5@4",
    setting: { idiom: "blues" },
    roles:
      "G chord tone, Eb approach -> E, E chord tone, G chord tone, Eb approach -> E, E chord tone, G chord tone, C chord tone",
  },
  {
    name: "double neighbours of root and fifth",
    text: "C7 // C4@1 D4@1.5 B3@2 C4@2.5 G4@3 A4@3.5 F#4@4 G4@4.5",
    setting: { key: "F" },
    roles:
      "C chord tone, D neighbour -> C, B neighbour -> C, C chord tone, G chord tone, A neighbour -> G, F# neighbour -> G, G chord tone",
  },
  {
    name: "one line over a turnaround: the same note changes what it is",
    text: "C | A7 | Dm7 | G7 // E4@1:4 | E4@1:4 | E4@1 F4@3 | F4@1 E4@2 D4@3",
    roles:
      "E chord tone, E chord tone, E suspension -> F, F chord tone, F chord tone, E passing -> D, D chord tone",
  },
];

describe("lines of the handbooks", () => {
  it.each(LINES)("$name: $text", ({ text, setting, roles }) => {
    const { labels } = labelled(text, setting);
    const bare = (name: string) => name.replace(/-?\d$/, "");
    const expected = roles.split(", ");
    const found = labels.map((label, i) => {
      const target = label.target === null ? null : labels[Number(label.target.slice(1)) - 1]!;
      const shown = expected[i]?.includes("->") && target !== null ? ` -> ${bare(target.spelling)}` : "";
      return `${bare(label.spelling)} ${label.lineRole}${shown}`;
    });
    expect(found).toEqual(expected);
  });
});
