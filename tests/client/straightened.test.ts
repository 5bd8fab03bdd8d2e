/** A take straightened and counted in: arithmetic of the tempo mark (a quarter lasts 60 / ♩ seconds), no browser. */
import { describe, expect, it } from "vitest";
import { indexAccount } from "../../client/shell/account-index.ts";
import { eventsOf, type Playing, type SoundEvent } from "../../client/sound/events.ts";
import { passagesOf } from "../../client/sound/passages.ts";
import type { Analysis } from "../../src/account.ts";
import { sampleAccount } from "./sample-account.ts";

/** Bars of 1.8, 2.2 and 2 seconds in turn, each note as far into its bar as it was: the tempo sways. */
function swaying(): Analysis {
  const sample = sampleAccount({ choruses: 1 });
  let end = 1;
  const bars = sample.alignment.bars.map((bar, i) => {
    const start = end;
    end += [1.8, 2.2, 2][i % 3]!;
    return { ...bar, start, end };
  });
  const notes = sample.notes.map((note) => {
    const { start, end: until } = bars[note.bar - 1]!;
    const late = note.beat! % 1 === 0 ? 0 : 0.06;
    return { ...note, onset: start + ((note.beat! - 1) / 4) * (until - start) + late };
  });
  return { ...sample, notes, alignment: { ...sample.alignment, bars } };
}

const HOW: Playing = {
  ...{ backing: new Set(["click"]), otherHand: false, speed: 1, loop: false },
  ...{ timing: "even", countIn: false },
};
const index = indexAccount(swaying());
const heard = (how: Partial<Playing>, bar: number | null = null): SoundEvent[] => {
  const selection = bar === null ? ({ kind: "none" } as const) : ({ kind: "bar", chorus: 1, bar } as const);
  return eventsOf(index, passagesOf(index, selection), { ...HOW, ...how });
};
const clicks = (events: readonly SoundEvent[]) => events.filter(({ kind }) => kind === "click");
const solo = (events: readonly SoundEvent[]) => events.filter(({ kind }) => kind === "solo");

describe("a take straightened", () => {
  it("puts every note at its place of the account, at one tempo: 120 quarters a minute are half a second each", () => {
    const events = heard({});
    const start = clicks(events)[0]!.at;
    expect(solo(events)).toHaveLength(index.solo.length);
    for (const event of solo(events)) {
      const { bar, beat } = index.note.get(event.note!)!;
      expect(event.at - start).toBeCloseTo((bar - 1) * 2 + (beat! - 1) * 0.5, 6);
    }
  });

  it("evens its backing with it: clicks half a second apart, also where the take swayed", () => {
    const even = clicks(heard({})).map(({ at }) => at);
    expect(even).toHaveLength(48);
    even.slice(1).forEach((at, i) => {
      expect(at - even[i]!).toBeCloseTo(0.5, 6);
    });
    const played = clicks(heard({ timing: "played" })).map(({ at }) => at);
    expect(played[1]! - played[0]!).toBeCloseTo(0.45, 6);
    expect(played[5]! - played[4]!).toBeCloseTo(0.55, 6);
  });

  it("keeps what a bar holds: the same notes, none twice", () => {
    for (let bar = 1; bar <= 12; bar++) {
      const ids = (events: readonly SoundEvent[]) => solo(events).map(({ note }) => note);
      expect(ids(heard({}, bar))).toEqual(ids(heard({ timing: "played" }, bar)));
    }
  });

  it("leaves a take without a beat as it was played, and counts nothing in", () => {
    const free = indexAccount(sampleAccount({ choruses: 1, rubato: true }));
    const all = passagesOf(free, { kind: "none" });
    const plain = eventsOf(free, all, { ...HOW, timing: "played" });
    expect(eventsOf(free, all, { ...HOW, countIn: true })).toEqual(plain);
  });
});

describe("a passage counted in", () => {
  for (const timing of ["played", "even"] as const) {
    it(`has one bar of four before its first beat, one higher than the others (${timing})`, () => {
      const events = heard({ timing, countIn: true, backing: new Set() }, 2);
      const counts = clicks(events);
      expect(counts.map(({ pitch }) => pitch)).toEqual([1, 0, 0, 0]);
      // The second bar lasts 2.2 seconds as it was played, and 2 at the steady tempo.
      const beat = timing === "even" ? 0.5 : 0.55;
      expect(counts[0]!.at).toBeCloseTo(0, 6);
      expect(counts[3]!.at).toBeCloseTo(3 * beat, 6);
      expect(solo(events)[0]!.at).toBeCloseTo(4 * beat, 6);
    });
  }

  it("is counted to the beat at which it begins, at the take's own one", () => {
    const note = index.solo.find(({ bar, beat }) => bar === 2 && beat === 3.5)!;
    const passage = [{ from: note.onset, to: note.onset + 0.2 }];
    const counts = clicks(eventsOf(index, passage, { ...HOW, countIn: true, backing: new Set() }));
    // Into the off-beat of three: four, one, two, three.
    expect(counts.map(({ pitch }) => pitch)).toEqual([0, 1, 0, 0]);
  });

  it("goes before all of it, once", () => {
    const all = heard({ countIn: true });
    expect(clicks(all)).toHaveLength(48 + 4);
    const places = passagesOf(index, { kind: "bar", chorus: null, bar: 1 });
    expect(clicks(eventsOf(index, [...places, ...places], { ...HOW, countIn: true }))).toHaveLength(12);
  });
});
