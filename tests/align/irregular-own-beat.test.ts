/**
 * Bars that are left out or played twice where no click is known: improvised solos on their players' own beats, with a
 * hand that plays the chart, from which a bar is cut or in which one is played again. Skipped by name where the open solos
 * are not beside the project. What waits for a bar, or slows, is written by arithmetic.
 */
import { describe, expect, it } from "vitest";
import { align } from "../../src/align/index.ts";
import type { LineTables } from "../../src/align/lattice/line-model.ts";
import { formChart } from "../../src/chart/index.ts";
import type { Chart } from "../../src/chart/types.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { tablesOfOthers } from "./count-solos.ts";
import { type HumanSolo, type PlayedNote, readSolos, SOLOS_THERE, takeOf } from "./human-solos.ts";

type Change = "none" | "missing" | "extra";

function laid(notes: readonly PlayedNote[], chart: Chart, pinned = false, lines?: LineTables) {
  const take = takeOf(notes, {});
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const anchors = pinned ? [{ seconds: notes[0]!.onset, chorus: 1, bar: 1, beat: 1 }] : [];
  return align(take, chart, hands, { method: "auto", tempo: null, anchors, lines });
}

/** Root, third and seventh below middle C where a chord of a bar begins. */
function shellsOf(chart: Chart, bar: number): { beat: number; beats: number; pitch: number }[] {
  const { length } = chart.bars;
  return chart.bars[((bar % length) + length) % length]!.chords.flatMap(({ chord, beat, beats }) =>
    (chord?.tones ?? [])
      .filter(({ role }) => role === "root" || role === "third" || role === "seventh")
      .map(({ semitones }, k) => {
        const pitch = 36 + ((chord!.rootClass + 12) % 12) + semitones + (k > 0 ? 12 : 0);
        return { beat: beat - 1, beats, pitch };
      }),
  );
}

/** The solo with its middle bar (which is returned) changed, its other hand playing the chart. */
function changed(solo: HumanSolo, change: Change): { notes: PlayedNote[]; bar: number } {
  const { beats, chart } = solo;
  const [from, to] = [solo.notes[0]!.place, solo.notes.at(-1)!.place];
  const bar = Math.round((Math.max(0, Math.ceil(from / 4)) + Math.floor(to / 4)) / 2);
  const secondsOf = (place: number) => {
    const k = Math.max(
      0,
      Math.min(
        beats.length - 2,
        beats.findLastIndex((beat) => beat.place <= place),
      ),
    );
    const [a, b] = [beats[k]!, beats[k + 1]!];
    return a.seconds + ((place - a.place) / (b.place - a.place)) * (b.seconds - a.seconds);
  };
  const gap = (secondsOf(4 * bar + 4) - secondsOf(4 * bar)) * { none: 0, missing: -1, extra: 1 }[change];
  const notes: PlayedNote[] = [];
  const add = (place: number, duration: number, pitch: number, part: string) => {
    const inside = place >= 4 * bar && place < 4 * bar + 4;
    const strike = (onset: number) =>
      notes.push({ onset: Math.max(0, onset), duration, pitch, tick: 0, part });
    if (inside && change === "missing") return;
    strike(secondsOf(place) + (place >= 4 * bar + 4 ? gap : 0));
    if (inside && change === "extra") strike(secondsOf(place) + gap);
  };
  for (const note of solo.notes) add(note.place, note.duration, note.pitch, "t1");
  for (let k = Math.ceil(beats[0]!.place / 4); k <= Math.floor(to / 4); k++) {
    for (const { beat, beats: many, pitch } of shellsOf(chart, k)) {
      const place = 4 * k + beat;
      add(place, 0.9 * (secondsOf(place + many) - secondsOf(place)), pitch, "t2");
    }
  }
  return { notes, bar };
}

