/**
 * One sentence for a note, as a teacher would say it at the piano: the note and its place, what it is in the chord,
 * what it does in the line.
 *
 * The words are chosen by what is so, and between ways of saying the same by the note's place in the form, so that a
 * page of them can be read without every line sounding alike. The same note always gets the same sentence.
 */
import type { ChordSpan, Degree, Meter } from "../chart/types.ts";
import type { Finger, PlacedNote } from "../take/index.ts";
import { toneOf } from "./degree.ts";
import type { NoteLabel } from "./labels.ts";
import { LEVELS } from "./strength.ts";
import { beatInWords, degreeInWords, fingerInWords, noteInWords } from "./words.ts";

export interface SentenceContext {
  /** The note that the label's `target` names, and its label. */
  readonly target: PlacedNote | null;
  readonly targetLabel: NoteLabel | null;
  /** The chord at the note's onset, and the one after it in the form. */
  readonly span: ChordSpan;
  readonly nextSpan: ChordSpan;
  readonly meter: Meter;
  /** The finger that plays the note, where it is known. */
  readonly finger: Finger | null;
  /** True when the finger slides on from this note to the next. */
  readonly slide: boolean;
}

/**
 * The sentence for a note: it begins with the note's name and ends with a full stop.
 * @example "E flat on the and of 2: the blue third of C7, pushed up into the third."
 */
export function sentenceFor(note: PlacedNote, label: NoteLabel, context: SentenceContext): string {
  const clauses = [inTheChord(label, context), inTheLine(note, label, context)];
  return `${head(note, label, context)}: ${clauses.filter((clause) => clause !== "").join(", ")}.`;
}

function head(note: PlacedNote, label: NoteLabel, { meter, finger, slide }: SentenceContext): string {
  const place = beatInWords(note.beat, meter);
  const under = finger === null || slide ? "" : `, finger ${finger}`;
  const where = note.solo ? "" : ", in the accompaniment";
  return noteInWords(label.spelling) + (place === "" ? "" : ` on ${place}`) + under + where;
}

/** Why an avoid note is one, by its degree. Source: Nettles & Graf [memory]. */
const RUBS: Partial<Record<Degree, string>> = {
  "11": "a half step above the third",
  b9: "a half step above the root",
  b13: "a half step above the fifth",
  "13": "the tone that gives the dominant away",
  "3": "which the suspended fourth keeps out",
};

function inTheChord(label: NoteLabel, { span }: SentenceContext): string {
  const { degree, role } = label;
  if (degree === null || role === null) return "a note of the line";
  const name = degreeInWords(degree, role, span.chord?.quality ?? null);
  if (span.chord === null) {
    return role === "outside" ? "no chord beneath it" : `the ${name} of the key, no chord beneath it`;
  }
  switch (role) {
    case "root":
    case "third":
    case "fifth":
    case "seventh":
      return `the ${name} of ${span.symbol}${label.blueInKey ? " and a blue note of the key" : ""}`;
    case "tension":
    case "blue":
      return `the ${name} of ${span.symbol}`;
    case "avoid": {
      const rubs = RUBS[degree];
      const isExplained = label.lineRole === "free" || label.lineRole === "appoggiatura";
      return `the ${name} of ${span.symbol}${isExplained && rubs !== undefined ? `, ${rubs}` : ""}`;
    }
    case "outside":
      return label.lineRole === "free" ? `outside ${span.symbol}` : `foreign to ${span.symbol}`;
  }
}

function inTheLine(note: PlacedNote, label: NoteLabel, context: SentenceContext): string {
  const { target } = context;
  const way = target !== null && target.pitch < note.pitch ? "down" : "up";
  const goal = goalInWords(label, context);
  const say = (...ways: readonly [string, ...string[]]) => choose(note, ways);
  switch (label.lineRole) {
    case null:
      return "";
    case "anticipation":
      return anticipated(note, label, context, say);
    case "suspension":
      return label.manner === "held"
        ? say(`held over the change and resolved ${way} to ${goal}`, `a suspension that gives way to ${goal}`)
        : say(
            `carried over from the chord before and resolved ${way} to ${goal}`,
            `struck again over the new chord, then resolved ${way} to ${goal}`,
          );
    case "enclosure":
      return enclosed(note, label, goal, context, say);
    case "approach":
      return approached(label, way, goal, context, say);
    case "passing":
      return (
        accent(label, context) +
        (label.manner === "chromatic"
          ? say(`passing by half steps ${way} to ${goal}`, `a chromatic step on the way ${way} to ${goal}`)
          : say(`passing ${way} to ${goal}`, `a step on the way ${way} to ${goal}`))
      );
    case "neighbour":
      return (
        accent(label, context) +
        (way === "down"
          ? say(`an upper neighbour that falls back to ${goal}`, `a step above ${goal} and back`)
          : say(`a lower neighbour that returns to ${goal}`, `a step below ${goal} and back`))
      );
    case "appoggiatura":
      return say(
        `leaned on before it resolves ${way} to ${goal}`,
        `an appoggiatura that settles ${way} onto ${goal}`,
      );
    case "escape":
      return say("reached by step and left by leap", "an escape: a step out, then a leap away");
    case "chord tone":
      return landed(note, label, context);
    case "held colour":
      return label.role === "blue"
        ? say("left blue, with no step to resolve it", "kept as a blue note in its own right")
        : say("left to stand as a colour", "a colour that needs no resolution");
    case "free":
      return wandered(label, say);
  }
}

