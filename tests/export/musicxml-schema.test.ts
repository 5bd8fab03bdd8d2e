/** Everything that is written as MusicXML is valid: demo takes, practice sheets, scores of every shape. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { annotatedScore } from "../../src/export/index.ts";
import { EMPTY_BAR, EMPTY_NOTE, type ScoreModel } from "../../src/export/score-model.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { exerciseScore, practiceSheet } from "../../src/practice/index.ts";
import { demoTakes } from "./demo-takes.ts";
import { faultsOf, hasXmllint } from "./musicxml-schema.ts";

/** Letters that XML must escape or may not hold, and some of every script. */
const words = fc.constantFrom(
  "Chorus 1",
  "",
  "  ",
  "R & B <slow> \"swing\" 'n' ]]>",
  "b9 #11 \u266d \u266f \u{1d11e}",
  "a\u0000b\u0007c\ud800d\ufffe",
  "tab\tand\nline",
);
const symbols = fc.constantFrom(
  ..."C F7 Bb7 F#m7b5 Bmaj7 Db7(b9,#11) G7alt Ebm(maj7) A7sus4 C69 Edim7 Gaug Cadd9 D/F# Bb7/D C13b9 C5 N.C.".split(
    " ",
  ),
);
const spelling = fc
  .tuple(
    fc.constantFrom(..."CDEFGAB"),
    fc.constantFrom("", "b", "#", "bb", "##"),
    fc.integer({ min: 1, max: 7 }),
  )
  .map(([step, sign, octave]) => `${step}${sign}${octave}`);
const fingering = fc.array(
  fc.record({
    finger: fc.constantFrom(1, 2, 3, 4, 5),
    substitution: fc.boolean(),
    alternate: fc.boolean(),
  }),
  { maxLength: 3 },
);

const scores = fc
  .record({
    ticksPerQuarter: fc.constantFrom(1, 3, 12, 48, 480, 997),
    meter: fc.constantFrom([4, 4], [3, 4], [6, 8], [5, 8], [2, 2], [12, 16]),
    fifths: fc.integer({ min: -7, max: 7 }),
    mode: fc.constantFrom("major" as const, "minor" as const),
    staves: fc.constantFrom(1, 2, 3),
    program: fc.constantFrom(null, 0, 127),
    title: fc.option(words),
    rights: fc.option(words),
    swing: fc.constantFrom(
      null,
      { first: 2, second: 1, unit: "eighth" as const },
      { first: 3, second: 2, unit: "16th" as const },
    ),
    bars: fc.array(
      fc.record({
        heading: fc.option(words),
        newLine: fc.boolean(),
        implicit: fc.boolean(),
        close: fc.constantFrom("plain" as const, "double" as const, "final" as const),
        chords: fc.array(fc.record({ place: fc.double({ min: 0, max: 0.99, noNaN: true }), text: symbols }), {
          maxLength: 3,
        }),
        notes: fc.array(
          fc.record({
            place: fc.double({ min: 0, max: 0.99, noNaN: true }),
            length: fc.double({ min: 0.01, max: 2.5, noNaN: true }),
            spelling,
            staff: fc.integer({ min: 1, max: 3 }),
            voice: fc.option(fc.constantFrom("1", "2", "5")),
            velocity: fc.option(fc.integer({ min: 1, max: 127 })),
            grace: fc.constantFrom(null, null, null, "acciaccatura" as const, "appoggiatura" as const),
            fingering,
            notehead: fc.constantFrom(
              ...["normal", "x", "diamond", "triangle", "square", "slash", "circle-x"],
              ...["rectangle", "circle dot", "re", "inverted triangle"],
            ),
            lyrics: fc.array(words, { maxLength: 2 }),
            words: fc.option(words),
            second: fc.boolean(),
          }),
          { maxLength: 8 },
        ),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(
    ({ ticksPerQuarter, meter, fifths, mode, staves, program, title, rights, swing, bars }): ScoreModel => {
      const [beats, unit] = meter as [number, number];
      const whole = Math.max(1, Math.round((beats * 4 * ticksPerQuarter) / unit));
      return {
        title,
        rights,
        ticksPerQuarter,
        parts: [
          { id: "P1", name: "Piano & voice", staves, program },
          { id: "P2", name: "", staves: 1, program: null },
        ],
        meters: [
          { tick: 0, beats, unit },
          { tick: whole, beats: 3, unit: 4 },
        ],
        keys: [{ tick: 0, fifths, mode }],
        tempos: [{ tick: 0, quartersPerMinute: 100 + fifths / 3 }],
        swing,
        texts: [{ tick: Math.floor(whole / 2), text: title ?? "dolce" }],
        pedal: [
          { tick: 0, down: true },
          { tick: whole, down: false },
        ],
        bars: bars.map((bar, index) => ({
          ...EMPTY_BAR,
          ...bar,
          number: String(index + 1),
          ticks: whole,
          chords: bar.chords.map(({ place, text }) => ({ tick: Math.floor(place * whole), text })),
          notes: bar.notes.map(
            ({ place, length, second, staff, notehead, fingering: fingers, ...note }, i) => ({
              ...EMPTY_NOTE,
              ...note,
              id: `n${index}-${i}`,
              part: second ? "P2" : null,
              staff: second ? 1 : Math.min(staff, staves),
              tick: Math.floor(place * whole),
              ticks: note.grace === null ? Math.max(1, Math.round(length * whole)) : 0,
              notehead: notehead as ScoreModel["bars"][number]["notes"][number]["notehead"],
              fingering: fingers as ScoreModel["bars"][number]["notes"][number]["fingering"],
            }),
          ),
        })),
      };
    },
  );

describe.skipIf(!hasXmllint)("by the schema of MusicXML (needs xmllint, Debian's libxml2-utils)", () => {
  const takes = demoTakes();
  const beaten = takes.filter(({ analysis }) => analysis.alignment.method !== "rubato");

  it("a document that is not valid is found out", () => {
    const xml = annotatedScore(beaten[0]!.analysis);
    expect(
      faultsOf([{ name: "wrong", xml: xml.replace("<divisions>", "<beats>4</beats><divisions>") }]),
    ).not.toEqual([]);
  });

  it("the annotated score of every demo take is valid", () => {
    expect(beaten.length).toBeGreaterThan(10);
    expect(faultsOf(beaten.map(({ id, analysis }) => ({ name: id, xml: annotatedScore(analysis) })))).toEqual(
      [],
    );
  });

  it("every exercise of every demo take's practice sheet is valid, in three keys", () => {
    const documents = takes.flatMap(({ id, analysis }) =>
      practiceSheet(analysis, BUILT_IN_SHAPES, {
        keys: /m\b/.test(analysis.chart.key) ? ["Ebm", "F#m"] : ["Eb", "B"],
      }).exercises.map((exercise) => ({
        name: `${id}-${exercise.id}`,
        xml: writeMusicXml(exerciseScore(exercise)),
      })),
    );
    expect(documents.length).toBeGreaterThan(100);
    expect(faultsOf(documents)).toEqual([]);
  });

  it("scores of every shape are valid", () => {
    const documents = fc
      .sample(scores, { numRuns: 300, seed: 23 })
      .map((score, index) => ({ name: `score-${index}`, xml: writeMusicXml(score) }));
    expect(faultsOf(documents)).toEqual([]);
  });
});
