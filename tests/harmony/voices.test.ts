/** Chords, octaves, double notes, held notes and silences in a solo line. */
import { describe, expect, it } from "vitest";
import { labelNotes } from "../../src/harmony/index.ts";
import { labelled, type Setting, written } from "./notation.ts";

function roles(text: string, setting: Setting = {}): string[] {
  const { labels, notes } = labelled(text, setting);
  return labels.map((label, i) => `${label.spelling}@${notes[i]!.beat} ${label.lineRole}`);
}

describe("voices of the solo", () => {
  it("takes the highest note of a chord as the main voice, and gives the lower ones labels of their own", () => {
    expect(roles("C // E4@1 C5@1 F4@1.5 D5@1.5 G4@2 E5@2")).toEqual([
      "E4@1 chord tone",
      "C5@1 chord tone",
      "F4@1.5 passing",
      "D5@1.5 passing",
      "G4@2 chord tone",
      "E5@2 chord tone",
    ]);
  });

  it("labels octaves alike in both voices", () => {
    expect(roles("C // C4@1 C5@1 D4@1.5 D5@1.5 E4@2 E5@2")).toEqual([
      "C4@1 chord tone",
      "C5@1 chord tone",
      "D4@1.5 passing",
      "D5@1.5 passing",
      "E4@2 chord tone",
      "E5@2 chord tone",
    ]);
  });

  it("leads a lower voice into the single note that follows", () => {
    const { labels } = labelled("C // F4@1.5 A4@1.5 G4@2");
    expect(labels.map((label) => [label.lineRole, label.target])).toEqual([
      ["approach", "n3"],
      ["approach", "n3"],
      ["chord tone", null],
    ]);
  });

  it("keeps the main voice clear of a note struck beneath it", () => {
    // The low G does not come between D and E.
    expect(roles("C // C5@1 G3@1.5 D5@1.5 E5@2")).toEqual([
      "C5@1 chord tone",
      "G3@1.5 chord tone",
      "D5@1.5 passing",
      "E5@2 chord tone",
    ]);
  });

  it("does not let an inner voice under a held note break into the line", () => {
    expect(roles("C // D5@1:3 F4@2 E4@3 C5@4")).toEqual([
      "D5@1 appoggiatura",
      "F4@2 approach",
      "E4@3 chord tone",
      "C5@4 chord tone",
    ]);
  });

  it("takes a grace note as coming before its main note, not as struck with it", () => {
    const { labels } = labelled("C // C4@1 ~Eb4@2 E4@2");
    expect(labels[1]).toMatchObject({ lineRole: "approach", target: "n3", spelling: "D#4" });
  });

  it("takes notes of one tick in notation as struck together, and printed grace notes apart", () => {
    const { chart, spans, notes } = written("C // D#4@1 E4@1 G4@1");
    const print = (i: number, grace: "acciaccatura" | null) => ({
      ...notes[i]!,
      printed: {
        spelling: ["D#4", "E4", "G4"][i]!,
        fingering: [],
        grace,
        staff: 1,
        voice: "1",
        bar: 0,
        documentId: null,
        lyric: null,
      },
    });
    const graced = labelNotes([print(0, "acciaccatura"), print(1, null), print(2, null)], chart, spans);
    expect(graced.map((label) => [label.lineRole, label.target])).toEqual([
      ["approach", "n2"],
      ["chord tone", null],
      ["chord tone", null],
    ]);
    // An unhurried grace note is crushed all the same, since that is how it is written.
    const early = { ...print(0, "acciaccatura"), onset: notes[0]!.onset - 0.15 };
    expect(labelNotes([early, print(1, null), print(2, null)], chart, spans)[0]!.target).toBe("n2");
    // Written one after the other they are no chord, however close in time.
    const rolled = { ...print(1, null), onset: notes[1]!.onset + 0.02 };
    expect(labelNotes([print(0, null), rolled], chart, spans)[0]!.target).toBe("n2");
    const together = labelNotes([print(0, null), print(1, null)], chart, spans);
    expect(together.map((label) => label.target)).toEqual([null, null]);
    // A grace note from above comes before its main note, although notes of one onset stand in order of pitch.
    const above = labelNotes([print(1, null), { ...print(2, "acciaccatura"), pitch: 65 }], chart, spans);
    expect(above[1]).toMatchObject({ lineRole: "approach", target: "n2" });
  });

  it("leads a crushed note into the inner note of the chord that it decorates, and not to the top", () => {
    expect(labelled("C // G4@1 ~Eb4@2 E4@2 G4@2 A4@2.5 B4@3 C5@3.5").labels[1]).toMatchObject({
      lineRole: "approach",
      target: "n3",
    });
    // The main voice goes from G to G and on, as if the crushed note were not there.
    expect(labelled("C // A4@1.5 ~Eb4@2 E4@2 G4@2").labels[0]).toMatchObject({
      lineRole: "approach",
      target: "n4",
    });
    // Into the top itself it is a note of the main voice; a leap away it is one too.
    expect(labelled("C // C4@1 ~F#4@2 E4@2 G4@2").labels[1]).toMatchObject({
      lineRole: "approach",
      target: "n4",
    });
    expect(labelled("C // C4@1 ~A4@2 E4@2 C5@2").labels[1]).toMatchObject({ lineRole: "held colour" });
    // Unhurried, it is no crushed note.
    expect(labelled("C // G4@1.5 Eb4@2 E4@2.5 G4@2.5").labels[1]).toMatchObject({ target: null });
  });

  it("gives the comping hand all that the chord says, and no line role", () => {
    const { labels } = labelled("C7 // <C2@1 <Bb3@1 E5@1", { idiom: "blues" });
    expect(labels[0]).toMatchObject({ degree: "1", role: "root", lineRole: null, target: null, strength: 1 });
    expect(labels[1]).toMatchObject({ degree: "b7", role: "seventh", guideTone: true, lineRole: null });
    expect(labels[2]).toMatchObject({ degree: "3", lineRole: "chord tone" });
  });

  it("does not let the comping hand come between two notes of the line", () => {
    expect(labelled("C // C5@1 <E3@1.25 D5@1.5 <G3@1.75 E5@2").labels[2]).toMatchObject({
      lineRole: "passing",
    });
  });

  it("labels a note whatever stands alone", () => {
    expect(roles("C // C#4@1")).toEqual(["C#4@1 free"]);
    expect(labelled("C //").labels).toEqual([]);
  });

  it("hears a silence of two beats as part of the line, and a longer one as its end", () => {
    expect(roles("C // C4@1:0.5 D4@3.5 E4@4")[1]).toBe("D4@3.5 passing");
    expect(roles("C // C4@1:0.5 D4@3.75 E4@4")[1]).toBe("D4@3.75 approach");
  });

  it("in rubato ends the line after a second and a half of silence", () => {
    const rubato = { rubato: true, tempo: 60 };
    expect(labelled("C // C4@1:1 D4@3.5 E4@4", rubato).labels[1]).toMatchObject({ lineRole: "passing" });
    expect(labelled("C // C4@1:1 D4@3.75 E4@4", rubato).labels[1]).toMatchObject({ lineRole: "approach" });
  });

  it("does not depend on the order in which notes are given", () => {
    const { chart, spans, notes } = written("C7 | F7 // D4@2 Eb4@2.5 E4@3 A4@4.5 | A4@1 F4@2");
    const forth = labelNotes(notes, chart, spans);
    const back = labelNotes([...notes].reverse(), chart, spans);
    expect([...back].reverse()).toEqual(forth);
  });

  it("refuses notes that point to no chord", () => {
    const { chart, spans, notes } = written("C // C4@1");
    expect(() => labelNotes(notes, chart, [])).toThrowError(expect.objectContaining({ code: "no-chords" }));
    expect(() => labelNotes([{ ...notes[0]!, span: 3 }], chart, spans)).toThrowError(
      expect.objectContaining({ code: "unknown-span", where: "note n1" }),
    );
    expect(labelNotes([], chart, [])).toEqual([]);
  });
});

