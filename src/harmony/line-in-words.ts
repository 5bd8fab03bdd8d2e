/**
 * What a note does in the line, said in one clause. The words are chosen by what is so, and between ways of saying
 * the same by the note's place in the form, so that a page of them can be read without every line sounding alike.
 */
import { mod12 } from "../pitch/index.ts";
import type { PlacedNote } from "../take/index.ts";
import { fingerNumbered, noteInWords, stepInWords } from "../words/index.ts";
import { toneOf } from "./degree.ts";
import { isWrittenAs } from "./degree-fifths.ts";
import type { NoteLabel, Reached } from "./labels.ts";
import type { LineRole } from "./roles.ts";
import type { SentenceContext } from "./sentence-context.ts";
import { LEVELS } from "./strength.ts";
import { degreeInWords } from "./words.ts";

type Ways = readonly [string, ...string[]];
type Say = (...ways: Ways) => string;

/** The clause for a note, without a comma before it; "" where there is nothing to say. */
export function lineInWords(note: PlacedNote, label: NoteLabel, context: SentenceContext): string {
  const { target } = context;
  const way = target !== null && target.pitch < note.pitch ? "down" : "up";
  const goal = goalInWords(label, context);
  const say: Say = (...ways) => choose(note, ways);
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
      return enclosed(way, label, goal, say);
    case "approach":
      return approached(label, way, goal, context, say);
    case "passing":
      return passed(label, way, goal, context, say);
    case "neighbour":
      return turned(label, way, goal, context, say);
    case "appoggiatura":
      return say(
        `leaned on before it resolves ${way} to ${goal}`,
        `an appoggiatura that ${way === "down" ? "settles down onto" : "rises onto"} ${goal}`,
      );
    case "escape":
      return say("reached by step and left by leap", "an escape tone that steps out and leaps away");
    case "chord tone":
      return landed(label, context, say);
    case "held colour":
      return label.role === "blue"
        ? say("left blue, with no step to resolve it", "kept as a blue note in its own right")
        : say(
            label.manner === "by leap"
              ? "a colour that the line leaves by leap"
              : "left to stand as a colour",
            "a colour that needs no resolution",
            "a colour for its own sake",
          );
    case "free":
      return wandered(label, say);
  }
}

/** A foreign note on a beat, and on a stronger place than the note that it goes to, is heard with an accent. */
function isAccented({ strength }: NoteLabel, { targetLabel }: SentenceContext): boolean {
  return targetLabel !== null && strength >= LEVELS.beat && strength > targetLabel.strength;
}

