import tonejsMidi from "@tonejs/midi";
import { parse as parseMusicXml } from "musicxml-io";
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { parseChart, parseChord } from "../../src/chart/index.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { LENSES } from "../../src/lens/index.ts";
import { backingOf } from "../../src/practice/backing.ts";
import { contextOf } from "../../src/practice/context.ts";
import {
  type Exercise,
  exerciseMidi,
  exerciseNamed,
  exerciseScore,
  PRACTICE_KINDS,
  practiceSheet,
} from "../../src/practice/index.ts";
import { makeExercise } from "../../src/practice/make-exercise.ts";
import { MAKERS } from "../../src/practice/makers.ts";
import { demoAccount, demoClass } from "../demo-class.ts";

function analysed(id: string) {
  return demoAccount(demoClass.takes.find((take) => take.id === id)!);
}

/** All kinds of exercise for a take, by way of findings that ask for each. */
function everyExercise(id: string, keys: string[]): Exercise[] {
  const analysis = analysed(id);
  const findings = PRACTICE_KINDS.map((kind) => ({
    id: kind,
    heading: "range" as const,
    kind: "practise" as const,
    weight: 1,
    text: "",
    evidence: [],
    bars: [],
    practice: { title: kind, text: "Slowly.", kind },
  }));
  return [...practiceSheet({ ...analysis, findings }, BUILT_IN_SHAPES, { keys, most: 99 }).exercises];
}

/** The exercise's own bars as chart text, a chord sounding on where a bar has none. */
function chartOf(exercise: Exercise): string {
  let last = "N.C.";
  const bars = exercise.bars.map((bar) => {
    const symbols = bar.chords.map((chord) => chord.symbol);
    if (symbols.length > 0) last = symbols[symbols.length - 1]!;
    return symbols.length > 0 ? symbols.join(" ") : last;
  });
  return `key: ${exercise.key}\nmeter: ${exercise.meter.beats}/${exercise.meter.unit}\n| ${bars.join(" | ")} |`;
}

const exercises = [
  ...everyExercise("tilda-week-8", ["Eb", "B"]),
  ...everyExercise("jonas-minor-blues", ["F#m"]),
  ...everyExercise("maren-lantern-yard", ["D"]),
].map((exercise, i) => ({ ...exercise, name: `${i + 1}: ${exercise.kind} in ${exercise.key}` }));

describe("the practice sheet", () => {
  it("holds an exercise of every kind where the keys allow it", () => {
    expect(new Set(exercises.map((exercise) => exercise.kind))).toEqual(new Set(PRACTICE_KINDS));
    expect(Object.keys(MAKERS).sort()).toEqual([...PRACTICE_KINDS].sort());
  });

  it("offers at least three exercises to every player of the class, each from a finding or for everybody", () => {
    for (const { id } of demoClass.takes) {
      const analysis = analysed(id);
      const sheet = practiceSheet(analysis, BUILT_IN_SHAPES);
      expect(sheet.exercises.length, id).toBeGreaterThanOrEqual(3);
      const known = new Set(analysis.findings.map((finding) => finding.id));
      for (const exercise of sheet.exercises) {
        if (exercise.finding !== null) expect(known).toContain(exercise.finding);
      }
    }
  }, 60_000);

  it("opens with the exercises of the lens", () => {
    const [lens] = LENSES;
    const { id, name, exercises: own } = lens!;
    const outcome = { lens: id, name, state: "partly" as const, text: "", asks: [], exercises: own };
    const sheet = practiceSheet({ ...analysed("tilda-week-1"), lens: outcome }, BUILT_IN_SHAPES);
    const kinds = lens!.exercises.map(({ kind }) => kind);
    expect(sheet.exercises.slice(0, kinds.length)).toMatchObject(
      lens!.exercises.map((exercise) => ({ ...exercise, finding: "lens" })),
    );
    // One exercise of a kind is enough.
    expect(sheet.exercises.slice(kinds.length).map(({ kind }) => kind)).not.toContain(kinds[0]);
  });

  it("makes one exercise by itself just as it stands on the sheet", () => {
    const analysis = analysed("tilda-week-8");
    const options = { keys: ["Eb", "B"] };
    const sheet = practiceSheet(analysis, BUILT_IN_SHAPES, options);
    expect(new Set(sheet.exercises.map((one) => one.id)).size).toBe(sheet.exercises.length);
    for (const one of sheet.exercises) {
      expect(exerciseNamed(analysis, BUILT_IN_SHAPES, options, one.id)).toEqual(one);
    }
    for (const none of ["0", "99", "1.5", "one"]) {
      expect(exerciseNamed(analysis, BUILT_IN_SHAPES, options, none)).toBeNull();
    }
  });

  it("carries the student's own idea: the fingers of notes of the take", () => {
    const kind = "motif to every placement";
    const [analysis, sheet] = demoClass.takes
      .map(({ id }) => analysed(id))
      .map((one) => [one, practiceSheet(one, BUILT_IN_SHAPES)] as const)
      .find(([, { exercises: made }]) => made.some((one) => one.kind === kind))!;
    expect(sheet.idea.length).toBeGreaterThanOrEqual(3);
    const own = sheet.idea.map((id) => analysis.notes.find((note) => note.id === id)!.finger);
    const moved = sheet.exercises.find((one) => one.kind === kind)!;
    const firstNotes = moved.bars.flatMap((bar) => bar.notes).slice(0, own.length);
    expect(firstNotes.map((note) => note.finger)).toEqual(own);
  });
});

