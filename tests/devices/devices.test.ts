/** Devices: right on their examples, silent on what only looks like one and on random lines. */
import { describe, expect, it } from "vitest";
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { certaintyOf } from "../../src/devices/certainty.ts";
import { DEVICE_NAMES, type DeviceName, findDevices } from "../../src/devices/index.ts";
import { labelNotes } from "../../src/harmony/index.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import { labelled, type Setting } from "../harmony/notation.ts";
import { EXAMPLES } from "./examples.ts";
import { FURTHER_EXAMPLES, type SecondExample } from "./further-examples.ts";
import { randomLine } from "./random-lines.ts";

function devicesOf(text: string, setting?: Setting, phrases: { firstNote: string; lastNote: string }[] = []) {
  const { notes, labels, spans } = labelled(text, setting);
  return findDevices(notes, labels, spans, phrases);
}

describe.each(Object.entries(EXAMPLES))("%s", (name, { is, isNot }) => {
  it.each(is)("is $text", ({ text, setting }) => {
    expect(devicesOf(text, setting).map((device) => device.name)).toContain(name);
  });
  it.each(isNot)("is not $text: $why", ({ text, setting }) => {
    expect(devicesOf(text, setting).map((device) => device.name)).not.toContain(name);
  });
});

/** The device names of an example; its first phrase has as many notes as it says. */
function namesIn({ text, setting, first }: SecondExample): DeviceName[] {
  const { notes } = labelled(text, setting);
  const phrases =
    first === undefined
      ? []
      : [
          { firstNote: "n1", lastNote: `n${first}` },
          { firstNote: `n${first + 1}`, lastNote: `n${notes.length}` },
        ];
  return devicesOf(text, setting, phrases).map((device) => device.name);
}

describe.each(Object.entries(FURTHER_EXAMPLES))(
  "ten more and ten near misses of %s",
  (name, { is, isNot }) => {
    it("are told apart", () => {
      expect([is.length, isNot.length]).toEqual([10, 10]);
      for (const example of is)
        expect([example.text, namesIn(example)]).toEqual([example.text, expect.arrayContaining([name])]);
      for (const example of isNot)
        expect([example.why, namesIn(example).includes(name as DeviceName)]).toEqual([example.why, false]);
    });
  },
);

describe("answering end", () => {
  const phrases = [
    { firstNote: "n1", lastNote: "n4" },
    { firstNote: "n5", lastNote: "n8" },
  ];
  it("is two phrases with the same last three notes", () => {
    const [found] = devicesOf(
      "C | C // C4@1 G4@1.5 E4@2 D4@2.5 | A4@1 G4@1.5 E4@2 D4@2.5",
      undefined,
      phrases,
    );
    expect(found).toMatchObject({ name: "answering end", notes: ["n6", "n7", "n8"], bar: 2, beat: 1.5 });
    expect(found!.account).toBe("Bar 2: the phrase ends as the one before it did.");
  });
  it.each([
    ["another last note", "C | C // C4@1 G4@1.5 E4@2 D4@2.5 | A4@1 G4@1.5 E4@2 C4@2.5"],
    ["another rhythm", "C | C // C4@1 G4@1.5 E4@2 D4@2.5 | A4@1 G4@2 E4@3 D4@4"],
    ["the same end in another place", "C | C // C4@1 G4@1.5 E4@2 D4@2.5 | A4@1 C5@1.5 A4@2 G4@2.5"],
  ])("is not %s", (_, text) => {
    expect(devicesOf(text, undefined, phrases)).toEqual([]);
  });
});

it("no device is said of more than one in fifty random lines", () => {
  const chance = chanceFrom(11);
  const counts = new Map<DeviceName, number>();
  const forms = [
    formChart("blues-basic", "F"),
    formChart("two-five-one", "C"),
    formChart("aaba-dominant-bridge", "Bb"),
  ];
  for (let i = 0; i < 500; i++) {
    const chart = forms[i % forms.length]!;
    const spans = chordSpans(chart);
    const { notes, phrases } = randomLine(chance, chart, spans);
    const said = findDevices(notes, labelNotes(notes, chart, spans), spans, phrases);
    for (const name of new Set(said.map((device) => device.name)))
      counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  for (const name of DEVICE_NAMES) expect([name, (counts.get(name) ?? 0) <= 10]).toEqual([name, true]);
});

it("names notes of the solo only, in order, with a certainty and a sentence", () => {
  const [found] = devicesOf("G7 | C // B3@1 D4@1.5 <G2@1 F4@2 Ab4@2.5 G4@3");
  expect(found).toEqual({
    name: "third to flat ninth",
    notes: ["n1", "n2", "n4", "n5"],
    firstNote: "n1",
    lastNote: "n5",
    chorus: 1,
    bar: 1,
    beat: 1,
    certainty: 0.93,
    account: "Bar 1: third, fifth, seventh and flat ninth of G7 in one rising arpeggio.",
  });
});

// Laplace, Essai philosophique sur les probabilités, 1814: after r of n, (r + 1) / (n + 2) [lit].
it("is as sure of a device as the readings of it allow", () => {
  expect(certaintyOf("tritone outline")).toBe(0.75);
  for (const name of DEVICE_NAMES) expect(certaintyOf(name)).toBeLessThan(0.95);
});