function anticipated(note: PlacedNote, label: NoteLabel, { nextSpan }: SentenceContext, say: Say): string {
  const chord = nextSpan.chord!;
  const tone = toneOf(chord, mod12(note.pitch - chord.rootClass))!;
  const name = `the ${degreeInWords(tone.degree, tone.role, chord.quality)}`;
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

function enclosed(way: "up" | "down", label: NoteLabel, goal: string, say: Say): string {
  const side = way === "down" ? "upper" : "lower";
  if (label.manner === "double neighbour") return `the ${side} half of a double neighbour around ${goal}`;
  return say(
    `enclosing ${goal} from ${way === "down" ? "above" : "below"}`,
    `the ${side} side of an enclosure of ${goal}`,
  );
}

function approached(
  label: NoteLabel,
  way: "up" | "down",
  goal: string,
  context: SentenceContext,
  say: Say,
): string {
  const { finger, slide } = context;
  if (slide) return `slid ${way} into ${goal}${finger === null ? "" : ` with the ${fingerNumbered(finger)}`}`;
  // An altered tension that steps into the next chord is what alters a dominant: it resolves.
  if (label.altered && context.targetLabel!.chord !== label.chord) return `resolving ${way} to ${goal}`;
  switch (label.manner) {
    case "double chromatic":
      return say(`the first of two half steps ${way} to ${goal}`, `led ${way} by half steps to ${goal}`);
    case "double diatonic":
      return `the first of two scale steps ${way} to ${goal}`;
    case "chromatic":
      return way === "up"
        ? say(`pushed up into ${goal}`, `rising a half step into ${goal}`)
        : say(`pulled down into ${goal}`, `falling a half step into ${goal}`);
    default:
      return say(`stepping ${way} into ${goal}`, `leading ${way} to ${goal}`);
  }
}

function passed(
  label: NoteLabel,
  way: "up" | "down",
  goal: string,
  context: SentenceContext,
  say: Say,
): string {
  const accented = isAccented(label, context);
  if (label.manner === "chromatic") {
    return accented
      ? `an accented chromatic step on the way ${way} to ${goal}`
      : say(`passing by half steps ${way} to ${goal}`, `a chromatic step on the way ${way} to ${goal}`);
  }
  return accented
    ? say(`an accented passing note ${way} to ${goal}`, `accented as it passes ${way} to ${goal}`)
    : say(`passing ${way} to ${goal}`, `a step on the way ${way} to ${goal}`);
}

function turned(
  label: NoteLabel,
  way: "up" | "down",
  goal: string,
  context: SentenceContext,
  say: Say,
): string {
  const [side, back] = way === "down" ? ["upper", "falls back"] : ["lower", "returns"];
  if (label.manner === "double neighbour") {
    return `the ${side} half of a double neighbour around ${goal}`;
  }
  if (isAccented(label, context)) return `an accented ${side} neighbour that ${back} to ${goal}`;
  return say(
    `a${side === "upper" ? "n" : ""} ${side} neighbour that ${back} to ${goal}`,
    `a step ${way === "down" ? "above" : "below"} ${goal} and back`,
  );
}

/** What a chord tone is to the note before it that led to it. */
const RESOLUTIONS: Partial<Record<LineRole, Ways>> = {
  anticipation: ["struck again now that the chord is here", "confirming what was struck early"],
  suspension: ["the resolution of the suspension", "where the suspension gives way"],
  enclosure: ["where the enclosure closes", "the note that was enclosed"],
  approach: ["where the approach was leading", "the goal of the approach"],
  passing: ["where the passing note was heading", "reached through the passing note"],
  neighbour: ["home again after the neighbour note", "back where the neighbour note set out"],
  appoggiatura: ["the resolution of the appoggiatura", "where the leaning note settles"],
};

/**
 * What a chord tone does: a guide tone that arrives with its chord tells the change by itself; else it resolves what
 * led to it; else it is told by its place in the bar, or by the way that the line comes to it.
 */
function landed(label: NoteLabel, { span }: SentenceContext, say: Say): string {
  const hasChord = span.chord !== null;
  if (hasChord && label.guideTone && label.arrives) {
    return say("a guide tone just as the chord arrives", "which spells out the change");
  }
  const { resolves } = label.reached!;
  const resolution = resolves === null ? undefined : RESOLUTIONS[resolves];
  if (resolution !== undefined) return say(...resolution);
  if (hasChord && label.guideTone && label.strength >= LEVELS.halfBar) {
    return say("a guide tone on a strong beat", "a guide tone where the bar is strong");
  }
  if (hasChord && label.role === "root" && label.strength >= LEVELS.bar) {
    return say("square on the downbeat", "planted on the bar line", "at home as the bar begins");
  }
  return come(label.reached!, say);
}

/** How the line comes to a chord tone that nothing led to. */
function come({ interval, withinChord }: Reached, say: Say): string {
  if (interval === null) return say("where the line sets out", "opening the line");
  if (interval === 0) return say("struck again", "the same note once more");
  const way = interval > 0 ? "up" : "down";
  const size = stepInWords(interval);
  if (Math.abs(interval) <= 2) {
    return say(`${size} ${way} the line`, `reached by step from ${interval > 0 ? "below" : "above"}`);
  }
  return withinChord
    ? say(`${size} ${way} the chord`, `${way} the chord by ${size}`)
    : say(`${size} ${way} from the note before`, `a leap of ${size} ${way}`);
}

function wandered(label: NoteLabel, say: Say): string {
  const { manner } = label;
  if (manner === "step up home" || manner === "step down home") {
    const way = manner === "step up home" ? "up" : "down";
    return say(`going ${way} by step to a chord tone`, `${way} by step from here to a chord tone`);
  }
  if (manner === "two steps up" || manner === "two steps down") {
    const way = manner === "two steps up" ? "up" : "down";
    return say(
      `the first of two steps ${way} to a chord tone`,
      `stepping ${way} to a chord tone by way of the next note`,
    );
  }
  const goesOn = manner === "by step";
  switch (label.role) {
    case "avoid":
      return goesOn
        ? say(
            "moving on by step, though not into a chord tone",
            "stepping on without a chord tone to release it",
          )
        : say("left unresolved", "with no step to release it");
    case "outside":
      return goesOn
        ? say("moving on by step, though not into a chord tone", "a step on the way to another colour")
        : isSteppedTo(label)
          ? say("left hanging", "with nothing after it that resolves it")
          : say("neither prepared nor resolved", "left hanging");
    default:
      // Chord tones are never free: what is left are tensions and blue notes that move on by step.
      return say("moving on by step without coming to rest", "on its way to another colour");
  }
}

function isSteppedTo({ reached }: NoteLabel): boolean {
  const size = Math.abs(reached?.interval ?? 0);
  return size === 1 || size === 2;
}

/** The target as it is called from here: by degree alone under the same chord, with its chord under another. */
function goalInWords(label: NoteLabel, { targetLabel, span, nextSpan }: SentenceContext): string {
  if (targetLabel === null || targetLabel.degree === null) return "the next note";
  if (targetLabel.chord === null || targetLabel.role === "outside") return noteInWords(targetLabel.spelling);
  const root = [span, nextSpan].find(({ symbol }) => symbol === targetLabel.chord)?.chord?.root;
  if (
    root !== undefined &&
    targetLabel.altered &&
    !isWrittenAs(targetLabel.degree, targetLabel.spelling, root)
  ) {
    return noteInWords(targetLabel.spelling);
  }
  const under = [span, nextSpan].find(({ chord, symbol }) => chord !== null && symbol === targetLabel.chord);
  const quality = under?.chord?.quality ?? null;
  const name = `the ${degreeInWords(targetLabel.degree, targetLabel.role, quality)}`;
  return targetLabel.chord === label.chord ? name : `${name} of ${targetLabel.chord}`;
}

/** One of several ways to say the same, by the note's place, so that neighbours differ and nothing is random. */
function choose(note: PlacedNote, ways: Ways): string {
  const place = note.chorus * 5 + note.bar * 3 + Math.floor((note.beat ?? 0) * 2) + note.pitch;
  return ways[((place % ways.length) + ways.length) % ways.length]!;
}
