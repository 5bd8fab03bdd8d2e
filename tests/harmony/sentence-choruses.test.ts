/** What is said of a whole solo: sentences that can be read one after another. */
import { describe, expect, it } from "vitest";
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { LINE_ROLES, labelNotes, sentenceFor } from "../../src/harmony/index.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import { written } from "./notation.ts";

/** A solo of `choruses` choruses of a blues, wandering by steps and leaps, always the same. */
function wandering(choruses: number): { notes: PlacedNote[]; text: string[]; roles: Set<string> } {
  const chart = formChart("blues-basic", "F");
  const spans = chordSpans(chart);
  const base = written("F7 // F4@1", { key: "F" }).notes[0]!;
  let seed = 11;
  const draw = (n: number) => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((seed / 2_147_483_648) * n);
  };
  let pitch = 65;
  const notes: PlacedNote[] = [];
  for (let step = 0; step < choruses * 96; step++) {
    if (draw(6) === 0) continue;
    pitch = Math.min(84, Math.max(55, pitch + [-5, -3, -2, -1, -1, 0, 1, 1, 2, 3, 4][draw(11)]!));
    const position = step / 2;
    const place = position % 48;
    notes.push({
      ...base,
      id: `n${notes.length + 1}`,
      pitch,
      position,
      onset: position / 2,
      duration: 0.24,
      beats: 0.48,
      chorus: 1 + Math.floor(position / 48),
      bar: 1 + Math.floor(place / 4),
      beat: 1 + (place % 4),
      span: spans.findLastIndex((span) => span.start <= place),
    });
  }
  const labels = labelNotes(notes, chart, spans);
  const text = notes.map((note, i) => {
    const target = labels[i]!.target === null ? null : Number(labels[i]!.target!.slice(1)) - 1;
    return sentenceFor(note, labels[i]!, {
      target: target === null ? null : notes[target]!,
      targetLabel: target === null ? null : labels[target]!,
      span: spans[note.span]!,
      nextSpan: spans[(note.span + 1) % spans.length]!,
      meter: chart.meter,
      finger: null,
      slide: false,
    });
  });
  return { notes, text, roles: new Set(labels.map((label) => label.lineRole!)) };
}

describe("eleven choruses of sentences", () => {
  const { text, roles, notes } = wandering(11);

  it("speak of every line role", () => {
    expect([...roles].sort()).toEqual(
      [...LINE_ROLES].filter((role) => role !== "suspension" || roles.has(role)).sort(),
    );
  });

  it("are one sentence each, that begins with a note name and ends with a full stop", () => {
    for (const sentence of text) {
      expect(sentence).toMatch(/^[A-G]( flat| sharp)? on (beat \d|the and of \d): [a-z][^.]*\.$/);
      expect(sentence).not.toMatch(/null|undefined|NaN| {2}|,,|: ?[.,]|\ba a|\bthe the\b/);
    }
  });

  it("do not say the same of two different notes in a row", () => {
    const clause = (sentence: string) => sentence.slice(sentence.indexOf(":"));
    const again = text.filter(
      (sentence, i) =>
        i > 0 && clause(sentence) === clause(text[i - 1]!) && notes[i]!.pitch !== notes[i - 1]!.pitch,
    );
    expect(again.length / text.length).toBeLessThan(0.005);
  });

  it("know many ways to go on", () => {
    const ways = text.map((sentence) => sentence.slice(sentence.indexOf(",") + 1).replace(/\b[A-G]\S*/g, ""));
    expect(new Set(ways).size).toBeGreaterThan(80);
  });

  it("say the same of the same note every time", () => {
    expect(wandering(11).text).toEqual(text);
  });
});
