import { describe, expect, it } from "vitest";
import { chartText, FORMS, formChart, parseChart, proposeChart } from "../../src/chart/index.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { type Comping, compingTake, emptyTake, noteAt, type Voicing } from "./comping-take.ts";

const human: Omit<Comping, "voicing" | "seed"> = { choruses: 2, tempo: 140, jitter: 0.02, early: 0.2 };
const propose = (take: Take, options = {}) => proposeChart(take, take.notes, options)!;
const bars = (text: string) =>
  text
    .split("\n")
    .filter((line) => line.startsWith("|"))
    .join("\n");

describe("a chart from what the comping hand plays", () => {
  // Truth is the chart that the takes are played from; keys on every side of the circle.
  const KEYS = ["C", "F#", "Bb"];

  /** Share of takes whose form and key are found, and the mean confidence of those and of the others. */
  function found(voicing: Voicing, forms = FORMS) {
    let right = 0;
    const sure = { right: 0, wrong: 0 };
    const all = forms.flatMap((form) =>
      KEYS.map((key, index) => ({ form, chart: formChart(form.id, key), index })),
    );
    for (const { form, chart, index } of all) {
      const take = compingTake(chart, { ...human, voicing, seed: index + 1 });
      const proposal = propose(take);
      const ok =
        proposal.form?.form === form.id &&
        proposal.chart.key.tonicClass === chart.key.tonicClass &&
        proposal.chart.key.mode === chart.key.mode;
      if (ok) right += 1;
      sure[ok ? "right" : "wrong"] += proposal.confidence;
    }
    return {
      share: right / all.length,
      right: right === 0 ? 0 : sure.right / right,
      wrong: right === all.length ? 0 : sure.wrong / (all.length - right),
    };
  }

  it.each(["shell", "close", "bass and rootless"] as const)(
    "finds form and key from %s voicings, and is sure of it",
    (voicing) => {
      const { share, right } = found(voicing);
      expect(share).toBe(1);
      expect(right).toBeGreaterThan(0.9);
    },
  );

  it("finds most forms even from rootless voicings without a bass, and is less sure", () => {
    const { share, right, wrong } = found(
      "rootless",
      FORMS.filter(({ id }) => !id.startsWith("vamp")),
    );
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(right).toBeLessThan(0.98);
    expect(wrong).toBeLessThan(0.85);
  });

  it("is not sure of bare fifths", () => {
    const { share, right, wrong } = found("root and fifth");
    expect(share).toBeLessThan(0.9);
    expect(wrong).toBeLessThan(right - 0.2);
  });

  it("reads a progression that is none of the forms, chord by chord", () => {
    const text = "| Gmaj7 | Em7 | Am7 | D7 |\n| Bm7 E7 | Am7 | Cm6 | Gmaj7 |";
    const chart = parseChart(`key: G\n${text}`);
    const take = compingTake(chart, { ...human, voicing: "shell", seed: 3 });
    const proposal = propose(take);
    expect(bars(chartText(proposal.chart))).toBe(text);
    expect(proposal.chart.key).toMatchObject({ tonic: "G", mode: "major" });
    expect(proposal.form).toBeNull();
    expect(proposal.description).toBe("8 bars in G");
    expect(proposal.bars).toHaveLength(8);
    expect(Math.min(...proposal.bars.map(({ confidence }) => confidence))).toBeGreaterThan(0.6);
  });

  it("says which bar it is less sure of: the one that is played otherwise each time", () => {
    const chart = formChart("blues-basic", "F");
    const take = compingTake(chart, { ...human, jitter: 0, early: 0, voicing: "close", seed: 2 });
    const bar = (60 / 140) * 4;
    const other = (note: Note) => Math.floor(note.onset / bar + 0.01) % 12 === 6;
    const notes = take.notes.map((note, i) =>
      other(note) ? { ...note, pitch: note.pitch + (i % 3) + 1 } : note,
    );
    const proposal = propose({ ...take, notes });
    expect(proposal.description).toBe("12-bar blues in F");
    const confidences = proposal.bars.map(({ confidence }) => confidence);
    expect(confidences.indexOf(Math.min(...confidences))).toBe(6);
    expect(proposal.bars[6]).toMatchObject({ bar: 7 });
  });

  it("gives several candidates, the best first, with confidences from 0 to 1", () => {
    const take = compingTake(formChart("blues-minor", "D"), { ...human, voicing: "shell", seed: 5 });
    const proposal = propose(take);
    expect(proposal.candidates.length).toBeGreaterThan(1);
    expect(proposal.candidates[0]).toMatchObject({
      description: proposal.description,
      confidence: proposal.confidence,
    });
    const confidences = proposal.candidates.map(({ confidence }) => confidence);
    expect(confidences.toSorted((a, b) => b - a)).toEqual(confidences);
    for (const { confidence, bars: each, chart } of proposal.candidates) {
      expect(confidence).toBeGreaterThanOrEqual(0);
      expect(confidence).toBeLessThanOrEqual(1);
      expect(each.map(({ bar }) => bar)).toEqual(chart.bars.map(({ number }) => number));
      for (const { confidence: one } of each) expect(one >= 0 && one <= 1).toBe(true);
      expect(parseChart(chartText(chart)).bars).toHaveLength(chart.bars.length);
    }
  });

  it("takes the bars of a notated take, from the one in which the comping starts", () => {
    const chart = formChart("two-five-one", "Ab");
    const played = compingTake(chart, {
      ...human,
      tempo: 120,
      jitter: 0,
      early: 0,
      voicing: "close",
      seed: 1,
    });
    const notes = played.notes.map((note) => ({ ...note, onset: note.onset + 4, tick: note.tick + 3840 }));
    const all = Array.from({ length: 10 }, (_, bar) => ({
      number: String(bar),
      tick: bar * 1920,
      ticks: 1920,
      implicit: false,
      pass: 0,
    }));
    const take = emptyTake({ format: "musicxml", notes, bars: all, title: "Head" });
    expect(propose(take).description).toBe("II-V-I in Ab");
    expect(propose(take).chart.bars).toHaveLength(4);
  });

  it("takes the tempo that it is told, when the source states none", () => {
    const chart = formChart("blues-quick-change", "C");
    const played = compingTake(chart, {
      ...human,
      tempo: 90,
      jitter: 0.01,
      early: 0,
      voicing: "shell",
      seed: 8,
    });
    const unstated: Take = {
      ...played,
      tempoStated: false,
      tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
    };
    const description = "12-bar blues with quick change in C";
    expect(propose(unstated, { tempo: 90 }).description).toBe(description);
    expect(propose(unstated)).toMatchObject({ description, confidence: expect.closeTo(0.8, 1) });
    const lines = Array.from({ length: 25 }, (_, bar) => (bar * 240) / 90);
    expect(propose(unstated, { barLines: lines }).description).toBe(description);
  });

  it("finds the form under a walking bass alone", () => {
    for (const [form, key] of [
      ["blues-quick-change", "F"],
      ["blues-minor", "A"],
      ["aaba-dominant-bridge", "Eb"],
    ] as const) {
      const chart = formChart(form, key);
      const proposal = propose(compingTake(chart, { ...human, early: 0, voicing: "walking", seed: 12 }));
      expect(proposal.form).toMatchObject({ form, key: { tonic: key } });
      expect(proposal.confidence).toBeGreaterThan(0.5);
    }
  });

  describe("without a click", () => {
    /** Time that breathes by some percent, and a source that says nothing of tempo or bars. */
    const free = (take: Take, depth: number): Take => {
      const warp = (seconds: number) =>
        seconds + depth * 4 * Math.sin(seconds / 9) + depth * Math.sin(seconds / 2.7);
      const notes = take.notes.map((note) => {
        const onset = warp(note.onset);
        return { ...note, onset, duration: warp(note.onset + note.duration) - onset };
      });
      return {
        ...take,
        notes,
        tempoStated: false,
        tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
      };
    };

    it("finds the bars by the form, in any key and number of choruses", () => {
      const cases = [
        ["blues-basic", "G", 3],
        ["blues-minor", "Bb", 2],
        ["aaba-dominant-bridge", "D", 1],
        ["blues-eight-bar", "Ab", 4],
      ] as const;
      for (const [form, key, choruses] of cases) {
        const take = compingTake(formChart(form, key), {
          ...human,
          tempo: 97,
          choruses,
          voicing: "shell",
          seed: 20,
        });
        const proposal = propose(free(take, 0.15));
        expect(proposal.form, `${form} in ${key}`).toMatchObject({ form, key: { tonic: key } });
        expect(proposal.confidence).toBeGreaterThan(0.6);
        expect(proposal.confidence).toBeLessThanOrEqual(0.8);
      }
    });

    it("is not sure of a progression that is none of the forms", () => {
      const chart = parseChart(
        "key: Bb\nBb6 | Bb6 | Cm7 | F7 | Bb6 | Bb7 | Eb6 | Ebm6 | Bb6 | G7 | Cm7 | Cm7 | F7 | F7 | Bb6 | Cm7 F7",
      );
      const take = compingTake(chart, { ...human, tempo: 80, voicing: "shell", seed: 21 });
      expect(propose(free(take, 0.3)).confidence).toBeLessThan(0.5);
    });

    it("proposes nothing from a chord or two", () => {
      const notes = [noteAt(1, 48, 0, 1, 120), noteAt(2, 52, 0, 1, 120)];
      expect(proposeChart(emptyTake({ notes, tempoStated: false }), notes)?.confidence ?? 0).toBeLessThan(
        0.5,
      );
    });
  });

  it("reads other meters", () => {
    const waltz = parseChart("key: Bb\nmeter: 3/4\nBbmaj7 | Gm7 | Cm7 | F7");
    const take = compingTake(waltz, { ...human, choruses: 3, early: 0, voicing: "close", seed: 4 });
    const proposal = propose(take);
    expect(proposal.chart.meter).toEqual({ beats: 3, unit: 4 });
    expect(bars(chartText(proposal.chart))).toBe("| Bbmaj7 | Gm7 | Cm7 | F7 |");
    const slow = { ...formChart("blues-eight-bar", "E"), meter: { beats: 12, unit: 8 } };
    const stretched = {
      ...slow,
      bars: slow.bars.map((bar) => ({ ...bar, chords: bar.chords.map((c) => ({ ...c, beats: 12 })) })),
    };
    const blues = propose(compingTake(stretched, { ...human, voicing: "shell", seed: 6 }));
    expect(blues.description).toBe("8-bar blues in E");
    expect(blues.chart.bars[0]!.chords[0]).toMatchObject({ symbol: "E7", beat: 1, beats: 12 });
  });

  it("proposes nothing without comping or bars", () => {
    expect(proposeChart(emptyTake(), [])).toBeNull();
    expect(proposeChart(emptyTake({ notes: [noteAt(1, 60, 0, 1, 120)] }), [])).toBeNull();
  });

  it("is the same every time", () => {
    const take = compingTake(formChart("blues-two-five", "G"), { ...human, voicing: "rootless", seed: 9 });
    expect(propose(take)).toEqual(propose(take));
  });
});
