/** A lesson that is prepared without a take. */
import { parse as parseMusicXml } from "musicxml-io";
import { describe, expect, it } from "vitest";
import { formChart, parseChart, parseKey, sameChanges, transposeChart } from "../../src/chart/index.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { LENSES } from "../../src/lens/index.ts";
import {
  exerciseScore,
  type LessonWish,
  lessonExercise,
  preparedLesson,
  preparedLessonSchema,
} from "../../src/practice/index.ts";
import { LEVELS } from "../../src/practice/levels.ts";

const wish = (change: Partial<LessonWish> = {}): LessonWish => ({
  chart: formChart("blues-basic", "F"),
  level: "intermediate",
  feel: "swing",
  shapes: BUILT_IN_SHAPES.slice(0, 1),
  lens: null,
  ...change,
});

describe("a lesson without a take", () => {
  it("has for every lens its exercises first, then call and answer and a chorus of one's own, and fits its schema", () => {
    for (const lens of LENSES) {
      const lesson = preparedLesson(wish({ lens }));
      preparedLessonSchema.parse(lesson);
      const kinds = lesson.exercises.map(({ kind }) => kind);
      const own = lens.exercises.map(({ kind }) => kind);
      expect(kinds.slice(0, own.length), lens.id).toEqual(own);
      expect(kinds).toContain("call and answer");
      expect(kinds.at(-1)).toBe("improvisation");
      expect(new Set(kinds).size, "one of a kind").toBe(kinds.length);
      expect(lesson.title).toContain(lens.name);
    }
  });

  // Chord symbols of the 12-bar blues in F: I7 IV7 V7 are F7 Bb7 C7. Index on C or F over F7, as trade tables have it for
  // the first shape: on root and fifth. [practice]
  it("leaves one chorus to the student, with the chords of the form and where the hand may stand on each", () => {
    const { exercises, map } = preparedLesson(wish());
    const own = exercises.at(-1)!;
    expect(own.bars).toHaveLength(12);
    expect(own.bars.every((bar) => bar.notes.length === 0)).toBe(true);
    expect(own.bars.map((bar) => bar.chords[0]!.symbol)).toEqual(
      "F7 F7 F7 F7 Bb7 Bb7 F7 F7 C7 Bb7 F7 F7".split(" "),
    );
    expect(own.bars[0]!.words).toBe("index finger on the root or fifth");
    expect(own.bars.map((bar) => bar.words !== null)).toEqual(
      [1, 0, 0, 0, 1, 0, 1, 0, 1, 1, 1, 0].map(Boolean),
    );
    const first = map.chords[0]!;
    expect(new Set(first.placements.map(({ anchor }) => anchor))).toEqual(new Set(["F", "C"]));
  });

  it("can be had in any key, with the same fingers in each", () => {
    const here = preparedLesson(wish());
    for (const key of ["C", "Db", "D", "Eb", "E", "F#", "G", "Ab", "A", "Bb", "B"]) {
      const chart = transposeChart(wish().chart, parseKey(key));
      const there = preparedLesson(wish({ chart }));
      expect(there.chart.key).toBe(key);
      expect(there.exercises.map(({ kind }) => kind)).toEqual(here.exercises.map(({ kind }) => kind));
      there.exercises.forEach((exercise, k) => {
        const fingers = (one: typeof exercise) =>
          one.bars.flatMap((bar) => bar.notes.map(({ finger }) => finger));
        // Ladders and slides depend on where the keys lie; what is moved by hand does not.
        if (["motif to every placement", "call and answer"].includes(exercise.kind))
          expect(fingers(exercise), `${exercise.kind} in ${key}`).toEqual(fingers(here.exercises[k]!));
      });
    }
  });

  it("leads to a faster tempo with every level, each below what the level asks", () => {
    const tempos = LEVELS.map(({ id }) =>
      Math.max(
        ...preparedLesson(wish({ level: id })).exercises.flatMap(({ tempoPlan }) =>
          tempoPlan.map(({ quartersPerMinute }) => quartersPerMinute ?? 0),
        ),
      ),
    );
    expect(tempos).toEqual(LEVELS.map(({ tempo }) => tempo));
    expect([...tempos].sort((a, b) => a - b)).toEqual(tempos);
  });

  it("makes one exercise alone as it stands in the whole, and none for an id that it does not have", () => {
    const lesson = preparedLesson(wish({ lens: LENSES[2]! }));
    for (const exercise of lesson.exercises)
      expect(lessonExercise(wish({ lens: LENSES[2]! }), exercise.id)).toEqual(exercise);
    for (const id of ["0", "99", "x", "1.5", ""]) expect(lessonExercise(wish(), id)).toBeNull();
  });

  it("is notation that another reader takes, bar for bar, in threes and on two chords a bar too", () => {
    const charts = [
      formChart("aaba-dominant-bridge", "Eb"),
      parseChart("key: Gm\nmeter: 3/4\n| Gm7 | Cm7 D7:1 | Gm6 | N.C. |"),
    ];
    for (const chart of charts) {
      for (const exercise of preparedLesson(wish({ chart })).exercises) {
        const score = parseMusicXml(writeMusicXml(exerciseScore(exercise)));
        expect(score.parts[0]!.measures, exercise.kind).toHaveLength(exercise.bars.length);
      }
    }
  });
});

describe("the same changes", () => {
  it("are known in every key, and told from other ones", () => {
    const blues = formChart("blues-basic", "F");
    expect(sameChanges(blues, formChart("blues-basic", "Gb"))).toBe(true);
    expect(sameChanges(formChart("blues-basic", "B"), blues)).toBe(true);
    expect(sameChanges(blues, formChart("blues-quick-change", "F"))).toBe(false);
    expect(sameChanges(blues, formChart("blues-minor", "F"))).toBe(false);
    expect(sameChanges(parseChart("key: C\n| C7 | F7 |"), parseChart("key: C\n| C7 F7 | F7 |"))).toBe(false);
    expect(
      sameChanges(parseChart("key: C\nmeter: 3/4\n| C7 | F7 |"), parseChart("key: C\n| C7 | F7 |")),
    ).toBe(false);
  });
});