describe("what counts as struck together, crushed or held (performed notes)", () => {
  /** Moves the onset (and its end) of single notes by milliseconds. */
  function shifted(
    text: string,
    by: Readonly<Record<number, number>>,
    longer: Readonly<Record<number, number>> = {},
  ) {
    const { chart, spans, notes } = written(text);
    return labelNotes(
      notes.map((note, i) => ({
        ...note,
        onset: note.onset + (by[i] ?? 0) / 1000,
        duration: note.duration + (longer[i] ?? 0) / 1000,
      })),
      chart,
      spans,
    ).map((label) => [label.lineRole, label.target]);
  }

  it("up to 30 ms after the first note is together, later is after it", () => {
    // F and C before E: together F leads into it as the lower voice; apart, F leaps to C.
    const text = "C // F4@1.5 C5@1.5 E4@2";
    expect(shifted(text, { 1: 29 })[0]).toEqual(["approach", "n3"]);
    expect(shifted(text, { 1: 31 })[0]).toEqual(["free", null]);
  });

  it("up to 100 ms before a chord is crushed into it, earlier is not", () => {
    const text = "C // Eb4@2 E4@2 G4@2";
    expect(shifted(text, { 0: -99 })[0]).toEqual(["approach", "n2"]);
    expect(shifted(text, { 0: -101 })[0]).toEqual(["free", null]);
  });

  it("crushes a whole step, and leaves a wider one in the line", () => {
    expect(shifted("C // D4@2 E4@2 G4@2", { 0: -50 })[0]).toEqual(["approach", "n2"]);
    expect(shifted("C // C#4@2 E4@2 G4@2", { 0: -50 })[0]).toEqual(["free", null]);
    expect(shifted("C // F4@2 E4@2 C5@2", { 0: -50 })[0]).toEqual(["approach", "n2"]);
  });

  it("a single note is crushed only into a chord, and only a single note is", () => {
    expect(shifted("C // Eb4@2 E4@2", { 0: -50 })[0]).toEqual(["approach", "n2"]);
    expect(shifted("C // Eb4@2 B3@2 E4@2 C5@2", { 0: -50, 1: -50 })[0]).not.toEqual(["approach", "n3"]);
  });

  it("a note three semitones or more under one that outlasts it is an inner voice; nearer it is legato or a trill", () => {
    // Inner: B flat under the held E; the main voice goes from E to F sharp and on to G as if it were not there.
    expect(shifted("C // E5@1:2 Bb4@1.5:0.5 F#5@2.5 G5@3", {})[2]).toEqual(["approach", "n4"]);
    // D sounds under the held E, a step away: it belongs to the line, E - D - E.
    expect(shifted("C // E5@1:1 D5@1.5:0.5 E5@2", {})[1]).toEqual(["neighbour", "n3"]);
    expect(shifted("C // E5@1:0.75 C#5@1.5:0.5 D5@2 E5@2.5", {})[1]).toEqual(["free", null]);
  });

  it("three semitones are enough for an inner voice", () => {
    expect(shifted("C // E5@1:2 C#5@1.5:0.5 F5@2.5 G5@3", {})[2]).toEqual(["passing", "n4"]);
    expect(shifted("C // E5@1:2 D5@1.5:0.5 F5@2.5 G5@3", {})[2]).toEqual(["approach", "n4"]);
  });

  it("a higher note released first leaves the lower one in the line", () => {
    expect(shifted("C // G4@1:0.75 F4@1.5:0.5 E4@2", {})[1]).toEqual(["passing", "n3"]);
  });
});

