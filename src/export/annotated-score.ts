/** The solo as notation: what was played, with chord symbols, degrees, fingering and noteheads that tell roles. */
import type { AccountNote, Analysis, HarmonicRole } from "../account.ts";
import { parseKey } from "../chart/index.ts";
import { signatureOf } from "../pitch/index.ts";
import { Problem } from "../take/index.ts";
import { withAccidentals } from "../words/index.ts";
import { EMPTY_BAR, EMPTY_NOTE, type ScoreBar, type ScoreModel, type ScoreNote } from "./score-model.ts";
import { writeMusicXml } from "./write-musicxml.ts";

/** Ticks of a quarter note that divide into triplets, sixteenths and thirty-seconds. */
const TICKS = 48;
/** Finer grids, for quintuplets and septuplets and for a score's own lengths: 64ths and 128ths, and each with five, seven, nine and more in a beat. */
const FINER: readonly number[] = [
  1, 2, 3, 4, 5, 7, 8, 10, 11, 13, 14, 15, 20, 21, 28, 35, 40, 70, 105, 140, 210,
];
/** Beats by which a place may miss its tick: the rounding of numbers, far below any length that is written. */
const NEAR_TICK = 1e-5;
const BARS_A_LINE = 4;
/**
 * A key held for this share of the way to the next note is written up to it: pianists do not hold to the last tick.
 * Held for half its value a note is heard as detached (the ordinary staccato of the manuals), and is written so.
 * [practice]
 */
const LEGATO = 0.55;
/** A slide's first key is written as a grace note when it is shorter than this, in quarter-note beats. [practice] */
const GRACE_BEATS = 0.3;
/** From this median ratio on the page says that eighths are swung. [practice] */
const SWUNG = 1.15;

/**
 * Roles by the shape of the notehead, so that a page in black ink tells them apart: of those that MusicXML has, the ones
 * that come nearest to the signs of the pages ("re" is a half disc).
 */
const ROLE_NOTEHEADS: Readonly<Record<HarmonicRole, ScoreNote["notehead"]>> = {
  root: "square",
  third: "normal",
  fifth: "rectangle",
  seventh: "diamond",
  tension: "circle dot",
  blue: "re",
  avoid: "inverted triangle",
  outside: "x",
};

/** Annotated MusicXML of the solo. Throws `Problem("no-beats")` for a take in rubato, which has no note values. */
export function annotatedScore(analysis: Analysis): string {
  return writeMusicXml(scoreOf(analysis));
}

/** The same page as a model, before it is written. Throws as `annotatedScore` does. */
function scoreOf(analysis: Analysis): ScoreModel {
  const { chart, alignment } = analysis;
  if (alignment.method === "rubato") {
    throw new Problem(
      "no-beats",
      "This take was played without a beat, so its notes have no note values to print",
      null,
      "Tap or pin the beat first, or read the take on the chorus page.",
    );
  }
  const quarter = ticksOf(analysis);
  const barTicks = Math.round((chart.meter.beats * 4 * quarter) / chart.meter.unit);
  const timed = timedNotes(analysis, quarter);
  const firstTick = timed.reduce((least, note) => Math.min(least, note.tick), 0);
  const pickupBars = Math.ceil(-firstTick / barTicks);
  const lastTick = timed.reduce((most, note) => Math.max(most, note.tick + Math.max(1, note.ticks)), 0);
  const wholeBars = Math.max(alignment.choruses * chart.bars.length, Math.ceil(lastTick / barTicks));
  return {
    title: analysis.source.title ?? analysis.source.name,
    ticksPerQuarter: quarter,
    parts: [{ id: "P1", name: "Solo", staves: 1, program: 0 }],
    meters: [{ tick: 0, ...chart.meter }],
    keys: keyMarks(chart, barTicks, wholeBars),
    tempos:
      alignment.tempo === null
        ? []
        : [{ tick: 0, quartersPerMinute: Math.round(alignment.tempo.median * 10) / 10 }],
    swing: (analysis.rhythm.swing?.median ?? 1) >= SWUNG ? { first: 2, second: 1, unit: "eighth" } : null,
    texts: [],
    pedal: [],
    bars: barsOf(analysis, timed, barTicks, pickupBars, wholeBars),
  };
}

/** The signatures of the chart, chorus after chorus, each where it changes; a pickup stands in the first. */
function keyMarks(
  { bars, key: first }: Analysis["chart"],
  barTicks: number,
  wholeBars: number,
): ScoreModel["keys"] {
  const names = [first, ...Array.from({ length: wholeBars }, (_, bar) => bars[bar % bars.length]!.key)];
  return names.flatMap((name, at) => {
    if (at > 0 && name === names[at - 1]) return [];
    const key = parseKey(name);
    return [{ tick: Math.max(0, at - 1) * barTicks, fifths: signatureOf(key), mode: key.mode }];
  });
}

interface TimedNote {
  readonly note: AccountNote;
  /** From the first bar line of the first chorus; negative in a pickup. */
  readonly tick: number;
  readonly ticks: number;
  readonly grace: boolean;
}