describe.each(exercises)("exercise $name", (exercise) => {
  const xml = writeMusicXml(exerciseScore(exercise));
  const written = exercise.bars.flatMap((bar, i) => bar.notes.map((note) => ({ ...note, bar: i + 1 })));

  it("is notation that another reader takes without error, note for note", () => {
    const score = parseMusicXml(xml);
    const pitched = score.parts
      .flatMap((part) => part.measures)
      .flatMap((measure) => measure.entries)
      .filter((entry) => entry.type === "note" && entry.pitch !== undefined && !isTieEnd(entry));
    expect(score.parts[0]!.measures).toHaveLength(exercise.bars.length);
    expect(pitched).toHaveLength(written.length);
  });

  it("fills its bars and no more", () => {
    const barBeats = (exercise.meter.beats * 4) / exercise.meter.unit;
    for (const bar of exercise.bars) {
      let until = 0;
      for (const note of bar.notes) {
        expect(note.at).toBeGreaterThanOrEqual(until - 1e-9);
        until = note.at + note.beats;
        expect(until).toBeLessThanOrEqual(barBeats + 1e-9);
      }
    }
  });

  it("has a finger on every note and keeps clear of the keyboard's ends", () => {
    for (const note of written) {
      expect(note.finger).not.toBeNull();
      expect(note.pitch).toBeGreaterThanOrEqual(48);
      expect(note.pitch).toBeLessThanOrEqual(100);
    }
  });

  // A chorus to improvise on holds nothing to be placed.
  it.skipIf(written.length === 0)("lies, by our own analysis, in the placements that it claims", () => {
    const claimed = written.filter((note) => note.placement !== null);
    const shapes = [...new Set(claimed.map((note) => note.placement!.shape))];
    const account = analyse(new TextEncoder().encode(xml), chartOf(exercise), {
      name: "exercise.musicxml",
      shapes: shapes.length > 0 ? shapes : ["third-and-steps"],
    });
    const solo = account.notes.filter((note) => note.solo);
    expect(solo).toHaveLength(written.length);
    const names = new Map(account.placements.map((one) => [one.id, one]));
    let right = 0;
    written.forEach((note, i) => {
      const found = solo[i]!;
      expect(found.pitch).toBe(note.pitch);
      if (note.placement === null) return;
      const placement = found.placement === null ? undefined : names.get(found.placement);
      if (placement?.shape === note.placement.shape && placement.anchorPitch === note.placement.anchorPitch)
        right++;
    });
    // A few notes lie under two shapes at once, and the hand may be explained by the other one.
    expect(right).toBeGreaterThanOrEqual(0.8 * claimed.length);
  });

  it("can be played along with: click, bass and the right hand in a MIDI file", () => {
    const bytes = exerciseMidi(exercise, {
      tempo: 90,
      click: "two and four",
      backing: "walking bass",
      countIn: 1,
      rightHand: true,
    });
    const midi = new tonejsMidi.Midi(bytes);
    expect(midi.tracks.map((track) => track.name)).toEqual(["Right hand", "Left hand", "Click"]);
    expect(midi.tracks[0]!.notes).toHaveLength(written.length);
    const { beats } = exercise.meter;
    expect(midi.tracks[2]!.notes).toHaveLength(beats + exercise.bars.length * Math.floor(beats / 2));
  });

  it("is played from slow to the tempo of the take, never faster", () => {
    const tempos = exercise.tempoPlan.flatMap((step) => step.quartersPerMinute ?? []);
    expect(tempos.length).toBeGreaterThanOrEqual(2);
    expect([...tempos].sort((a, b) => a - b)).toEqual(tempos);
  });
});

function isTieEnd(entry: { tie?: { type: string }; ties?: { type: string }[] }): boolean {
  return entry.tie?.type === "stop" || (entry.ties ?? []).some((tie) => tie.type === "stop");
}

