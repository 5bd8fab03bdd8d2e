import { describe, expect, it } from "vitest";
import { annotatedScore } from "../../src/export/index.ts";
import { demoTakes } from "./demo-takes.ts";

const [{ analysis }] = demoTakes() as [ReturnType<typeof demoTakes>[number]];

/** Note types on the page of two notes a quarter apart, the first held for a share of that way. */
function typesWritten(held: number): string[] {
  const one = analysis.notes.find((note) => note.solo)!;
  const at = { ...one, chorus: 1, bar: 1, beats: held, printedFingers: [], slide: null };
  const notes = [
    { ...at, id: "n1", beat: 1, position: 0 },
    { ...at, id: "n2", beat: 2, position: 1, beats: 1 },
  ];
  const page = annotatedScore({ ...analysis, notes });
  const written = page
    .split("<note")
    .slice(1)
    .filter((note) => note.includes("<pitch>"));
  return written.map((note) => /<type>(\w+)<\/type>/.exec(note)![1]!);
}

// A note that is held for half its value is staccato, as the manuals of notation and of playing have it; one that is
// held for most of it is written whole, since no pianist holds to the last moment. [practice]
describe("the written length of a note", () => {
  it.each([0.6, 0.75, 0.84, 0.95])("held for %s of the way to the next is the whole of it", (held) => {
    expect(typesWritten(held)[0]).toBe("quarter");
  });

  it.each([0.3, 0.5])("held for %s of the way is short, and a rest follows", (held) => {
    expect(typesWritten(held)[0]).toBe("eighth");
  });
});
