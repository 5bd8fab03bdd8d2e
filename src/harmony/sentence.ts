/** One sentence for a note, as a teacher would say it. */
import type { ChordSpan, Meter } from "../chart/types.ts";
import type { Finger, PlacedNote } from "../take/index.ts";
import type { NoteLabel } from "./labels.ts";
import { beatInWords, DEGREE_WORDS, noteInWords } from "./words.ts";

export interface SentenceContext {
  readonly target: PlacedNote | null;
  readonly targetLabel: NoteLabel | null;
  readonly span: ChordSpan;
  readonly nextSpan: ChordSpan;
  readonly meter: Meter;
  readonly finger: Finger | null;
  /** True when the finger slides on from this note to its target. */
  readonly slide: boolean;
}

/**
 * The sentence for a note.
 * @example "E flat on the and of 2: the blue third of C7, pushed up into the third."
 */
export function sentenceFor(note: PlacedNote, label: NoteLabel, context: SentenceContext): string {
  const place = beatInWords(note.beat, context.meter);
  const head = noteInWords(label.spelling) + (place === "" ? "" : ` on ${place}`);
  const what = inTheChord(label, context.span);
  const does = inTheLine(note, label, context);
  return `${head}: ${what}${does === "" ? "" : `, ${does}`}.`;
}

function inTheChord(label: NoteLabel, span: ChordSpan): string {
  const degree = label.degree === null ? "note" : DEGREE_WORDS[label.degree];
  if (span.chord === null) return `the ${degree} of the key, with no chord beneath it`;
  if (label.role === "blue") return `the blue ${label.degree === "b3" ? "third" : "fifth"} of ${span.symbol}`;
  if (label.role === "outside") return `the ${degree}, outside ${span.symbol}`;
  return `the ${degree} of ${span.symbol}`;
}

function inTheLine(note: PlacedNote, label: NoteLabel, context: SentenceContext): string {
  const { target, targetLabel, nextSpan } = context;
  const to = targetLabel?.degree == null ? "the next note" : `the ${DEGREE_WORDS[targetLabel.degree]}`;
  const way = target !== null && target.pitch < note.pitch ? "down" : "up";
  switch (label.lineRole) {
    case null:
    case "chord tone":
      return "";
    case "anticipation":
      return `early: it belongs to the ${nextSpan.symbol} that follows`;
    case "suspension":
      return `kept from the chord before and resolved ${way} to ${to}`;
    case "enclosure":
      return `one side of an enclosure of ${to}`;
    case "approach":
      return label.manner === "chromatic" ? `pushed ${way} into ${to}` : `leading ${way} to ${to}`;
    case "passing":
      return `passing ${way} to ${to}`;
    case "neighbour":
      return `a ${label.manner ?? ""} neighbour that goes back to ${to}`;
    case "appoggiatura":
      return `leaned on and resolved ${way} to ${to}`;
    case "escape":
      return "reached by step and left by leap";
    case "held colour":
      return "left to stand as a colour";
    case "free":
      return "free of the chord";
  }
}