describe.skipIf(!SOLOS_THERE)("bars left out or put in where no click is known, held-out solos", () => {
  const solos = readSolos(1)
    .filter(({ notes, beatsInBar }) => notes.length < 420 && beatsInBar === 4)
    .slice(2, 9);

  // Seven solos with a bar less and a bar more: five of the fourteen are named when this was written, none wrongly.
  it("are named in their place or not at all", () => {
    let named = 0;
    for (const solo of solos) {
      for (const change of ["missing", "extra"] as const) {
        const { notes, bar } = changed(solo, change);
        const { irregular = [], method, warnings } = laid(notes, solo.chart, false, tablesOfOthers(solo));
        for (const found of irregular) {
          named++;
          expect(found).toMatchObject({ kind: change, beats: 4 });
          const at = (found.chorus - 1) * solo.chart.bars.length + found.bar - 1;
          expect(Math.abs(at - bar), `${solo.id} ${change}`).toBeLessThanOrEqual(2);
          expect(method).toBe("tracked");
          expect(warnings.map(({ code }) => code)).toContain(`bar-${change}`);
        }
      }
    }
    expect(named).toBeGreaterThanOrEqual(4);
  });

  it("are not told of the solos as they were played", () => {
    for (const solo of solos) {
      const { notes } = changed(solo, "none");
      expect(laid(notes, solo.chart, false, tablesOfOthers(solo)).irregular).toBeUndefined();
    }
  });
});

const BLUES = formChart("blues-basic", "F");
const BEAT = 60 / 132;
/** Semitones over the root by eighths of a bar. */
const FIGURE = [0, 4, 7, 9, 10, 9, 7, 4] as const;

/** Four choruses of a blues whose beats are so long, each the beat of the form that is given for it. */
function blues(
  lengthOf: (beat: number) => number,
  formOf: (beat: number) => number = (beat) => beat,
): PlayedNote[] {
  const notes: PlayedNote[] = [];
  let begin = 1;
  for (let beat = 0; beat < 4 * 12 * 4; beat++) {
    const seconds = lengthOf(beat) * BEAT;
    const bar = Math.floor(formOf(beat) / 4);
    const root = BLUES.bars[bar % 12]!.chords[0]!.chord!.rootClass % 12;
    const strike = (pitch: number, place: number, duration: number, part: string) => {
      const onset = begin + place * Math.min(seconds, 1.2 * BEAT) + 0.006 * Math.sin(2.4 * notes.length);
      notes.push({ pitch, onset, duration: duration * BEAT, tick: 0, part });
    };
    for (const half of [0, 1]) strike(60 + root + FIGURE[2 * (beat % 4) + half]!, half * 0.6, 0.4, "t1");
    if (beat % 4 === 0) for (const { pitch } of shellsOf(BLUES, bar)) strike(pitch, 0, 3.6, "t2");
    begin += seconds;
  }
  return notes;
}

describe("two bars in steady time without a click", () => {
  const steady = (beat: number) => 1 + 0.02 * Math.sin((2 * Math.PI * beat) / 16);

  it("are named where they are left out, and the bars beside the form are not sure", () => {
    const {
      irregular = [],
      bars,
      warnings,
    } = laid(
      blues(steady, (beat) => (beat < 96 ? beat : beat + 8)),
      BLUES,
    );
    expect(irregular).toMatchObject([{ kind: "missing", beats: 8 }]);
    const at = (irregular[0]!.chorus - 1) * 12 + irregular[0]!.bar - 1;
    expect(Math.abs(at - 24)).toBeLessThanOrEqual(2);
    expect(warnings.map(({ code }) => code)).toContain("bar-missing");
    // One in ten such places may be none [practice].
    expect(Math.min(...bars.map(({ confidence }) => confidence))).toBeLessThan(0.11);
  });
});

describe("a take that keeps its form", () => {
  // A bar's rest lasts as long as four beats more; sixteen beats that are a fifth slower as three more.
  it.each([
    ["breathes", (beat: number) => 1 + 0.02 * Math.sin((2 * Math.PI * beat) / 16)],
    ["slows for four bars", (beat: number) => (beat >= 80 && beat < 96 ? 1.2 : 1)],
    ["waits for a bar", (beat: number) => (beat === 91 ? 5 : 1)],
    ["waits for half a bar", (beat: number) => (beat === 91 ? 3 : 1)],
  ])("has no bar too many where it %s", (_, lengthOf) => {
    expect(laid(blues(lengthOf), BLUES).irregular).toBeUndefined();
  });
});

describe.skipIf(!SOLOS_THERE)("a pinned take", () => {
  it("is not said to leave its form", () => {
    for (const solo of readSolos(1)
      .filter(({ notes, beatsInBar }) => notes.length < 420 && beatsInBar === 4)
      .slice(2, 5)) {
      const { notes } = changed(solo, "missing");
      expect(laid(notes, solo.chart, true, tablesOfOthers(solo)).irregular).toBeUndefined();
    }
  });
});