describe("lower voices", () => {
  it("see as far ahead as an enclosure needs, over single notes of the main voice", () => {
    // Lower voice: F, then the line's single notes D and E continue it: F is enclosing E with D sharp.
    const { labels } = labelled("C // F4@1 C5@1 D#4@1.5 E4@2");
    expect(labels[0]).toMatchObject({ lineRole: "enclosure", target: "n4" });
  });

  it("keep the note before them in sight, however close the next chord is", () => {
    // The second chord stands as far from the first as a voice sees: F still comes from E and goes on to G.
    const { labels } = labelled("C // E4@1 F4@1.5 C5@1.5 G4@2 E4@2.5 E4@3 C5@3");
    expect(labels[1]).toMatchObject({ lineRole: "passing", target: "n4" });
  });

  it("see the note before them too", () => {
    const { labels } = labelled("C // E4@1 F4@1.5 C5@1.5 G4@2 E5@2");
    expect(labels[1]).toMatchObject({ lineRole: "passing", target: "n4" });
  });

  it("are labelled in every chord of a long take, near and far from one another", () => {
    const bar = "E4@1 G4@1 C5@1 D5@2 E5@3 F4@4 A4@4 D5@4";
    const gap = Array.from({ length: 6 }, () => "C5@1 D5@2 E5@3 D5@4").join(" | ");
    const { labels } = labelled(`C // ${bar} | ${gap} | ${bar} | ${bar}`);
    expect(labels.every((label) => label.lineRole !== null)).toBe(true);
  });

  it("of three and more notes keep their order from the top", () => {
    // Third from the top: E, F, G; second: G, A, C.
    const { labels } = labelled("C // E4@1 G4@1 C5@1 F4@1.5 A4@1.5 D5@1.5 G4@2 C5@2 E5@2");
    expect(labels.slice(3, 6).map((label) => [label.lineRole, label.target])).toEqual([
      ["passing", "n7"],
      ["escape", null],
      ["passing", "n9"],
    ]);
  });
});

