/** The table of outcomes, and for every warning the fact in the file that asks for it, found by other means. */
import { unzipSync } from "fflate";
import { read as readEvents } from "midifile-ts";
import { describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { Problem } from "../../src/take/index.ts";
import { ABSENT_PACKAGES, bytesOf, FOREIGN_FILES, type ForeignFile } from "./foreign-files.ts";
import { FOREIGN_OUTCOMES } from "./foreign-outcomes.ts";

const DRUMS = 9;

function outcomeOf(file: ForeignFile): { outcome: string; codes: string } {
  try {
    const codes = readTake(bytesOf(file), { name: file.name }).warnings.map(({ code }) => code);
    return { outcome: codes.length === 0 ? "exact" : "warned", codes: codes.sort().join(" ") };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { outcome: "refused", codes: error.code };
  }
}

/** Warnings that a MIDI file asks for, from midifile-ts's events: pairing key by key, the first struck first. */
function expectedOfMidi(bytes: Uint8Array): Set<string> {
  const codes = new Set<string>();
  for (const track of readEvents(bytes).tracks) {
    let tick = 0;
    const open = new Map<string, number[]>();
    for (const event of track) {
      tick += event.deltaTime;
      if (event.type !== "channel") continue;
      if (event.subtype !== "noteOn" && event.subtype !== "noteOff") continue;
      const struck = event.subtype === "noteOn" && event.velocity > 0;
      if (event.channel === DRUMS) {
        if (struck) codes.add("drums-left-out");
        continue;
      }
      const key = `${event.channel} ${event.noteNumber}`;
      if (struck) open.set(key, [...(open.get(key) ?? []), tick]);
      else {
        const start = open.get(key)?.shift();
        if (start === undefined) codes.add("stray-note-off");
        else if (start === tick) codes.add("note-without-length");
      }
    }
    if ([...open.values()].some((left) => left.length > 0)) codes.add("hanging-note");
  }
  return codes;
}

/** Bars that contradict their meter, seen in the files by eye; the rest is found by the elements in the text. */
const BY_EYE: Readonly<Record<string, readonly string[]>> = {
  // A mock document whose divisions fit neither its meter nor its note types.
  mock1: ["pickup-assumed", "irregular-bar"],
  // Bar 1, five quarters long, stands before the first <time>, which is 3/4.
  Binchois: ["meter-assumed", "irregular-bar"],
  // Plainchant in one bar of 27 quarters without a meter.
  Chant: ["irregular-bar"],
  // No <time> is given; the bars have two quarters (the movement is in 2/4).
  MozartPianoSonata: ["meter-assumed"],
  // Ties with a start and no stop on a long trill.
  BWV_0775: ["tie-without-end"],
};

function expectedOfScore(file: ForeignFile): Set<string> {
  const packed = file.name.endsWith(".mxl");
  const inside = packed ? Object.entries(unzipSync(bytesOf(file))) : [];
  const bytes = inside.find(([name]) => /^[^/]+\.xml$/.test(name))?.[1] ?? bytesOf(file);
  // Two of the compressed samples are written in UTF-16, one with the high byte first and one with the low byte.
  const encoding = bytes[0] === 0xfe ? "utf-16be" : bytes[0] === 0xff ? "utf-16le" : "utf-8";
  const xml = new TextDecoder(encoding).decode(bytes);
  const codes = new Set(BY_EYE[file.name.replace(/\.\w+$/, "")] ?? []);
  if (/<cue\b/.test(xml)) codes.add("cue-notes-left-out");
  if (/<unpitched\b/.test(xml)) codes.add("drums-left-out");
  if (!/^(?:\s|<[?!][\s\S]*?>)*<score-(?:partwise|timewise)\b/.test(xml)) return new Set(["not-a-score"]);
  return codes;
}

describe("the table of outcomes", () => {
  it("names at least 85 files of at least five packages", () => {
    expect(Object.values(FOREIGN_OUTCOMES).flat().length).toBeGreaterThanOrEqual(85);
    expect(Object.keys(FOREIGN_OUTCOMES).length).toBeGreaterThanOrEqual(5);
  });

  it("names every file that is on this machine, and no other of these packages", () => {
    for (const [from, outcomes] of Object.entries(FOREIGN_OUTCOMES)) {
      if (ABSENT_PACKAGES.includes(from)) continue;
      const here = FOREIGN_FILES.filter((file) => file.package === from).map(({ name }) => name);
      expect(here.sort()).toEqual(outcomes.map(({ name }) => name).sort());
    }
  });
});

describe.each(FOREIGN_FILES)("$package $name", (file) => {
  it("ends as the table says", () => {
    const stated = FOREIGN_OUTCOMES[file.package]!.find(({ name }) => name === file.name)!;
    expect(outcomeOf(file)).toEqual({ outcome: stated.outcome, codes: stated.codes });
  });

  it("is warned of for what is in it, and for nothing else", () => {
    const expected = file.name.endsWith(".mid") ? expectedOfMidi(bytesOf(file)) : expectedOfScore(file);
    expect(outcomeOf(file).codes).toBe([...expected].sort().join(" "));
  });
});

describe.skipIf(ABSENT_PACKAGES.length === 0)("files that are not on this machine", () => {
  it.skip.each([...ABSENT_PACKAGES])("%s: run tests/outside/fetch-foreign.sh", () => {});
});
