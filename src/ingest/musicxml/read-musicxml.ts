import { type PlayedBar, playOrder } from "../../chart/play-order.ts";
import { type Part, Problem, type SourceBar, type Take } from "../../take/index.ts";
import { barsInWords, counted } from "../../words/index.ts";
import { clockOf, timeTempos } from "../clock.ts";
import { LIMITS } from "../limits.ts";
import { pedalOf } from "../pedal.ts";
import { collectWarnings, type WarningCollector } from "../warning-collector.ts";
import type { TimedBar } from "./bar-timeline.ts";
import { decodeXml } from "./decode-xml.ts";
import { printedFingers } from "./fingering.ts";
import { listedParts, rightsOf, titleOf } from "./part-list.ts";
import { type PartReader, partReader } from "./part-reader.ts";
import { performNotes } from "./performed.ts";
import { playFacts } from "./played-facts.ts";
import { playNotes } from "./played-notes.ts";
import { readDocument } from "./read-document.ts";
import { roadsOf } from "./road-marks.ts";
import { scoreTimeline } from "./score-timeline.ts";
import { tickRule } from "./ticks.ts";
import { unpackScore } from "./unpack.ts";

/**
 * Reads a MusicXML score, version 1.0 to 4.0, partwise or timewise.
 *
 * In order: text, bars as written, ticks, play order, notes with ties joined, seconds.
 *
 * @param packed True for a compressed file (.mxl).
 * @throws Problem when it is no such score, has no pitched note or exceeds the limits.
 */
export function readMusicXml(bytes: Uint8Array, packed: boolean): Take {
  const warnings = collectWarnings();
  const file = packed ? unpackScore(bytes, warnings) : bytes;
  refuseLarge(file);
  const readers = new Map<string, PartReader>();
  const document = readDocument(decodeXml(file, warnings), {
    bar(part, _index, element, attributes) {
      let reader = readers.get(part);
      if (reader === undefined) {
        reader = partReader(part, warnings);
        readers.set(part, reader);
      }
      reader.read(element, attributes);
    },
  });
  const parts = [...readers.values()];
  warnOfParts(parts, warnings);

  const rule = tickRule(
    parts.map((part) => part.bars),
    warnings,
  );
  const { bars, firstMeter } = scoreTimeline(parts, rule, warnings);
  const order = orderOf(parts, bars, warnings);
  const starts = startsOf(bars, order);
  refuseMany(order.reduce((sum, { bar }) => sum + bars[bar]!.notes.length, 0));
  const facts = playFacts(bars, order, starts, firstMeter, warnings);
  const played = playNotes(bars, order, starts, warnings);

  const tempos = timeTempos(
    facts.tempos,
    rule.ticksPerQuarter,
    facts.tempos[0]?.tick === 0 ? facts.tempos[0].quartersPerMinute : DEFAULT_TEMPO,
  );
  const clock = clockOf(tempos, rule.ticksPerQuarter);
  const end = (starts.at(-1) ?? 0) + (bars[order.at(-1)?.bar ?? 0]?.ticks ?? 0);
  refuseLong(clock.seconds(end));
  const pedal = pedalOf(facts.pedal, end, clock);
  const notes = performNotes(played, clock, pedal, printedFingers(document.element));
  if (notes.length === 0) throw noNotes(parts);
  const rights = rightsOf(document.element);
  return {
    format: "musicxml",
    title: titleOf(document.element),
    ticksPerQuarter: rule.ticksPerQuarter,
    notes,
    parts: partsOf(parts, listedParts(document.element), notes),
    tempos,
    tempoStated: facts.tempos.length > 0,
    meters: facts.meters,
    keys: facts.keys,
    bars: order.map(({ bar, pass }, index): SourceBar => {
      const { number, ticks, implicit } = bars[bar]!;
      return { number, tick: starts[index]!, ticks, implicit, pass };
    }),
    chords: facts.chords,
    texts: rights === null ? facts.texts : [{ tick: 0, kind: "copyright", text: rights }, ...facts.texts],
    pedal: pedal.marks,
    swing: facts.swing,
    warnings: warnings.list(),
  };
}

