/** A chart that is played to be checked: its chords are heard in its bars, in the order of playing. */
import { describe, expect, it } from "vitest";
import { chartSound } from "../../client/parts/chart-sound.ts";

/** Pitch classes that sound at a moment, and the lowest of them. */
function soundingAt(text: string, bar: number, beat: number) {
  const { notes, barSeconds } = chartSound(text);
  const at = (bar - 1 + beat / 4) * barSeconds;
  const sounding = notes
    .filter((note) => note.at <= at + 0.01 && note.at + note.seconds > at + 0.01)
    .map(({ pitch }) => pitch);
  return { classes: new Set(sounding.map((pitch) => pitch % 12)), bass: Math.min(...sounding) % 12 };
}

describe("a chart that is played to be checked", () => {
  // Shell voicings: root in the bass, third and seventh above [practice].
  it("has each chord's bass, third and seventh where it begins", () => {
    const text = "| Dm7 | G7 | Cmaj7 C/E | F7 |";
    const dm7 = soundingAt(text, 1, 0);
    expect(dm7.bass).toBe(2);
    expect([5, 0].every((tone) => dm7.classes.has(tone))).toBe(true);
    const g7 = soundingAt(text, 2, 0);
    expect(g7.bass).toBe(7);
    expect([11, 5].every((tone) => g7.classes.has(tone))).toBe(true);
    expect(soundingAt(text, 3, 0).bass).toBe(0);
    expect(soundingAt(text, 3, 2).bass).toBe(4);
  });

  it("is as long as its bars, repeats and all, and silent where no chord sounds", () => {
    const { bars, barSeconds, notes } = chartSound("meter: 3/4\n|: C | N.C. :| F |");
    expect(bars).toBe(5);
    // Three quarter notes at 132 a minute.
    expect(barSeconds).toBeCloseTo((3 * 60) / 132, 6);
    const inSecondBar = notes.filter(({ at }) => at >= barSeconds && at < 2 * barSeconds);
    expect(inSecondBar).toEqual([]);
  });
});
