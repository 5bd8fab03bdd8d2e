/**
 * One sentence for a note, as a teacher would say it at the piano: the note and its place, what it is in the chord,
 * what it does in the line (`line-in-words.ts`). The same note always gets the same sentence.
 */
import type { Degree } from "../chart/types.ts";
import type { PlacedNote } from "../take/index.ts";
import { noteInWords } from "../words/index.ts";
import { isWrittenAs } from "./degree-fifths.ts";
import type { NoteLabel } from "./labels.ts";
import { lineInWords } from "./line-in-words.ts";
import type { SentenceContext } from "./sentence-context.ts";
import { beatInWords, degreeInWords, distanceInWords, foreignInWords } from "./words.ts";

/**
 * The sentence for a note: it begins with the note's name and ends with a full stop.
 * @example "E flat on the and of 2: the blue third of C7, pushed up into the third."
 */
export function sentenceFor(note: PlacedNote, label: NoteLabel, context: SentenceContext): string {
  const clauses = [inTheChord(note, label, context), lineInWords(note, label, context)];
  return `${head(note, label, context)}: ${clauses.filter((clause) => clause !== "").join(", ")}.`;
}

function head(note: PlacedNote, label: NoteLabel, { meter, finger, slide }: SentenceContext): string {
  const place = beatInWords(note.beat, meter);
  const under = finger === null || slide ? "" : `, finger ${finger}`;
  const where = note.solo ? "" : note.head === true ? ", in the head" : ", in the accompaniment";
  const at = place === "" ? "" : /^(just after|late in) /.test(place) ? ` ${place}` : ` on ${place}`;
  return noteInWords(label.spelling) + at + under + where;
}

/** Why an avoid note is one, by its degree. Source: Nettles & Graf [memory]. */
const RUBS: Partial<Record<Degree, string>> = {
  "11": "a half step above the third",
  b9: "a half step above the root",
  b13: "a half step above the fifth",
  "13": "which gives the dominant away",
  "3": "which the suspended fourth keeps out",
};

function inTheChord(note: PlacedNote, label: NoteLabel, { span }: SentenceContext): string {
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
    case "tension": {
      // A sharp ninth that falls, or rises by a whole step, is written as a third, which is none of the chord's.
      if (degree === "b3") return `the ${name} over ${span.symbol}`;
      if (isWrittenAs(degree, label.spelling, span.chord.root)) return `the ${name} of ${span.symbol}`;
      const kind = label.altered ? "an altered tension" : "a tension";
      return `${kind} of ${span.symbol}, ${distanceInWords(note.pitch - span.chord.rootClass)}`;
    }
    case "blue":
      return `the ${name} of ${span.symbol}`;
    case "avoid": {
      const rubs = RUBS[degree];
      const isExplained = label.lineRole === "free" || label.lineRole === "appoggiatura";
      return `the ${name} of ${span.symbol}${isExplained && rubs !== undefined ? `, ${rubs}` : ""}`;
    }
    case "outside": {
      const foreign = foreignInWords(label.spelling, span.chord.root);
      const away = label.lineRole === "free" ? "outside" : "foreign to";
      return foreign === null
        ? `${away} ${span.symbol}, ${distanceInWords(note.pitch - span.chord.rootClass)}`
        : `a ${foreign} ${away} ${span.symbol}`;
    }
  }
}
