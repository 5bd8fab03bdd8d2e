import tonejsMidi from "@tonejs/midi";
import { parse as parseMusicXml } from "musicxml-io";
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import {
  type Exercise,
  exerciseMidi,
  exerciseNamed,
  exerciseScore,
  PRACTICE_KINDS,
  practiceSheet,
} from "../../src/practice/index.ts";
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
    const analysis = analysed("tilda-week-8");
    const sheet = practiceSheet(analysis, BUILT_IN_SHAPES);
    expect(sheet.idea.length).toBeGreaterThanOrEqual(3);
    const own = sheet.idea.map((id) => analysis.notes.find((note) => note.id === id)!.finger);
    const moved = sheet.exercises.find((one) => one.kind === "motif to every placement")!;
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

  it("lies, by our own analysis, in the placements that it claims", () => {
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
    expect(right).toBe(claimed.length);
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
