/**
 * People's solos in which a player leaves the form once: beats that are left out, or played twice, in the middle of the
 * take, while the beat goes on. Nobody annotated where people lose the form; these slips are made.
 */
import { type Alignment, align } from "../../src/align/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { Take } from "../../src/take/index.ts";
import { tablesOfOthers } from "./count-solos.ts";
import { chanceOf, compingHand, prepare } from "./human-conditions.ts";
import { type HumanSolo, type PlayedNote, takeOf } from "./human-solos.ts";

export interface SlipSetting {
  /** On a click whose beat 1 the file states, or on the player's own beats, of which the file tells nothing. */
  readonly clicked: boolean;
  /** Whether a hand plays the chart as well. */
  readonly comped: boolean;
}

interface SlippedTake {
  readonly take: Take;
  /** The first bar after the slip, from 0. */
  readonly bar: number;
}

/** Share of a beat before a bar line from which a note belongs to it. */
const EARLY = 0.12;
/** Part of the take, about its middle, in which slips are made. */
const [FROM, OVER] = [0.3, 0.4];

/** Bars after which a player who lost the form is in it again. */
const FOUND_AGAIN = 8;

/**
 * @param beats that are put in, below 0 left out; 0 for the take as it was played
 * @param again whether the player finds the form again: as many are left out, or put in, some bars later
 */
function slippedTake(
  solo: HumanSolo,
  { clicked, comped }: SlipSetting,
  beats: number,
  again: boolean,
): SlippedTake {
  const { take, secondsOf } = prepare(solo, clicked ? "click, beat 1 stated" : "chart only");
  const { beatsInBar: size, chart } = solo;
  const [first, last] = [Math.floor(solo.notes[0]!.place), Math.ceil(solo.notes.at(-1)!.place)];
  const bar = Math.round((first + (last - first) * (FROM + OVER * chanceOf(solo.id))) / size);
  const played: PlayedNote[] = [
    ...take.notes.map(({ onset, duration, pitch, part }) => ({ onset, duration, pitch, part, tick: 0 })),
    ...(comped ? compingHand(solo, secondsOf) : []),
  ];
  const at = (place: number) => secondsOf(place - EARLY);
  const cut = at(bar * size);
  const away = cut - at(bar * size - beats);
  const slipped = slip(played, cut, away);
  const back = (bar + FOUND_AGAIN) * size;
  const notes = again ? slip(slipped, at(back) + away, at(back - beats) - at(back)) : slipped;
  const pace = 60 / (secondsOf(1) - secondsOf(0));
  const said = {
    stated: clicked,
    meterStated: clicked,
    meter: { beats: chart.meter.beats, unit: chart.meter.unit },
    ...(clicked ? { tempos: [{ tick: 0, seconds: 0, quartersPerMinute: pace }] } : {}),
  };
  const ticks = (seconds: number) => Math.round((seconds * pace * 480) / 60);
  return {
    take: takeOf(
      notes.map((note) => ({ ...note, tick: clicked ? ticks(note.onset) : 0 })),
      said,
    ),
    bar,
  };
}

/** Notes from a moment on, later by so many seconds: what came before is played twice; or earlier, and it is left out. */
function slip(notes: readonly PlayedNote[], cut: number, away: number): PlayedNote[] {
  return notes.flatMap((note) => {
    const later = { ...note, onset: note.onset + away };
    if (away < 0) return note.onset < cut ? [note] : note.onset < cut - away ? [] : [later];
    return note.onset >= cut ? [later] : away > 0 && note.onset >= cut - away ? [note, later] : [note];
  });
}

interface SlipOutcome {
  /** Whether anything is said to be left out or put in, whether that is right, and whether its place is within two bars. */
  readonly named: boolean;
  readonly right: boolean;
  readonly near: boolean;
  readonly confidence: number;
}

/**
 * Lays a take with a slip, or with two of which one takes the other back, as the program does, by
 * tables of other players.
 */
export function laySlipped(solo: HumanSolo, setting: SlipSetting, beats: number, again = false): SlipOutcome {
  const { take, bar } = slippedTake(solo, setting, beats, again);
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const lines = tablesOfOthers(solo);
  const laid: Alignment = align(take, solo.chart, hands, { method: "auto", tempo: null, anchors: [], lines });
  const { irregular = [], confidence } = laid;
  const made = again ? [beats, -beats] : [beats];
  const right =
    irregular.length === made.length &&
    irregular.every(({ kind, beats: size }, k) => size * (kind === "missing" ? -1 : 1) === made[k]);
  const places = irregular.map((one) => (one.chorus - 1) * solo.chart.bars.length + one.bar - 1);
  const near = right && places.every((place, k) => Math.abs(place - bar - k * FOUND_AGAIN) <= 2);
  return { named: irregular.length > 0, right, near, confidence };
}
