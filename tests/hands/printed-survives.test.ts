/**
 * Printed fingering is truth and is never lost: MusicXML -> take -> analysis -> annotated score -> take, over random
 * lines with several fingers on a note, alternates, changes on a held key, and grace notes.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { annotatedScore, notesCsv, notesNdjson } from "../../src/export/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { PrintedFinger, Take } from "../../src/take/index.ts";
import { attributes, bar, pitchElement, rest, score } from "../ingest/score-text.ts";

const CHART = "key: C\nidiom: blues\n| C7 | F7 |";
const PITCHES = ["A3", "C4", "D4", "Eb4", "E4", "G4", "A4", "Bb4", "C5", "D5"];

interface Written {
  /** Null for a rest. */
  readonly pitch: string | null;
  /** Eighth notes. */
  readonly length: 1 | 2;
  readonly marks: readonly PrintedFinger[];
  readonly graces: readonly {
    readonly pitch: string;
    readonly slash: boolean;
    readonly marks: readonly PrintedFinger[];
  }[];
}

const finger = fc.constantFrom(1, 2, 3, 4, 5) as fc.Arbitrary<1 | 2 | 3 | 4 | 5>;
/** The first mark is the finger that strikes; others are further fingers, alternates or changes on the held key. */
const marks = fc
  .array(fc.record({ finger, kind: fc.constantFrom("plain", "substitution", "alternate") }), { maxLength: 3 })
  .map((list) =>
    list.map(
      ({ finger: own, kind }, i): PrintedFinger => ({
        finger: own,
        substitution: i > 0 && kind === "substitution",
        alternate: i > 0 && kind === "alternate",
      }),
    ),
  );
const pitch = fc.constantFrom(...PITCHES);
const written: fc.Arbitrary<Written> = fc.record({
  pitch: fc.option(pitch, { freq: 5 }),
  length: fc.constantFrom(1, 2),
  marks,
  graces: fc.array(fc.record({ pitch, slash: fc.boolean(), marks }), { maxLength: 2 }),
});

describe("printed fingering", () => {
  it("comes back exactly, on notes and grace notes, through the analysis and the annotated score", () => {
    fc.assert(
      fc.property(fc.array(written, { minLength: 6, maxLength: 20 }), (line) => {
        const source = xml(line);
        const before = readTake(source, { name: "line.musicxml" });
        const analysis = analyse(source, CHART, { name: "line.musicxml" });
        const after = readTake(new TextEncoder().encode(annotatedScore(analysis)), {
          name: "again.musicxml",
        });
        // Where nothing was printed the score shows the inferred finger, one at most.
        const [wanted, found] = [printedOf(before), printedOf(after)];
        expect(found.map(({ pitch: key, grace }) => [key, grace])).toEqual(
          wanted.map(({ pitch: key, grace }) => [key, grace]),
        );
        found.forEach((note, i) => {
          if (wanted[i]!.marks.length > 0) expect(note.marks).toEqual(wanted[i]!.marks);
          else expect(note.marks.length).toBeLessThanOrEqual(1);
        });
        // What is printed is what the account says, the finger that strikes first.
        const notes = analysis.notes;
        before.notes.forEach((note, i) => {
          const first = note.printed!.fingering[0];
          if (first === undefined) return;
          expect(notes[i]).toMatchObject({ finger: first.finger, fingerSource: "printed" });
          expect(notes[i]!.printedFingers).toEqual(note.printed!.fingering);
        });
      }),
      { numRuns: 40, seed: 11 },
    );
  });

  it("stays when the annotated score is analysed again: nothing changes any more", () => {
    fc.assert(
      fc.property(fc.array(written, { minLength: 6, maxLength: 14 }), (line) => {
        const once = annotatedScore(analyse(xml(line), CHART, { name: "line.musicxml" }));
        const bytes = new TextEncoder().encode(once);
        const twice = annotatedScore(analyse(bytes, CHART, { name: "line.musicxml" }));
        const again = readTake(new TextEncoder().encode(twice), { name: "line.musicxml" });
        expect(printedOf(again)).toEqual(printedOf(readTake(bytes, { name: "line.musicxml" })));
      }),
      { numRuns: 25, seed: 12 },
    );
  });

  it("is in the note tables, changes of finger and alternates told apart", () => {
    const plain = (own: 1 | 2 | 3 | 4 | 5): PrintedFinger => ({
      finger: own,
      substitution: false,
      alternate: false,
    });
    const note = (marks: readonly PrintedFinger[]): Written => ({
      pitch: "C4",
      length: 2,
      marks,
      graces: [],
    });
    const analysis = analyse(
      xml([
        note([plain(2), { ...plain(3), substitution: true }]),
        note([plain(1), { ...plain(4), alternate: true }]),
        note([plain(3)]),
        note([]),
      ]),
      CHART,
      { name: "line.musicxml" },
    );
    const rows = notesCsv(analysis).trim().split(/\r?\n/);
    const names = rows[0]!.split(",");
    // Counted from the end: the sentence before it may hold commas.
    const column = names.indexOf("printedFingers") - names.length;
    expect(rows.slice(1).map((row) => row.split(",").at(column))).toEqual(["2-3", "1 (4)", "3", ""]);
    const lines = notesNdjson(analysis)
      .trim()
      .split("\n")
      .map((one) => JSON.parse(one));
    expect(lines.map((one) => one.printedFingers)).toEqual(["2-3", "1 (4)", "3", ""]);
  });
});

/** Pitch, grace and marks in the order of the page. */
function printedOf(take: Take) {
  return take.notes.map(({ pitch: key, printed }) => ({
    pitch: key,
    grace: printed!.grace,
    marks: printed!.fingering,
  }));
}

function xml(line: readonly Written[]): Uint8Array {
  const bars: string[] = [];
  let content = "";
  let left = 8;
  const close = () => {
    if (left > 0) content += rest(left);
    bars.push(bar(bars.length + 1, (bars.length === 0 ? attributes(2) : "") + content));
    content = "";
    left = 8;
  };
  for (const one of line) {
    if (one.length > left) close();
    if (one.pitch === null) content += rest(one.length);
    else {
      content += one.graces
        .map((grace) => noteXml(grace.pitch, `<grace${grace.slash ? ' slash="yes"' : ""}/>`, "", grace.marks))
        .join("");
      content += noteXml(one.pitch, "", `<duration>${one.length}</duration>`, one.marks);
    }
    left -= one.length;
  }
  close();
  return score(...bars);
}

function noteXml(name: string, before: string, length: string, marks: readonly PrintedFinger[]): string {
  const fingering = marks
    .map(
      (mark) =>
        `<fingering${mark.substitution ? ' substitution="yes"' : ""}${mark.alternate ? ' alternate="yes"' : ""}>${mark.finger}</fingering>`,
    )
    .join("");
  const notations = fingering === "" ? "" : `<notations><technical>${fingering}</technical></notations>`;
  return `<note>${before}${pitchElement(name)}${length}<voice>1</voice>${notations}</note>`;
}
