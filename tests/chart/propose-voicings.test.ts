import { describe, expect, it } from "vitest";
import { barLinesByForm } from "../../src/chart/bars-by-form.ts";
import { FORMS, formChart, parseChart, proposeChart } from "../../src/chart/index.ts";
import type { Take } from "../../src/take/index.ts";
import { emptyTake } from "../take/empty-take.ts";
import { type Comping, compingTake, noteAt, type Voicing } from "./comping-take.ts";

const human: Omit<Comping, "voicing" | "seed"> = { choruses: 2, tempo: 140, jitter: 0.02, early: 0.2 };
const propose = (take: Take) => proposeChart(take, take.notes)!;

describe("the form that is proposed from what the comping hand plays", () => {
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
});

describe("the form that is proposed without a click", () => {
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
    expect(proposeChart(emptyTake({ notes, tempoStated: false }), notes)?.confidence ?? 0).toBeLessThan(0.5);
  });

  it("is judged by the first 400 seconds of a longer take", () => {
    const long = { ...human, choruses: 12, tempo: 72, voicing: "close", seed: 31 } as const;
    const lines = barLinesByForm(compingTake(formChart("blues-basic", "C"), long).notes)!;
    expect(lines.at(-1)).toBeCloseTo(400, 1);
  });
});
