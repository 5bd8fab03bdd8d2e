import { beamsOf } from "./beams.ts";
import type { BeatGrid } from "./beat.ts";
import { spellLength, type WrittenLength } from "./note-values.ts";
import { noteElement, restElement } from "./note-xml.ts";
import type { Chord, Voice } from "./voices.ts";
import { element, textElement } from "./xml.ts";

/** What a voice needs to know of its bar. */
export interface VoiceContext {
  readonly barTicks: number;
  readonly grid: BeatGrid;
  /** Null for parts of one staff. */
  readonly staff: number | null;
  readonly accidentals: ReadonlyMap<unknown, string>;
  /** Gives each written note its id, "n1", then "n1-2" for the next piece of the same note. */
  readonly idOf: (note: Chord["pieces"][number]["note"]) => string;
  /** What stands before the note or rest that covers these ticks of the bar: directions, chord symbols. */
  readonly before: (from: number, to: number) => string;
  /** Fill gaps with rests (first voice of a staff) or leave them empty. */
  readonly rests: boolean;
}

/** One note value in the voice: a chord, a rest or a gap. */
interface Step {
  readonly tick: number;
  readonly length: WrittenLength;
  readonly chord: Chord | null;
  readonly tieStop: boolean;
  readonly tieStart: boolean;
  readonly wholeBar: boolean;
}

/** One voice of one bar as MusicXML, and how far it reaches. */
export function voiceElements(
  voice: Voice,
  context: VoiceContext,
): { readonly xml: string; readonly end: number } {
  const steps = stepsOf(voice, context);
  const beams = beamsOf(
    steps.map(({ tick, length, chord }) => ({ tick, type: length.type, rest: chord === null })),
    context.grid.beat,
  );
  const tuplets = tupletsOf(steps, context.grid.beat);
  let graces = [...voice.graces];
  let xml = "";
  steps.forEach((step, index) => {
    xml += context.before(step.tick, step.tick + step.length.ticks);
    const due = graces.filter((grace) => grace.tick <= step.tick);
    graces = graces.filter((grace) => grace.tick > step.tick);
    xml += due.map((grace) => graceElement(grace, voice, context)).join("");
    if (step.chord === null) {
      xml += context.rests
        ? restElement(step.length, step.wholeBar, {
            voice: voice.name,
            staff: context.staff,
            tuplet: tuplets[index]!,
          })
        : element("forward", {}, textElement("duration", step.length.ticks));
      return;
    }
    step.chord.pieces.forEach((piece, place) => {
      const tieStop = piece.tieStop || step.tieStop;
      const accidental = tieStop ? null : (context.accidentals.get(piece.note) ?? null);
      xml += noteElement(piece, {
        voice: voice.name,
        staff: context.staff,
        inChord: place > 0,
        length: step.length,
        tieStop,
        tieStart: piece.tieStart || step.tieStart,
        accidental,
        // Only the first note of a chord carries the stem's beams.
        beams: place === 0 ? beams[index]! : [],
        tuplet: tuplets[index]!,
        id: context.idOf(piece.note),
        first: !tieStop,
      });
    });
  });
  xml += graces.map((grace) => graceElement(grace, voice, context)).join("");
  const last = steps.at(-1);
  return { xml, end: last === undefined ? 0 : last.tick + last.length.ticks };
}

function graceElement(piece: Chord["pieces"][number], voice: Voice, context: VoiceContext): string {
  return noteElement(piece, {
    voice: voice.name,
    staff: context.staff,
    inChord: false,
    length: { ticks: 0, type: "eighth", dots: 0, tuplet: null },
    tieStop: false,
    tieStart: false,
    accidental: context.accidentals.get(piece.note) ?? null,
    beams: [],
    tuplet: null,
    id: context.idOf(piece.note),
    first: true,
  });
}

function stepsOf(voice: Voice, { barTicks, grid, rests }: VoiceContext): Step[] {
  const steps: Step[] = [];
  if (voice.chords.length === 0 && rests) {
    const length: WrittenLength = { ticks: barTicks, type: "whole", dots: 0, tuplet: null };
    return [{ tick: 0, length, chord: null, tieStop: false, tieStart: false, wholeBar: true }];
  }
  let at = 0;
  const fill = (to: number): void => {
    if (to <= at) return;
    const lengths = rests
      ? spellLength(at, to - at, grid)
      : [{ ticks: to - at, type: null, dots: 0, tuplet: null }];
    for (const length of lengths) {
      steps.push({ tick: at, length, chord: null, tieStop: false, tieStart: false, wholeBar: false });
      at += length.ticks;
    }
  };
  for (const chord of voice.chords) {
    fill(chord.tick);
    const lengths = spellLength(chord.tick, chord.ticks, grid);
    lengths.forEach((length, index) => {
      steps.push({
        tick: at,
        length,
        chord,
        tieStop: index > 0,
        tieStart: index + 1 < lengths.length,
        wholeBar: false,
      });
      at += length.ticks;
    });
  }
  if (rests) fill(barTicks);
  return steps;
}

/** Brackets over tuplets: neighbours of one kind within one beat stand under one. */
function tupletsOf(steps: readonly Step[], beat: number): ("start" | "stop" | "both" | null)[] {
  const marks = steps.map((): "start" | "stop" | "both" | null => null);
  let from = 0;
  while (from < steps.length) {
    const { tuplet } = steps[from]!.length;
    if (tuplet === null) {
      from++;
      continue;
    }
    const group = Math.floor(steps[from]!.tick / beat);
    let to = from;
    while (steps[to + 1]?.length.tuplet === tuplet && Math.floor(steps[to + 1]!.tick / beat) === group) to++;
    if (to === from) marks[from] = "both";
    else {
      marks[from] = "start";
      marks[to] = "stop";
    }
    from = to + 1;
  }
  return marks;
}
