import { partsOf } from "../pitch/index.ts";
import { INFERRED_FINGERS } from "../take/index.ts";
import { accidentalsOf } from "./notation/accidentals.ts";
import { beatGrid } from "./notation/beat.ts";
import { cutAtBarLines, type Piece } from "./notation/cut-bars.ts";
import { directionElement } from "./notation/direction-xml.ts";
import { type Mark, marksOfBars } from "./notation/directions.ts";
import { voiceElements } from "./notation/voice-xml.ts";
import { shareVoices } from "./notation/voices.ts";
import { element, escapeXml, textElement } from "./notation/xml.ts";
import type { ScoreModel, ScoreNote, ScorePart } from "./score-model.ts";

/**
 * Writes a page of notation as MusicXML 4.0 (score-partwise, elements in the order of its schema).
 *
 * The writer is our own because the serialiser of musicxml-interfaces leaves the order of elements to chance.
 *
 * @throws RangeError when a note's spelling is no pitch name or a length is negative or no whole number.
 */
export function writeMusicXml(score: ScoreModel): string {
  checkLengths(score);
  const ids = noteIds(score);
  const parts = score.parts.map((part, index) => partElement(score, part, index === 0, ids));
  return `<?xml version="1.0" encoding="UTF-8"?>\n${element(
    "score-partwise",
    { version: "4.0" },
    score.title === null ? "" : element("work", {}, textElement("work-title", score.title)),
    element(
      "identification",
      {},
      score.rights == null ? "" : textElement("rights", score.rights),
      element("encoding", {}, textElement("software", "Ledgerline")),
      hasInferredFingers(score) ? element("miscellaneous", {}, inferredFingersField()) : "",
    ),
    element("part-list", {}, ...score.parts.map((part) => listedPart(part, score.parts.length === 1))),
    ...parts,
  )}\n`;
}

/** Says what italics mean here, so that a reader does not take such a finger for one that the player printed. */
function inferredFingersField(): string {
  return element("miscellaneous-field", { name: INFERRED_FINGERS.name }, INFERRED_FINGERS.text);
}

function hasInferredFingers({ bars }: ScoreModel): boolean {
  return bars.some(({ notes }) => notes.some(({ fingering }) => fingering.some(({ inferred }) => inferred)));
}

/** A part that is alone needs no name at its first line; it keeps it for whoever opens the file. */
function listedPart({ id, name, program }: ScorePart, alone: boolean): string {
  const instrument = `${id}-I1`;
  return element(
    "score-part",
    { id },
    element("part-name", alone ? { "print-object": "no" } : {}, escapeXml(name)),
    ...(program === null
      ? []
      : [
          element("score-instrument", { id: instrument }, textElement("instrument-name", name)),
          element("midi-instrument", { id: instrument }, textElement("midi-program", program + 1)),
        ]),
  );
}

function partElement(score: ScoreModel, part: ScorePart, first: boolean, ids: NoteIds): string {
  const pieces = cutAtBarLines(score, part.id);
  const marks = first ? marksOfBars(score, part.staves > 1) : score.bars.map((): Mark[] => []);
  const clefs = clefsOf(pieces, part.staves);
  let tick = 0;
  let meter = score.meters[0] ?? { tick: 0, beats: 4, unit: 4 };
  let key = score.keys[0] ?? null;
  const bars = score.bars.map((bar, index) => {
    const start = tick;
    tick += bar.ticks;
    const meterHere = lastBefore(score.meters, start) ?? meter;
    const keyHere = lastBefore(score.keys, start) ?? key;
    const attributes = attributesElement({
      divisions: index === 0 ? score.ticksPerQuarter : null,
      key: index === 0 || keyHere !== key ? keyHere : null,
      meter: index === 0 || meterHere !== meter ? meterHere : null,
      clefs: index === 0 ? clefs : null,
    });
    meter = meterHere;
    key = keyHere;
    const grid = beatGrid(meter, score.ticksPerQuarter);
    const fifths = key?.fifths ?? 0;
    return element(
      "measure",
      { number: bar.number, implicit: bar.implicit ? "yes" : null },
      bar.newLine && first ? element("print", { "new-system": "yes" }) : "",
      attributes,
      barContent(pieces[index]!, { part, grid, fifths, barTicks: bar.ticks, marks: marks[index]!, ids }),
      bar.close === "plain" ? "" : closingBarline(bar.close),
    );
  });
  return element("part", { id: part.id }, ...bars);
}

interface BarContext {
  readonly part: ScorePart;
  readonly grid: ReturnType<typeof beatGrid>;
  readonly fifths: number;
  readonly barTicks: number;
  readonly marks: readonly Mark[];
  readonly ids: NoteIds;
}

