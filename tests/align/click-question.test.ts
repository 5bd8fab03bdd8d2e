/** Whether a click was heard is asked where a loosely played line does not tell it, and the answer is kept. */
import { describe, expect, it } from "vitest";
import { clickQuestion } from "../../src/align/click-question.ts";
import { align } from "../../src/align/index.ts";
import type { AlignOptions } from "../../src/align/types.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { Take } from "../../src/take/index.ts";
import { type PlayedNote, takeOf } from "./human-solos.ts";
import { LOOSE_CHART, looseLine } from "./loose-line.ts";

const BEAT = 60 / 132;

/** The line on a click that its file states. */
function laid(loose: number, options: Partial<AlignOptions> = {}) {
  const notes = looseLine(loose).map(
    ({ pitch, place }): PlayedNote => ({
      pitch,
      onset: place * BEAT,
      duration: 0.4 * BEAT,
      tick: Math.round(480 * place),
      part: "t1",
    }),
  );
  const tempos = [{ tick: 0, seconds: 0, quartersPerMinute: 132 }];
  const take = takeOf(notes, { tempos, stated: true, meterStated: true });
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  return align(take, LOOSE_CHART, hands, { method: "auto", tempo: null, anchors: [], ...options });
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