/** A foreign note on a stronger place than the note that it goes to is heard with an accent. */
function accent(label: NoteLabel, { targetLabel }: SentenceContext): string {
  return targetLabel !== null && label.strength > targetLabel.strength ? "accented, " : "";
}

type Say = (...ways: readonly [string, ...string[]]) => string;

function anticipated(note: PlacedNote, label: NoteLabel, { nextSpan }: SentenceContext, say: Say): string {
  const chord = nextSpan.chord!;
  const tone = toneOf(chord, (((note.pitch - chord.rootClass) % 12) + 12) % 12);
  const name = tone === null ? "a tone" : `the ${degreeInWords(tone.degree, tone.role, chord.quality)}`;
  const how =
    label.manner === "held"
      ? ", held over the change"
      : label.manner === "repeated"
        ? ", struck again when the chord arrives"
        : "";
  return (
    say(
      `already ${name} of the ${nextSpan.symbol} to come`,
      `an anticipation of ${name} of ${nextSpan.symbol}`,
    ) + how
  );
}

function enclosed(
  note: PlacedNote,
  label: NoteLabel,
  goal: string,
  { target }: SentenceContext,
  say: Say,
): string {
  const side = target !== null && target.pitch < note.pitch ? "above" : "below";
  if (label.manner === "double neighbour") {
    return `the ${side === "above" ? "upper" : "lower"} half of a double neighbour around ${goal}`;
  }
  return say(
    `enclosing ${goal} from ${side}`,
    `the ${side === "above" ? "upper" : "lower"} side of an enclosure of ${goal}`,
  );
}

function approached(
  label: NoteLabel,
  way: string,
  goal: string,
  { finger, slide }: SentenceContext,
  say: Say,
): string {
  if (slide) return `slid ${way} into ${goal}${finger === null ? "" : ` with the ${fingerInWords(finger)}`}`;
  switch (label.manner) {
    case "double chromatic":
      return say(`the first of two half steps ${way} to ${goal}`, `led ${way} by half steps to ${goal}`);
    case "double diatonic":
      return `the first of two scale steps ${way} to ${goal}`;
    case "chromatic":
      return way === "up"
        ? `pushed up into ${goal}`
        : say(`pulled down into ${goal}`, `falling a half step into ${goal}`);
    default:
      return say(`stepping ${way} into ${goal}`, `leading ${way} to ${goal}`);
  }
}

/** What a chord tone adds by its place: a guide tone as the chord arrives tells the chord by itself. */
function landed(note: PlacedNote, label: NoteLabel, { span }: SentenceContext): string {
  if (span.chord === null || !note.solo) return "";
  if (label.guideTone && label.arrives)
    return choose(note, ["the guide tone as the chord arrives", "which spells out the change"]);
  if (label.guideTone && label.strength >= LEVELS.halfBar) return "a guide tone on a strong beat";
  if (label.role === "root" && label.strength >= LEVELS.bar) return "square on the downbeat";
  return "";
}

function wandered(label: NoteLabel, say: Say): string {
  switch (label.role) {
    case "avoid":
      return say("left unresolved", "with no step to release it");
    case "outside":
      return say("neither prepared nor resolved", "and left there");
    case "tension":
    case "blue":
      return say("moving on without coming to rest", "a colour in passing that settles nowhere yet");
    default:
      return "";
  }
}

/** The target as it is called from here: by degree alone under the same chord, with its chord under another. */
function goalInWords(label: NoteLabel, { target, targetLabel }: SentenceContext): string {
  if (target === null || targetLabel === null || targetLabel.degree === null) return "the next note";
  if (targetLabel.chord === null || targetLabel.role === "outside") return noteInWords(targetLabel.spelling);
  const name = `the ${degreeInWords(targetLabel.degree, targetLabel.role, null)}`;
  return targetLabel.chord === label.chord ? name : `${name} of ${targetLabel.chord}`;
}

/** One of several ways to say the same, by the note's place, so that neighbours differ and nothing is random. */
function choose(note: PlacedNote, ways: readonly string[]): string {
  const place = note.chorus * 5 + note.bar * 3 + Math.floor((note.beat ?? 0) * 2) + note.pitch;
  return ways[((place % ways.length) + ways.length) % ways.length]!;
}