/** Quarter notes a minute where the score states no tempo. */
const DEFAULT_TEMPO = 120;

function refuseLarge(file: Uint8Array): void {
  if (file.length <= LIMITS.xmlBytes) return;
  throw new Problem(
    "file-too-large",
    `The MusicXML file has ${file.length} bytes; at most ${LIMITS.xmlBytes} are read`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}

function refuseMany(notes: number): void {
  if (notes <= LIMITS.xmlNotes) return;
  throw new Problem(
    "too-many-notes",
    `With its repeats the score has more than ${LIMITS.xmlNotes} notes`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}

function refuseLong(seconds: number): void {
  if (seconds <= LIMITS.seconds) return;
  throw new Problem(
    "take-too-long",
    "The score plays for more than 12 hours",
    null,
    "Cut it to the solo; at most 12 hours are read.",
  );
}

function noNotes(parts: readonly PartReader[]): Problem {
  const unpitched = parts.some((part) => part.unpitched > 0);
  return new Problem(
    unpitched ? "only-drums" : "no-notes",
    unpitched ? "The score has notes without pitch only" : "The score holds no notes",
    null,
    "Choose a file with a notated solo.",
  );
}

function warnOfParts(parts: readonly PartReader[], warnings: WarningCollector): void {
  const unpitched = parts.filter((part) => part.unpitched > 0);
  for (const part of unpitched) {
    warnings.add(
      "drums-left-out",
      `part ${part.id}`,
      (times) =>
        `${counted(times, "note")} without pitch (percussion) ${times === 1 ? "was" : "were"} left out.`,
      part.unpitched,
    );
  }
  const lengths = new Set(parts.map((part) => part.bars.length));
  if (lengths.size > 1) {
    warnings.add(
      "uneven-parts",
      null,
      () => "The parts have different numbers of bars; the shorter ones rest at the end.",
    );
  }
}

/** The bars in the order of playing, with a notice of all that was understood and of bars that are never reached. */
function orderOf(
  parts: readonly PartReader[],
  bars: readonly TimedBar[],
  warnings: WarningCollector,
): readonly PlayedBar[] {
  const roads = roadsOf(
    parts.map((part) => part.bars.map(({ roadmap }) => roadmap)),
    bars.length,
  );
  const nameOf = (bar: number) => bars[bar]!.number || String(bar + 1);
  const played = playOrder(
    roads,
    LIMITS.bars,
    () =>
      new Problem(
        "too-many-bars",
        `With its repeats the score has more than ${LIMITS.bars} bars`,
        null,
        "Take the repeats out, or cut the score.",
      ),
  );
  for (const { code, bar, message } of played.warnings)
    warnings.add(code, `bar ${nameOf(bar)}`, () => message);
  const { unplayed } = played;
  if (unplayed.length > 0) {
    warnings.add(
      "bars-not-played",
      `bar ${nameOf(unplayed[0]!)}`,
      () =>
        `By its repeat signs and endings the score never comes to ${barsInWords(unplayed.map(nameOf))}; ${unplayed.length === 1 ? "it is" : "they are"} in no chorus. Check the signs there.`,
    );
  }
  return played.order;
}

function startsOf(bars: readonly TimedBar[], order: readonly PlayedBar[]): number[] {
  let tick = 0;
  return order.map(({ bar }) => {
    const start = tick;
    tick += bars[bar]!.ticks;
    return start;
  });
}

function partsOf(
  readers: readonly PartReader[],
  listed: ReturnType<typeof listedParts>,
  notes: readonly { readonly part: string }[],
): Part[] {
  const played = new Map<string, number>();
  for (const { part } of notes) played.set(part, (played.get(part) ?? 0) + 1);
  return readers
    .filter(({ id }) => played.has(id))
    .map(({ id, staves }) => {
      const { name, program } = listed.get(id) ?? { name: id, program: null };
      return { id, name, staves, program, notes: played.get(id)! };
    });
}
