import { partsOf } from "../../pitch/index.ts";
import type { Piece } from "./cut-bars.ts";
import type { WrittenLength } from "./note-values.ts";
import { element, textElement } from "./xml.ts";

/** What of a note depends on its neighbours. */
export interface NoteContext {
  readonly voice: string;
  /** Null for parts of one staff. */
  readonly staff: number | null;
  readonly inChord: boolean;
  readonly length: WrittenLength;
  readonly tieStop: boolean;
  readonly tieStart: boolean;
  readonly accidental: string | null;
  readonly beams: readonly string[];
  readonly tuplet: "start" | "stop" | "both" | null;
  /** Unique; null for none. */
  readonly id: string | null;
  /** True on the first written piece of a note: it carries the annotations. */
  readonly first: boolean;
}

/** A `<note>`, its elements in the order of MusicXML 4.0. */
export function noteElement(piece: Piece, context: NoteContext): string {
  const { note } = piece;
  const { letter, alter, octave } = partsOf(note.spelling);
  const grace = note.ticks === 0;
  const { length } = context;
  const notations = notationsOf(piece, context);
  return element(
    "note",
    {
      id: context.id,
      // Percent of MIDI velocity 90, as the standard counts loudness.
      dynamics: note.velocity === null ? null : Math.round((note.velocity / 0.9) * 100) / 100,
    },
    grace ? element("grace", { slash: note.grace === "acciaccatura" ? "yes" : null }) : "",
    context.inChord ? "<chord/>" : "",
    element(
      "pitch",
      {},
      textElement("step", letter),
      alter === 0 ? "" : textElement("alter", alter),
      textElement("octave", octave!),
    ),
    grace ? "" : textElement("duration", length.ticks),
    context.tieStop ? element("tie", { type: "stop" }) : "",
    context.tieStart ? element("tie", { type: "start" }) : "",
    textElement("voice", context.voice),
    typeElements(length),
    context.accidental === null ? "" : textElement("accidental", context.accidental),
    timeModification(length),
    note.notehead === "normal" ? "" : textElement("notehead", note.notehead),
    context.staff === null ? "" : textElement("staff", context.staff),
    ...context.beams.map((beam, level) => element("beam", { number: level + 1 }, beam)),
    notations,
    ...(context.first ? note.lyrics.map(lyricElement) : []),
  );
}

/** A rest. Without a type when it fills its whole bar. */
export function restElement(
  length: WrittenLength,
  wholeBar: boolean,
  context: Pick<NoteContext, "voice" | "staff" | "tuplet">,
): string {
  const tuplet = tupletElements(context.tuplet);
  return element(
    "note",
    {},
    element("rest", { measure: wholeBar ? "yes" : null }),
    textElement("duration", length.ticks),
    textElement("voice", context.voice),
    wholeBar ? "" : typeElements(length),
    wholeBar ? "" : timeModification(length),
    context.staff === null ? "" : textElement("staff", context.staff),
    tuplet === "" ? "" : element("notations", {}, tuplet),
  );
}

function typeElements(length: WrittenLength): string {
  return length.type === null ? "" : textElement("type", length.type) + "<dot/>".repeat(length.dots);
}

function timeModification(length: WrittenLength): string {
  if (length.tuplet === null) return "";
  const { actual, normal } = length.tuplet;
  return element(
    "time-modification",
    {},
    textElement("actual-notes", actual),
    textElement("normal-notes", normal),
  );
}

function notationsOf({ note }: Piece, context: NoteContext): string {
  const fingering = context.first
    ? note.fingering.map(({ finger, substitution, alternate, inferred }) =>
        element(
          "fingering",
          {
            substitution: substitution ? "yes" : null,
            alternate: alternate ? "yes" : null,
            "font-style": inferred ? "italic" : null,
          },
          String(finger),
        ),
      )
    : [];
  const content =
    (context.tieStop ? element("tied", { type: "stop" }) : "") +
    (context.tieStart ? element("tied", { type: "start" }) : "") +
    tupletElements(context.inChord ? null : context.tuplet) +
    (fingering.length === 0 ? "" : element("technical", {}, ...fingering));
  return content === "" ? "" : element("notations", {}, content);
}

function tupletElements(tuplet: NoteContext["tuplet"]): string {
  return (
    (tuplet === "start" || tuplet === "both" ? element("tuplet", { type: "start", bracket: "yes" }) : "") +
    (tuplet === "stop" || tuplet === "both" ? element("tuplet", { type: "stop" }) : "")
  );
}

function lyricElement(text: string, line: number): string {
  return element("lyric", { number: line + 1 }, textElement("syllabic", "single"), textElement("text", text));
}