function barContent(
  pieces: readonly Piece[],
  { part, grid, fifths, barTicks, marks, ids }: BarContext,
): string {
  let xml = "";
  let cursor = 0;
  let waiting = [...marks];
  const words = pieces.filter(({ note, tieStop }) => note.words !== null && !tieStop);
  for (let staff = 1; staff <= part.staves; staff++) {
    const own = pieces.filter(({ note }) => Math.min(note.staff, part.staves) === staff);
    const accidentals = accidentalsOf(own, fifths);
    const voices = shareVoices(own, staff);
    if (voices.length === 0)
      voices.push({ name: String((staff - 1) * 4 + 1), staff, chords: [], graces: [] });
    voices.forEach((voice, index) => {
      if (cursor > 0) xml += element("backup", {}, textElement("duration", cursor));
      const written = voiceElements(voice, {
        barTicks,
        grid,
        staff: part.staves > 1 ? staff : null,
        accidentals,
        idOf: ids,
        rests: index === 0,
        before(from, to) {
          const here =
            staff === 1 && index === 0 ? waiting.filter(({ tick }) => tick < to || to >= barTicks) : [];
          waiting = waiting.filter((mark) => !here.includes(mark));
          const own =
            index === 0
              ? words.filter(({ note, tick }) => note.staff === staff && tick >= from && tick < to)
              : [];
          return (
            here.map(({ tick, xml: write }) => write(tick - from)).join("") +
            own
              .map(({ note, tick }) =>
                directionElement(
                  textElement("words", note.words!),
                  tick - from,
                  part.staves > 1 ? staff : null,
                  "",
                  // Above stand chord symbols and fingers already.
                  "below",
                ),
              )
              .join("")
          );
        },
      });
      xml += written.xml;
      cursor = written.end;
    });
  }
  return xml;
}

function attributesElement({
  divisions,
  key,
  meter,
  clefs,
}: {
  readonly divisions: number | null;
  readonly key: ScoreModel["keys"][number] | null;
  readonly meter: ScoreModel["meters"][number] | null;
  readonly clefs: readonly ("G" | "F")[] | null;
}): string {
  const content =
    (divisions === null ? "" : textElement("divisions", divisions)) +
    (key === null
      ? ""
      : element("key", {}, textElement("fifths", key.fifths), textElement("mode", key.mode))) +
    (meter === null
      ? ""
      : element("time", {}, textElement("beats", meter.beats), textElement("beat-type", meter.unit))) +
    (clefs !== null && clefs.length > 1 ? textElement("staves", clefs.length) : "") +
    (clefs ?? [])
      .map((sign, index) =>
        element(
          "clef",
          { number: clefs!.length > 1 ? index + 1 : null },
          textElement("sign", sign),
          textElement("line", sign === "G" ? 2 : 4),
        ),
      )
      .join("");
  return content === "" ? "" : element("attributes", {}, content);
}

function closingBarline(close: "double" | "final"): string {
  return element(
    "barline",
    { location: "right" },
    textElement("bar-style", close === "final" ? "light-heavy" : "light-light"),
  );
}

/** Treble clef where most notes of a staff are not far below middle C, else bass clef; empty staves as on a piano. */
function clefsOf(bars: readonly (readonly Piece[])[], staves: number): ("G" | "F")[] {
  const octaves = Array.from({ length: staves }, (): number[] => []);
  for (const { note } of bars.flat()) {
    octaves[Math.min(note.staff, staves) - 1]?.push(partsOf(note.spelling).octave!);
  }
  return octaves.map((list, index) => {
    if (list.length === 0) return index > 0 ? "F" : "G";
    const sorted = list.sort((a, b) => a - b);
    return sorted[Math.floor(sorted.length / 2)]! >= 4 ? "G" : "F";
  });
}

function lastBefore<T extends { readonly tick: number }>(marks: readonly T[], tick: number): T | null {
  let found: T | null = null;
  for (const mark of marks) if (mark.tick <= tick) found = mark;
  return found;
}

type NoteIds = (note: ScoreNote) => string;

/** Ids for the written pieces of each note, valid as XML names. */
function noteIds(score: ScoreModel): NoteIds {
  const pieces = new Map<string, number>();
  const names = new Map<ScoreNote, string>();
  const taken = new Set<string>();
  for (const bar of score.bars) {
    for (const note of bar.notes) {
      let name = note.id.replace(/[^\w.-]/g, "_").replace(/^(?![A-Za-z_])/, "n");
      while (taken.has(name)) name += "_";
      taken.add(name);
      names.set(note, name);
    }
  }
  return (note) => {
    const name = names.get(note)!;
    const times = (pieces.get(name) ?? 0) + 1;
    pieces.set(name, times);
    return times === 1 ? name : `${name}-${times}`;
  };
}

function checkLengths(score: ScoreModel): void {
  for (const bar of score.bars) {
    for (const { id, tick, ticks, grace } of bar.notes) {
      const whole = Number.isInteger(tick) && Number.isInteger(ticks);
      if (!whole || tick < 0 || ticks < 0 || (ticks === 0) !== (grace !== null)) {
        throw new RangeError(
          `note ${id} in bar ${bar.number}: tick ${tick}, length ${ticks}, grace ${grace}`,
        );
      }
    }
  }
}
