import { Note as TonalNote } from "tonal";
import { describe, expect, it } from "vitest";
import { indexAccount } from "../../client/shell/account-index.ts";
import { hitNames } from "../../client/shell/ideas.ts";
import { bareKeyName } from "../../client/shell/words.ts";
import { line } from "../../client/views/readings/line.ts";
import { register } from "../../client/views/register.ts";
import type { Analysis } from "../../src/account.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { sampleAccount } from "./sample-account.ts";

/** The account with its black keys spelled as sharps, in a key that has them. */
function inSharps(analysis: Analysis): Analysis {
  const notes = analysis.notes.map((note) => ({ ...note, spelling: TonalNote.fromMidiSharps(note.pitch) }));
  return { ...analysis, notes, chart: { ...analysis.chart, key: "E" } };
}

describe("names of keys on the pages", () => {
  // Middle C is C4 and MIDI note 60; the library's names are those of the same convention.
  it("say the octave that the MIDI number has", () => {
    for (let pitch = 21; pitch <= 108; pitch++) {
      expect(bareKeyName(pitch)).toBe(withAccidentals(TonalNote.fromMidi(pitch)));
    }
  });

  it("are those that the account gives, also in titles and tables", () => {
    const index = indexAccount(inSharps(sampleAccount()));
    const { low, high } = index.analysis.register;
    const title = register().title(index);
    expect(title).toContain(`from ${withAccidentals(TonalNote.fromMidiSharps(low!))} to`);
    expect(title).toContain(withAccidentals(TonalNote.fromMidiSharps(high!)));
    const told = JSON.stringify([title, register().table(index).rows, line.table(index).rows]);
    expect(told).toContain("♯");
    expect(told).not.toContain("♭");
  });

  // In E major (four sharps) the key between F and G is F sharp; in F major (one flat) the one below B is B flat.
  it("follow the key signature where no note has the key", () => {
    const sharps = indexAccount({ ...inSharps(sampleAccount()), notes: [] });
    expect(sharps.keyName(66)).toBe("F♯4");
    const flats = sampleAccount();
    expect(indexAccount({ ...flats, notes: [], chart: { ...flats.chart, key: "Dm" } }).keyName(70)).toBe(
      "B♭4",
    );
  });

  it("are looked for in the phrase before the take", () => {
    const analysis = sampleAccount();
    const [first, ...others] = analysis.notes.filter((note) => note.pitch % 12 === 10);
    const notes = [
      { ...first!, spelling: "A#4" },
      ...others.map((note) => ({ ...note, spelling: "Bb4" })),
    ].map((note) => ({ ...note, pitch: 70 }));
    const index = indexAccount({ ...analysis, notes });
    expect(index.keyName(70)).toBe("B♭4");
    expect(index.keyName(70, [notes[0]!])).toBe("A♯4");
  });

  it("of a hit are told apart into what was found and what stands around it", () => {
    const place = { take: "t", firstNote: "n2", lastNote: "n3", chorus: 1, bar: 1, beat: 1, edits: 0 };
    const hit = { ...place, notes: 2, pitch: 61, ids: ["n1", "n2", "n3", "n4"], onsets: [-1, 0, 1, 2] };
    const pitches = { before: [59], pitches: [61, 63], after: [64] };
    expect(hitNames({ ...hit, ...pitches, spellings: ["B3", "C#4", "Eb4", "E4"] })).toEqual({
      before: "B3",
      own: "C♯4 E♭4",
      after: "E4",
    });
  });
});