/** A score's own lengths are written as they were read; a performance is written as a reader expects it. */
const isNotated = ({ alignment, source }: Analysis): boolean =>
  alignment.method === "notated" && source.format === "musicxml";

const placedSolo = ({ notes }: Analysis): AccountNote[] =>
  notes.filter((note) => note.solo && note.position !== null && note.beats !== null);

/** Ticks of a quarter note: so many that each note begins, and in a score also ends, on one. */
function ticksOf(analysis: Analysis): number {
  const notated = isNotated(analysis);
  const places = placedSolo(analysis).flatMap(({ position, beats }) =>
    notated ? [position!, position! + beats!] : [position!],
  );
  const fits = (ticks: number) =>
    places.every((place) => Math.abs(place * ticks - Math.round(place * ticks)) < NEAR_TICK * ticks);
  return TICKS * (FINER.find((times) => fits(TICKS * times)) ?? FINER.at(-1)!);
}

function timedNotes(analysis: Analysis, quarter: number): TimedNote[] {
  const solo = placedSolo(analysis);
  const onsets = [...new Set(solo.map((note) => Math.round(note.position! * quarter)))].sort((a, b) => a - b);
  const notated = isNotated(analysis);
  const next = new Map(onsets.map((onset, i) => [onset, onsets[i + 1] ?? null]));
  return solo.map((note) => {
    const tick = Math.round(note.position! * quarter);
    const grace = note.grace !== undefined || (note.slide !== null && note.beats! < GRACE_BEATS);
    const read = Math.max(1, Math.round((note.position! + note.beats!) * quarter) - tick);
    const ticks = notated
      ? read
      : writtenTicks(note.beats! * quarter, quarter, (next.get(tick) ?? Number.POSITIVE_INFINITY) - tick);
    return { note, tick, ticks: grace ? 0 : ticks, grace };
  });
}

/** Ticks that a key held for so many is written with, in the room before the next note. */
function writtenTicks(held: number, quarter: number, room: number): number {
  if (room <= quarter * 2 && held >= room * LEGATO) return room;
  const eighths = Math.max(1, Math.round(held / (quarter / 2))) * (quarter / 2);
  return Math.min(eighths, room);
}

function barsOf(
  analysis: Analysis,
  timed: readonly TimedNote[],
  barTicks: number,
  pickupBars: number,
  wholeBars: number,
): ScoreBar[] {
  const { chart } = analysis;
  const byBar = new Map<number, TimedNote[]>();
  for (const note of timed) {
    const bar = Math.floor(note.tick / barTicks);
    const list = byBar.get(bar);
    if (list === undefined) byBar.set(bar, [note]);
    else list.push(note);
  }
  const bars: ScoreBar[] = [];
  for (let bar = -pickupBars; bar < wholeBars; bar++) {
    const inForm = ((bar % chart.bars.length) + chart.bars.length) % chart.bars.length;
    const chorus = Math.floor(bar / chart.bars.length) + 1;
    const top = bar >= 0 && inForm === 0;
    bars.push({
      ...EMPTY_BAR,
      number: bar < 0 ? "0" : String(bar + 1),
      ticks: barTicks,
      implicit: bar < 0,
      heading: top && chorus <= analysis.alignment.choruses ? `Chorus ${chorus}` : null,
      newLine: bar > 0 && inForm % BARS_A_LINE === 0,
      close:
        bar === wholeBars - 1 ? "final" : inForm === chart.bars.length - 1 && bar >= 0 ? "double" : "plain",
      chords:
        bar < 0
          ? []
          : chart.bars[inForm]!.chords.map((chord) => ({
              tick: Math.round(((chord.beat - 1) * barTicks) / chart.meter.beats),
              text: chord.symbol,
            })),
      notes: (byBar.get(bar) ?? []).map((timedNote) => scoreNote(timedNote, bar * barTicks)),
    });
  }
  return bars;
}

function scoreNote({ note, tick, ticks, grace }: TimedNote, barStart: number): ScoreNote {
  return {
    ...EMPTY_NOTE,
    id: note.id,
    tick: tick - barStart,
    ticks,
    spelling: note.spelling,
    velocity: note.velocity,
    grace: grace ? (note.grace ?? "acciaccatura") : null,
    fingering: fingeringOf(note),
    notehead: note.role === null ? "normal" : ROLE_NOTEHEADS[note.role],
    lyrics: note.degree === null ? [] : [withAccidentals(note.degree)],
  };
}

/** What is printed of fingers, what was corrected, or, in italics, what was worked out. */
function fingeringOf({ finger, fingerSource, printedFingers }: AccountNote): ScoreNote["fingering"] {
  const alone = { substitution: false, alternate: false };
  if (finger !== null && fingerSource === "corrected") return [{ ...alone, finger }];
  if (printedFingers !== undefined) return printedFingers;
  return finger === null ? [] : [{ ...alone, finger, inferred: true }];
}
