/** Whether a click was heard is asked where a loosely played line does not tell it, and the answer is kept. */
import { describe, expect, it } from "vitest";
import { clickQuestion } from "../../src/align/click-question.ts";
import { align } from "../../src/align/index.ts";
import type { AlignOptions } from "../../src/align/types.ts";
import { formChart } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { Take } from "../../src/take/index.ts";
import { type PlayedNote, takeOf } from "./human-solos.ts";
import { seeded } from "./simulator/random.ts";

const CHART = formChart("blues-basic", "F");
const BEAT = 60 / 132;
/** Eighths of a bar that are played, and semitones over the chord's root. */
const FIGURES = [
  [0, 4, 7, 9, 10, 9, 7, 4],
  [4, 7, 10, 14, 12, 10, null, null],
  [null, null, 7, 9, 10, 7, 4, 0],
] as const;

/** Three choruses on a click, each stroke beside it by so much of a beat at most, after two bars of count-in. */
function laid(loose: number, options: Partial<AlignOptions> = {}) {
  const random = seeded(7);
  const notes: PlayedNote[] = [];
  for (let bar = 0; bar < 3 * CHART.bars.length; bar++) {
    const root = 60 + (CHART.bars[bar % CHART.bars.length]!.chords[0]!.chord!.rootClass % 12);
    FIGURES[bar % FIGURES.length]!.forEach((step, k) => {
      if (step === null) return;
      const place = 8 + bar * 4 + k / 2 + random.between(-loose, loose);
      notes.push({
        pitch: root + step,
        onset: place * BEAT,
        duration: 0.4 * BEAT,
        tick: Math.round(480 * place),
        part: "t1",
      });
    });
  }
  notes.sort((a, b) => a.onset - b.onset);
  const tempos = [{ tick: 0, seconds: 0, quartersPerMinute: 132 }];
  const take = takeOf(notes, { tempos, stated: true, meterStated: true });
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  return align(take, CHART, hands, { method: "auto", tempo: null, anchors: [], ...options });
}

const asked = ({ warnings }: ReturnType<typeof align>) =>
  warnings.find(({ code }) => code === "click-cannot-be-told");

describe("whether a click was heard", () => {
  it("is not asked of a line that keeps to it, by which it is laid", () => {
    const close = laid(0.1);
    expect(close.method).toBe("click");
    expect(asked(close)).toBeUndefined();
  });

  // Strokes that lie as far from the eighths as they can tell of no beat: whoever played knows, the notes do not.
  it("is asked of a line that lies on the beats as loosely as chance, with the file's tempo", () => {
    const loose = laid(0.5);
    expect(loose.method).not.toBe("click");
    expect(loose.confidence).toBeLessThan(0.5);
    expect(asked(loose)?.message).toContain("132 quarter notes");
  });

  it("is kept once it is said: the bars are the click's, and it is not asked again", () => {
    const said = laid(0.5, { method: "click" });
    expect(said.method).toBe("click");
    expect(said.tempo!.median).toBeCloseTo(132, 3);
    expect(asked(said)).toBeUndefined();
  });

  it("is not asked from one in ten down: nine in ten would say that there was none", () => {
    const take = { tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 187.3 }] } as unknown as Take;
    expect(clickQuestion(take, 0.11)[0]!.message).toContain("187 quarter notes");
    expect(clickQuestion(take, 0.09)).toEqual([]);
  });
});
