import { describe, expect, it } from "vitest";
import {
  type Answer,
  type Asked,
  IN_TIME,
  judgedWords,
  metWords,
  pressed,
  unanswered,
  whatWasMet,
} from "../../client/practice/answer-model.ts";

/** A scale of quarters at 60, counted in by four: C D E F from second 4 on, and C again. */
const ASKED: readonly Asked[] = [60, 62, 64, 65, 60].map((pitch, i) => ({ pitch, onset: 4 + i }));
const BEAT = 1;

const play = (...keys: readonly (readonly [pitch: number, seconds: number])[]): Answer =>
  keys.reduce<Answer>(
    (answer, [pitch, seconds]) => pressed(answer, ASKED, pitch, seconds, BEAT).answer,
    unanswered(ASKED),
  );

describe("an exercise that a student plays", () => {
  it("judges a key in the moment at which it is pressed", () => {
    const none = unanswered(ASKED);
    const right = pressed(none, ASKED, 60, 4.02, BEAT);
    expect(right.judged).toMatchObject({ kind: "met", note: 0 });
    expect(judgedWords(right.judged, true)).toBe("right, in time");
    expect(judgedWords(pressed(none, ASKED, 62, 5.12, BEAT).judged, true)).toBe("right, 120 ms late");
    expect(judgedWords(pressed(none, ASKED, 62, 4.9, BEAT).judged, true)).toBe("right, 100 ms early");
    // Where the delay is not known, a key's own lateness says nothing.
    expect(judgedWords(pressed(none, ASKED, 62, 5.12, BEAT).judged, false)).toBe("right");
    expect(pressed(none, ASKED, 61, 4, BEAT).judged).toEqual({ kind: "wrong key" });
    // The right key more than half a beat away is another moment of the bar.
    expect(pressed(none, ASKED, 62, 5.51, BEAT).judged.kind).toBe("wrong key");
    expect(pressed(none, ASKED, 62, 5.49, BEAT).judged.kind).toBe("met");
  });

  it("takes the same key twice for two notes, and a second press on one note for a wrong key", () => {
    const twice = play([60, 4], [60, 8]);
    expect(twice.met.map((one) => one !== null)).toEqual([true, false, false, false, true]);
    expect(play([60, 4], [60, 4.2])).toMatchObject({ wrong: 1 });
  });

  it("tells at the end what was met, in time and beside it", () => {
    const all = whatWasMet(play([60, 4], [62, 5.03], [63, 5.5], [64, 6.09], [65, 6.96]), true);
    expect(all).toMatchObject({ notes: 5, met: 4, inTime: 3, wrong: 1 });
    expect(metWords(all, true)).toBe(
      "4 of 5 notes met, 3 of them in time (within 50 ms). Not in it: one key. On the whole you are with the click.",
    );
    expect(metWords(whatWasMet(unanswered(ASKED), true), true)).toBe("Nothing was played.");
  });

  it("judges time between the notes where the keyboard's delay is not known", () => {
    const late = play([60, 4.2], [62, 5.21], [64, 6.19], [65, 7.2], [60, 8.3]);
    expect(whatWasMet(late, false)).toMatchObject({ met: 5, inTime: 4 });
    expect(whatWasMet(late, true)).toMatchObject({ met: 5, inTime: 0 });
    expect(metWords(whatWasMet(late, true), true)).toMatch(/200 ms behind the click\.$/);
  });

  // Onsets are called the same within 50 ms: MIREX, audio onset detection [lit].
  it("holds a note in time within 50 ms", () => {
    expect(IN_TIME).toBe(0.05);
    expect(whatWasMet(play([60, 4.049]), true).inTime).toBe(1);
    expect(whatWasMet(play([60, 4.051]), true).inTime).toBe(0);
  });
});
