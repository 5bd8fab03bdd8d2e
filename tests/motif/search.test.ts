import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MOTIF_VIEWPOINTS } from "../../src/account.ts";
import { Aligner } from "../../src/motif/edits.ts";
import {
  buildIndex,
  checkPattern,
  findMatches,
  matchPattern,
  packedText,
  packLine,
  patternOf,
  search,
} from "../../src/motif/index.ts";
import { codesOf, SILENT, symbolOf } from "../../src/motif/viewpoints.ts";
import { Problem } from "../../src/take/index.ts";
import { even, played } from "../rhythm/played.ts";
import { levenshtein, naiveEdits } from "./naive.ts";

const IDEA = [60, 63, 65, 67, 65, 63];

function take(id: string, pitches: readonly number[]) {
  return { id, notes: played(even(pitches, 0, 0.5)) };
}

describe("searching for an idea", () => {
  const index = buildIndex([
    take("a", [50, 52, ...IDEA, 71, 70, ...IDEA.map((p) => p + 5)]),
    take("b", [60, 60, 63, 65, 66, 65, 63, 80]),
    take("c", [40, 41, 42]),
  ]);
  const idea = patternOf(
    IDEA.map((pitch) => ({ pitch })),
    "chromatic interval",
  );

  it("finds it in every take at any pitch", () => {
    expect(
      search(index, idea).map((hit) => [hit.take, hit.firstNote, hit.lastNote, hit.pitch, hit.edits]),
    ).toEqual([
      ["a", "n3", "n8", 60, 0],
      ["a", "n11", "n16", 65, 0],
    ]);
  });

  it("finds it with a note changed, after the plain ones", () => {
    const hits = search(index, idea, { maxEdits: 1 });
    expect(hits.map((hit) => [hit.take, hit.edits, hit.firstNote, hit.lastNote])).toEqual([
      ["a", 0, "n3", "n8"],
      ["a", 0, "n11", "n16"],
      ["b", 1, "n2", "n7"],
    ]);
  });

  it("finds it with a note added or left out", () => {
    const added = played(even([70, 60, 63, 65, 67, 66, 65, 63, 50], 0, 0.5));
    expect(matchPattern(idea, added, { maxEdits: 1 })).toMatchObject([
      { firstNote: "n2", lastNote: "n8", notes: 7, edits: 1 },
    ]);
    const dropped = played(even([70, 60, 63, 65, 65, 63, 50], 0, 0.5));
    expect(matchPattern(idea, dropped, { maxEdits: 1 })).toMatchObject([
      { firstNote: "n2", lastNote: "n6", notes: 5, edits: 1 },
    ]);
  });

  it("says where on the chart it is played", () => {
    expect(search(index, idea)[1]).toMatchObject({ chorus: 1, bar: 2, beat: 2 });
  });

  it("keeps to so many hits when told to", () => {
    expect(search(index, idea, { maxEdits: 1, limit: 1 })).toHaveLength(1);
  });

  it("does not run from one take into the next", () => {
    const across = buildIndex([take("a", IDEA.slice(0, 3)), take("b", IDEA.slice(3))]);
    expect(search(across, idea)).toEqual([]);
  });

  it("finds rhythm, contour, degree and fingering as such", () => {
    const notes = played(
      [0, 1, 1.5, 2, 4, 5, 5.5, 6].map((at, i) => ({
        pitch: [60, 64, 62, 67, 40, 52, 50, 61][i]!,
        at,
        beats: 0.4,
        finger: ([1, 2, 3, 5, 1, 2, 3, 5] as const)[i]!,
        degree: (["1", "3", "9", "5", "1", "3", "9", "5"] as const)[i]!,
      })),
    );
    for (const viewpoint of ["rhythm", "contour", "degree", "finger"] as const) {
      const pattern = patternOf(notes.slice(0, 4), viewpoint);
      expect(matchPattern(pattern, notes).map((hit) => [hit.firstNote, hit.lastNote])).toEqual([
        ["n1", "n4"],
        ["n5", "n8"],
      ]);
    }
    for (const viewpoint of ["chromatic interval", "interval and rhythm"] as const) {
      expect(matchPattern(patternOf(notes.slice(0, 4), viewpoint), notes)).toHaveLength(1);
    }
  });

  it("finds exactly the stretches that comparing with every stretch finds", () => {
    const pitch = fc.integer({ min: 60, max: 64 });
    fc.assert(
      fc.property(
        fc.array(pitch, { minLength: 1, maxLength: 60 }),
        fc.array(pitch, { minLength: 2, maxLength: 5 }),
        (line, wanted) => {
          const hits = matchPattern(
            patternOf(
              wanted.map((p) => ({ pitch: p })),
              "chromatic interval",
            ),
            played(even(line, 0, 0.5)),
          );
          const expected = line.flatMap((_, start) =>
            start + wanted.length <= line.length &&
            wanted.every((p, k) => line[start + k]! - line[start]! === p - wanted[0]!)
              ? [`n${start + 1}`]
              : [],
          );
          expect(hits.map((hit) => hit.firstNote)).toEqual(expected);
        },
      ),
    );
  });

  it("counts edits as the full table of edit distances does, and misses nothing near", () => {
    const pitch = fc.integer({ min: 60, max: 66 });
    fc.assert(
      fc.property(
        fc.array(pitch, { minLength: 1, maxLength: 40 }),
        fc.array(pitch, { minLength: 4, maxLength: 8 }),
        (line, wanted) => {
          const most = Math.floor((wanted.length - 1) / 3);
          const pattern = patternOf(
            wanted.map((p) => ({ pitch: p })),
            "chromatic interval",
          );
          const hits = matchPattern(pattern, played(even(line, 0, 0.5)), { maxEdits: most });
          const covered = new Set<number>();
          for (const hit of hits) {
            const from = Number(hit.firstNote.slice(1)) - 1;
            const to = Number(hit.lastNote.slice(1));
            expect(to - from).toBe(hit.notes);
            expect(naiveEdits(wanted, line.slice(from, to))).toBe(hit.edits);
            for (let i = from; i < to; i++) covered.add(i);
          }
          // Whatever lies within the edits overlaps a hit.
          for (let from = 0; from < line.length; from++) {
            for (let to = from + wanted.length - most; to <= from + wanted.length + most; to++) {
              if (to > line.length || naiveEdits(wanted, line.slice(from, to)) > most) continue;
              expect(line.slice(from, to).some((_, i) => covered.has(from + i))).toBe(true);
            }
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  it("finds the same in a text that is read through as in one that is sorted, in every viewpoint", () => {
    const note = fc.record({
      pitch: fc.integer({ min: 60, max: 66 }),
      beats: fc.constantFrom(0.25, 0.5, 1),
      finger: fc.constantFrom(1, 2, 3, 4, 5, undefined),
      degree: fc.constantFrom("1", "b3", "5", null),
    });
    fc.assert(
      fc.property(
        fc.array(fc.array(note, { maxLength: 40 }), { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        fc.constantFrom(...MOTIF_VIEWPOINTS),
        fc.integer({ min: 0, max: 10 }),
        fc.integer({ min: 2, max: 7 }),
        (takes, rubato, viewpoint, from, notes) => {
          const lines = takes.map((line) => {
            let at = 0;
            return played(
              line.map(({ finger, ...one }) => {
                at += one.beats;
                return { ...one, ...(finger === undefined ? {} : { finger }), at: at - one.beats };
              }),
              { rubato },
            );
          });
          const codes = codesOf(lines[0]!.slice(from, from + notes), viewpoint);
          fc.pre(codes.length > 0 && !codes.includes(SILENT));
          const pattern = checkPattern({
            viewpoint,
            symbols: Array.from(codes, (c) => symbolOf(c, viewpoint)),
          });
          const index = buildIndex(lines.map((line, k) => ({ id: `take ${k}`, notes: line })));
          const text = packedText(lines.map(packLine));
          for (const maxEdits of new Set([0, Math.floor((pattern.notes - 1) / 3)])) {
            expect(findMatches(text, pattern, { maxEdits })).toEqual(
              findMatches(index.text, pattern, { maxEdits }),
            );
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  it("refuses more edits than a third of the pattern, and says how many it may have", () => {
    expect(() => search(index, idea, { maxEdits: 2 })).toThrow(Problem);
    expect(() => search(index, idea, { maxEdits: 2 })).toThrow(/at most 1/);
    expect(() => search(index, idea, { maxEdits: -1 })).toThrow(Problem);
  });
});

describe("edits at both ends of a row", () => {
  it("are as few, and use as much, as the full table of edit distances says", () => {
    const rows = fc.array(fc.integer({ min: 1, max: 3 }), { maxLength: 9 });
    fc.assert(
      fc.property(
        rows,
        rows,
        fc.integer({ min: 0, max: 3 }),
        fc.constantFrom(1 as const, -1 as const),
        (a, b, most, way) => {
          const aligner = new Aligner(
            {
              wanted: Int32Array.from(a),
              given: Int32Array.from(b, (x) => x - 7),
              begin: 0,
              end: b.length,
              shift: 7,
            },
            most,
          );
          const [wanted, given] = way > 0 ? [a, b] : [[...a].reverse(), [...b].reverse()];
          const costs = Array.from({ length: given.length + 1 }, (_, used) =>
            levenshtein(wanted, given.slice(0, used)),
          );
          const least = Math.min(...costs);
          const found = aligner.extend(way > 0 ? 0 : a.length - 1, way > 0 ? 0 : b.length - 1, way, most);
          expect(found).toBe(least <= most);
          if (!found) return;
          expect(aligner.edits).toBe(least);
          const nearest = Math.min(
            ...costs.flatMap((cost, used) => (cost === least ? [Math.abs(used - wanted.length)] : [])),
          );
          expect(costs[aligner.used]).toBe(least);
          expect(Math.abs(aligner.used - wanted.length)).toBe(nearest);
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe("a pattern that is kept", () => {
  const notes = played(
    even([60, 63, 65, 66, 67], 0, 0.5).map((note, i) => ({
      ...note,
      finger: 2 as const,
      degree: (["1", "b3", "11", "b5", "5"] as const)[i]!,
    })),
  );

  it.each(MOTIF_VIEWPOINTS)("comes back whole from text (%s)", (viewpoint) => {
    const pattern = patternOf(notes, viewpoint);
    const back = checkPattern(JSON.parse(JSON.stringify(pattern)));
    expect(back).toEqual(pattern);
    expect(matchPattern(back, notes)).toHaveLength(1);
  });

  it("keeps triplets and sixteenths apart", () => {
    for (const beats of [0.25, 1 / 3, 0.5, 2 / 3, 0.75, 1, 1.5]) {
      const line = played(even([60, 62, 64, 65], 0, beats));
      expect(matchPattern(checkPattern({ ...patternOf(line, "rhythm") }), line)).toHaveLength(1);
    }
  });

  it("is refused when notes lack what the viewpoint looks at", () => {
    expect(() => patternOf([{ pitch: 60 }, { pitch: 62 }], "rhythm")).toThrow(/rhythm/);
    expect(() => patternOf([{ pitch: 60 }, { pitch: 62 }], "degree")).toThrow(Problem);
    expect(() => patternOf([{ pitch: 60 }], "chromatic interval")).toThrow(Problem);
    expect(() => patternOf(played(even([60, 62], 0, 1), { rubato: true }), "rhythm")).toThrow(Problem);
  });

  it.each([
    null,
    "2 2 1",
    { viewpoint: "mood", symbols: [1] },
    { viewpoint: "finger", symbols: [6] },
    { viewpoint: "degree", symbols: ["b8"] },
    { viewpoint: "chromatic interval", symbols: [0.5] },
    { viewpoint: "rhythm", symbols: ["long"] },
    { viewpoint: "chromatic interval", symbols: [] },
    { viewpoint: "chromatic interval", symbols: new Array(300).fill(1) },
    { viewpoint: "contour", symbols: [{}] },
  ])("is refused when it is no pattern: %j", (value) => {
    expect(() => checkPattern(value)).toThrow(Problem);
  });
});