describe("the left hand and the notes of exercises", () => {
  /** An exercise of one bar for each chord. */
  function over(chords: readonly string[], meter = { beats: 4, unit: 4 }): Exercise {
    return {
      ...exercises[0]!,
      meter,
      bars: chords.map((symbol) => ({ chords: [{ at: 0, symbol }], notes: [], words: null, newLine: false })),
    };
  }
  const walked = (chords: readonly string[], meter?: Exercise["meter"]) =>
    backingOf(over(chords, meter), "walking bass").map((note) => pitchNames[note.pitch % 12]);
  const pitchNames = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"];

  it("walks a slash chord by its own tones above the bass [practice]", () => {
    expect(walked(["C/E", "F"]).slice(0, 3)).toEqual(["E", "G", "C"]);
    expect(walked(["Dm7/G", "C"]).slice(0, 3)).toEqual(["G", "A", "D"]);
    expect(walked(["C7", "F7"])).toEqual(["C", "E", "G", "F#", "F", "A", "C", "B"]);
  });

  it("walks two dotted beats in 6/8 [practice]", () => {
    const notes = backingOf(over(["Am", "E7"], { beats: 6, unit: 8 }), "walking bass");
    expect(notes.map((note) => note.at)).toEqual([0, 1.5, 3, 4.5]);
  });

  const context = (text: string) =>
    contextOf(parseChart(text), [], { fingers: [1, 2, 3], onsets: [0, 1, 2], beats: [1, 1, 1], notes: [] });

  it("gives guide tones fingers that lie: never one finger for two keys a fourth apart", () => {
    for (const text of [
      "key: F\nidiom: blues\nF7 | Bb7 | C7",
      "key: Cm\nCm7 | Fm7 | G7",
      "key: F#m\nF#m7 | Bm7",
    ]) {
      for (const { notes } of MAKERS["guide tones"].bars(context(text))) {
        expect(new Set(notes.map((note) => note.finger)).size).toBe(notes.length);
      }
    }
  });

  it("plays third and seventh in a bar of three and of six eighths too", () => {
    const lengths = (text: string) =>
      MAKERS["guide tones"].bars(context(text))[0]!.notes.map((note) => note.beats);
    expect(lengths("key: G\nmeter: 3/4\nG7 | C")).toEqual([2, 1]);
    expect(lengths("key: G\nmeter: 6/8\nG7 | C")).toEqual([1.5, 1.5]);
  });

  it.each([
    // The beat of 6/8, 9/8 and 12/8 is a dotted quarter: two, three and four of them to the bar.
    ["6/8", "Am7 | E7", [1.5, 1.5], [3], "dotted quarters"],
    ["12/8", "Am7 | E7", [1.5, 1.5, 1.5, 1.5], [3, 3], "dotted quarters"],
    ["9/8", "Am7 | E7", [1.5, 1.5, 1.5], [1.5, 3], "dotted quarters"],
    ["4/4", "Am7 | E7", [1, 1, 1, 1], [2, 2], "quarters"],
    ["3/4", "Am7 | E7", [1, 1, 1], [1, 2], "quarters"],
    ["2/4", "Am7 | E7", [1, 1], [2], "quarters"],
  ] as const)("keeps steady time by the beats of %s", (meter, chords, onBeats, longer, words) => {
    const chart = parseChart(`key: Am\nmeter: ${meter}\n${chords}`);
    const idea = { fingers: [1, 2, 3] as const, onsets: [0, 1, 2], beats: [1, 1, 1], notes: [] };
    const bars = MAKERS["steady time"].bars(contextOf(chart, BUILT_IN_SHAPES, idea));
    expect(bars[2]!.notes.map((note) => note.beats)).toEqual(onBeats);
    expect(bars[2]!.words).toBe(words);
    expect(bars[3]!.notes.map((note) => note.beats)).toEqual(longer);
  });

  it("writes approaches from below as sharps [practice]", () => {
    const names = (text: string) =>
      MAKERS["approach notes"]
        .bars(context(text))[0]!
        .notes.filter((note) => note.finger === 2)
        .map((note) => note.spelling);
    expect(names("key: B\nE7 | B").map((name) => name.slice(0, -1))).toEqual(["G", "A#", "C#"]);
    expect(names("key: Bb\nGmaj7 | C").map((name) => name.slice(0, -1))).toEqual(["A#", "C#", "F"]);
  });

  // An enclosure: two notes right before a chord tone, one above and one below, each a half or a whole step away, both
  // shorter than it or weaker, at least one of them foreign to the chord (Coker; Ligon [memory]).
  it.each([
    ["four", "key: F\nidiom: blues\nF7 | Bb7 | Gm7 | C7", [1, 3]],
    ["three", "key: G\nmeter: 3/4\nG | Em7 | Am7b5 | D7b9", [1]],
    ["six eighths", "key: Eb\nmeter: 6/8\nEbmaj7 | Fm7 | Bb7 | Bdim7", [1.5]],
  ] as const)("circles every tone of each chord, on the beat, in bars of %s", (_meter, text, beats) => {
    const bars = MAKERS.enclosures.bars(context(text));
    expect(bars.length).toBeGreaterThan(4);
    for (const bar of bars) {
      expect(bar.notes.length % 3).toBe(0);
      const chord = parseChord(bar.chords[0]!.symbol)!;
      const tones = chord.tones.map(({ semitones }) => (chord.rootClass + semitones) % 12);
      bar.notes.forEach((target, i) => {
        if (i % 3 !== 2) return;
        const [above, below] = bar.notes.slice(i - 2, i) as [(typeof bar.notes)[number], typeof target];
        expect(beats).toContain(target.at);
        expect(tones).toContain(target.pitch % 12);
        expect([1, 2]).toContain(above.pitch - target.pitch);
        expect(target.pitch - below.pitch).toBe(1);
        expect([above, below].every(({ pitch }) => tones.includes(pitch % 12))).toBe(false);
        expect([above.at, below.at]).toEqual([target.at - 1, target.at - 0.5]);
        expect(Math.max(above.beats, below.beats)).toBeLessThan(target.beats);
        expect([above.finger, below.finger, target.finger]).toEqual([4, 2, 3]);
      });
    }
  });

  it("signs keys by their spelling: E flat minor has six flats", () => {
    const sheet = practiceSheet(analysed("jonas-minor-blues"), BUILT_IN_SHAPES, { keys: ["Ebm", "G#m"] });
    const signed = new Map(sheet.exercises.map(({ key, fifths }) => [key, fifths]));
    expect([signed.get("Ebm"), signed.get("G#m")]).toEqual([-6, 5]);
  });

  it("changes the signature where the chart changes key", () => {
    const chart = parseChart("key: F\n| F7 | Bb7 |\nkey: A\n| Bm7 | E7 | Amaj7 |\nkey: F\n| Gm7 | C7 |");
    const wanted = { finding: null, kind: "guide tones", title: "Guide tones", text: "" } as const;
    const material = {
      ...{ chart, shapes: BUILT_IN_SHAPES, swingRatio: null, tempo: 120 },
      idea: { fingers: [1 as const], onsets: [0], beats: [1], notes: [] },
    };
    const exercise = makeExercise(wanted, "1", material)!;
    // F major has one flat, A major three sharps.
    expect([exercise.key, exercise.fifths]).toEqual(["F", -1]);
    expect(exercise.keyChanges.map(({ bar, key, fifths }) => [bar, key, fifths])).toEqual([
      [3, "A", 3],
      [6, "F", -1],
    ]);
    const printed = writeMusicXml(exerciseScore(exercise));
    expect([...printed.matchAll(/<fifths>(-?\d)/g)].map(([, fifths]) => Number(fifths))).toEqual([-1, 3, -1]);
  });

  it("drills no minor triad on a secondary dominant outside the blues", () => {
    for (const name of ["motif to every placement", "placements"] as const) {
      for (const idiom of ["standard", "blues"]) {
        const bars = MAKERS[name].bars(
          contextOf(parseChart(`key: C\nidiom: ${idiom}\nD7 | G7 | Cmaj7`), BUILT_IN_SHAPES, {
            fingers: [1, 2, 4],
            onsets: [0, 1, 2],
            beats: [1, 1, 1],
            notes: [],
          }),
        );
        const overD7 = bars.filter((bar) => bar.chords[0]?.symbol === "D7").flatMap((bar) => bar.notes);
        expect(overD7.length).toBeGreaterThan(0);
        expect(overD7.some((note) => note.pitch % 12 === 5)).toBe(idiom === "blues");
      }
    }
  });

  it("swings the play-along as the take swings", () => {
    const eighths = { ...over(["C7"]), swing: true, swingRatio: 1.5 };
    const bars = [{ ...eighths.bars[0]!, notes: [0, 0.5, 1].map((at) => exerciseNote(at)) }];
    const midi = new tonejsMidi.Midi(
      exerciseMidi(
        { ...eighths, bars },
        { tempo: 120, click: "none", backing: "none", countIn: 0, rightHand: true },
      ),
    );
    expect(midi.tracks[0]!.notes.map((note) => note.ticks)).toEqual([0, 288, 480]);
  });

  function exerciseNote(at: number) {
    return { at, beats: 0.5, pitch: 72, spelling: "C5", finger: 2 as const, placement: null, slide: null };
  }
});
