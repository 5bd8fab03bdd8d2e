/** Putting notes and chords right, without a page. */
import { describe, expect, it } from "vitest";
import {
  addAnswer,
  chordAnswer,
  fingerAnswers,
  moveAnswer,
  noteAnswers,
  pitchAnswers,
  putRightSoFar,
  typedBar,
} from "../../client/take/correct-model.ts";
import type { Analysis } from "../../src/account.ts";
import { parseChart } from "../../src/chart/index.ts";
import { sampleAccount } from "./sample-account.ts";

/** Names of keys come from the account; here from their numbers. */
const keyName = (pitch: number) => `key ${pitch}`;

const CHART = "key: F\nmeter: 4/4\nidiom: blues\n| F7 | Bb7 | C7:3 F7:1 | F7 |";

function account(corrections: Analysis["corrections"] = []): Analysis {
  const base = sampleAccount();
  return { ...base, corrections, chart: { ...base.chart, text: CHART } };
}
const note = { ...account().notes[3]!, hand: "right" as const, finger: 2 as const, source: "t1/960/64" };
const outcome = (more: object) =>
  ({ note: note.source, id: note.id, became: "applied", text: "It was so.", ...more }) as never;
const labelled = (answers: readonly { label: string }[], begins: string) =>
  answers.find(({ label }) => label.startsWith(begins))! as ReturnType<typeof noteAnswers>[number];

describe("a note that is put right", () => {
  it("goes to the other hand, and back to what was said of it before", () => {
    const answer = labelled(noteAnswers(account([outcome({ finger: 3 })]), note), "It was the left hand");
    expect(answer.change).toEqual({ correct: [{ note: "t1/960/64", finger: 3, hand: "left" }] });
    expect(answer.undo).toEqual({ correct: [{ note: "t1/960/64", finger: 3 }] });
  });

  it("of which nothing was said is undone by its name alone", () => {
    for (const answer of [...noteAnswers(account(), note), ...fingerAnswers(account(), note)])
      expect(answer.undo).toEqual({ correct: [{ note: "t1/960/64" }] });
  });

  it("is offered the other four fingers, and the keys around it within the 128 of MIDI", () => {
    expect(fingerAnswers(account(), note).map(({ label }) => label)).toEqual(["1", "3", "4", "5"]);
    const low = pitchAnswers(account(), { ...note, pitch: 1 }, keyName);
    expect(low.map(({ label }) => label)).toEqual(["key 0", "key 2", "key 3", "key 13"]);
    expect(low.map(({ change }) => change.correct![0]!.pitch)).toEqual([0, 2, 3, 13]);
  });

  it("is not called a slip twice, and is as it was read once that is wanted", () => {
    const slip = noteAnswers(account([outcome({ meant: false })]), note);
    expect(slip.map(({ label }) => label)).not.toContain("Not meant");
    expect(labelled(slip, "As it was read").change).toEqual({ correct: [{ note: "t1/960/64" }] });
    expect(noteAnswers(account(), note).map(({ label }) => label)).not.toContain("As it was read");
  });

  it("is confirmed where it was not heard surely, and nowhere else", () => {
    const unsure = noteAnswers(account(), { ...note, certainty: 0.6 });
    expect(labelled(unsure, "It was played").change).toEqual({
      correct: [{ note: "t1/960/64", played: true }],
    });
    for (const sure of [note, { ...note, certainty: 0.97 }])
      expect(noteAnswers(account(), sure).map(({ label }) => label)).not.toContain("It was played");
  });

  it("begins at another moment, also where it was added itself", () => {
    expect(moveAnswer(account(), note, 2.5).change).toEqual({ correct: [{ note: "t1/960/64", onset: 2.5 }] });
    const added = { pitch: 64, onset: 1, duration: 0.5, velocity: 64 };
    expect(moveAnswer(account([outcome({ added })]), note, 2.5).change).toEqual({
      correct: [{ note: "t1/960/64", added: { ...added, onset: 2.5 } }],
    });
  });

  it("has its key moved where it was added itself", () => {
    const added = { pitch: 64, onset: 1, duration: 0.5, velocity: 64 };
    const [down] = pitchAnswers(account([outcome({ added })]), { ...note, pitch: 64 }, keyName);
    expect(down!.change.correct![0]).toEqual({ note: "t1/960/64", added: { ...added, pitch: 52 } });
  });

  it("gets a neighbour with it or after it, under a name that none has", () => {
    const first = addAnswer(account(), note, 67, "after", keyName).change.correct![0]!;
    expect(first).toMatchObject({ note: "added-1", hand: "right", added: { pitch: 67 } });
    expect(first.added!.onset).toBeCloseTo(note.onset + note.duration, 3);
    const taken = account([outcome({ note: "added-1" })]);
    expect(addAnswer(taken, note, 67, "with", keyName).change.correct![0]).toMatchObject({
      note: "added-2",
      added: { onset: Number(note.onset.toFixed(4)) },
    });
  });

  it("is listed with its way back", () => {
    const [only] = putRightSoFar(account([outcome({ removed: true })]));
    expect(only).toMatchObject({
      place: null,
      text: "It was so.",
      back: { change: { correct: [{ note: "t1/960/64" }] } },
    });
  });
});

describe("what was put right so far", () => {
  it("stands with its bar while the note is in the account", () => {
    const base = account([outcome({ hand: "left" })]);
    const notes = base.notes.map((one, i) =>
      i === 3 ? { ...one, source: note.source, chorus: 2, bar: 5, beat: 2.5 } : one,
    );
    expect(putRightSoFar({ ...base, notes })[0]!.place).toBe("Chorus 2, bar 5, beat 2½");
  });
});

describe("chords that are typed over", () => {
  it("stand as they would be typed", () => {
    expect([typedBar(account(), 1), typedBar(account(), 3), typedBar(account(), 9)]).toEqual([
      "F7",
      "C7:3 F7:1",
      null,
    ]);
  });

  it("change one bar of the chart and leave the others", () => {
    const { change, undo } = chordAnswer(account(), 2, "Gm7 C7");
    const symbols = parseChart(change.chart!).bars.map((bar) => bar.chords.map(({ symbol }) => symbol));
    expect(symbols).toEqual([["F7"], ["Gm7", "C7"], ["C7", "F7"], ["F7"]]);
    expect(undo.chart).toBe(CHART);
  });

  it("are refused where they are none, or more than a bar", () => {
    expect(() => chordAnswer(account(), 2, "Hello")).toThrow();
    expect(() => chordAnswer(account(), 2, "F7 | C7")).toThrow(/one bar/i);
  });
});