describe("the place of a note", () => {
  it("gives pickups the chords of the end of the form", () => {
    const { labels, notes } = labelled("C | G7 // ^ B4@4 | C5@1");
    expect(notes[0]!.position).toBe(-1);
    expect(labels[0]).toMatchObject({ chord: "G7", degree: "3", lineRole: "chord tone" });
  });

  it("anticipates the first chord of the chorus from a pickup", () => {
    expect(labelled("C | G7 // ^ D4@4 C4@4.5 | C4@1").labels[1]).toMatchObject({ lineRole: "anticipation" });
  });

  it("in an ending tag the last chord stays, and nothing is early", () => {
    const { chart, spans, notes } = written("C | G7 // D4@1 | D4@4 C4@4.5");
    // The tag: a bar after the last chorus, placed on the last chord.
    const tag = [
      { ...notes[0]!, position: 8, bar: 3, span: 1 },
      { ...notes[1]!, position: 11, bar: 3, span: 1, beats: 0.5 },
      { ...notes[2]!, position: 11.5, bar: 3, span: 1, beats: 4 },
    ];
    expect(labelNotes(tag, chart, spans)[2]!.lineRole).not.toBe("anticipation");
    expect(labelNotes(tag, chart, spans).map((label) => label.arrives)).toEqual([false, false, false]);
    // A tag as long as the form: its last eighth looks like the form's, yet nothing follows.
    const long = tag.map((note) => ({ ...note, position: note.position + 4, bar: 4 }));
    expect(labelNotes(long, chart, spans)[2]!.lineRole).not.toBe("anticipation");
  });

  it("follows a line under a pedal as a voice of its own", () => {
    expect(
      roles("G7 | C // G5@1 D5@1.5 G5@2 Db5@2.5 G5@3 C5@3.5 G5@4 B4@4.5 | C5@1:2").map(
        (role) => role.split("@")[1],
      ),
    ).toEqual([
      "1 chord tone",
      "1.5 chord tone",
      "2 chord tone",
      "2.5 passing",
      "3 chord tone",
      "3.5 passing",
      "4 chord tone",
      "4.5 chord tone",
      "1 chord tone",
    ]);
    const { labels } = labelled("G7 // G5@1 D5@1.5 G5@2 Db5@2.5 G5@3 C5@3.5 G5@4 B4@4.5");
    expect([labels[3]!.target, labels[5]!.target]).toEqual(["n8", "n8"]);
  });

  it("follows a line in two registers as two voices", () => {
    const { labels } = labelled("C // C5@1 E4@1.5 D5@2 F4@2.5 E5@3 G4@3.5");
    expect(labels.map((label) => label.lineRole)).toEqual([
      "chord tone",
      "chord tone",
      "passing",
      "passing",
      "chord tone",
      "chord tone",
    ]);
  });

  it("takes broken thirds and a tremolo for one line", () => {
    expect(roles("C // C4@1 E4@1.5 D4@2 F4@2.5 E4@3 G4@3.5")[2]).toBe("D4@2 enclosure");
    expect(roles("C7 // A4@1 E4@1.5 A4@2 E4@2.5 A4@3 E4@3.5")[0]).toBe("A4@1 held colour");
  });

  it("do not take in a grace note that a legato hides", () => {
    // The D is let go as the grace note is: B flat is still crushed into B.
    const { labels } = labelled("G7 // D5@1 ~Bb4@2 B4@2 G4@2.5", { idiom: "blues", key: "G" });
    expect(labels[1]).toMatchObject({ lineRole: "approach", target: "n3" });
  });
});
