import { UNISON } from "../../pitch/index.ts";
import { Problem } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import type { GraceKind, NoteEvent } from "./bar-content.ts";
import { attributeNumber, childText, type XmlElement } from "./element.ts";
import { fingeringOf } from "./fingering.ts";
import { readNote } from "./interfaces.ts";
import { lyricsOf, passesOf, tiesOf } from "./note-parts.ts";
import { finite, type PartState, velocityOfPercent } from "./part-state.ts";
import { soundingPitch } from "./sounding-pitch.ts";

type ReadNote = ReturnType<typeof readNote>;

/**
 * A `<note>` as an event of its bar. Rests, cue notes and notes without pitch take their time and sound not.
 *
 * @throws Problem for a pitch that is none
 */
export function noteEvent(part: PartState, element: XmlElement, where: string): NoteEvent {
  const note = readNote(element);
  const event = {
    kind: "note" as const,
    length: { units: finite(note.duration) ?? 0, divisions: part.divisions },
    withPrevious: note.chord !== undefined,
    grace: graceOf(note),
    voice: childText(element, "voice") ?? "1",
    sound: null,
  };
  if (note.rest !== undefined) return event;
  if (note.cue !== undefined) {
    part.warnings.add(
      "cue-notes-left-out",
      where,
      (times) => `${counted(times, "cue note")} ${times === 1 ? "was" : "were"} left out.`,
    );
    return event;
  }
  if (note.pitch === undefined) {
    if (note.unpitched !== undefined) part.unpitched++;
    return event;
  }
  const staff = Math.max(1, finite(note.staff) ?? 1);
  part.staves = Math.max(part.staves, staff);
  const sounding = pitchOf(part, note.pitch, staff, `${where}, line ${element.line}`, where);
  if (sounding === null) return event;
  part.notes++;
  const dynamics = attributeNumber(element, "dynamics");
  return {
    ...event,
    sound: {
      ...sounding,
      staff,
      velocity: dynamics === null ? part.velocity : velocityOfPercent(dynamics),
      ...tiesOf(element, note.ties),
      fingering: fingeringOf(element),
      lyrics: lyricsOf(element),
      documentId: element.getAttribute("id"),
      timeOnly: passesOf(element.getAttribute("time-only")),
    },
  };
}

function graceOf({ grace }: ReadNote): GraceKind | null {
  if (grace === undefined) return null;
  return grace.slash ? "acciaccatura" : "appoggiatura";
}

/** The pitch at which a note sounds; null, with a warning, outside MIDI's range. */
function pitchOf(
  { warnings, transpositions }: PartState,
  written: NonNullable<ReadNote["pitch"]>,
  staff: number,
  line: string,
  bar: string,
): ReturnType<typeof soundingPitch> | null {
  const step = written.step ?? "";
  const octave = finite(written.octave);
  const alter = finite(written.alter) ?? 0;
  if (!/^[a-g]$/.test(step) || octave === null) {
    throw new Problem(
      "impossible-pitch",
      `A note has the pitch "${step}${written.octave ?? ""}"`,
      line,
      "Correct the pitch in the notation program.",
    );
  }
  if (alter !== Math.round(alter)) {
    warnings.add(
      "microtones-rounded",
      bar,
      (times) =>
        `${counted(times, "note")} between the keys of a piano ${times === 1 ? "was" : "were"} rounded.`,
    );
  }
  const by = transpositions.get(staff) ?? transpositions.get(0) ?? UNISON;
  const sounding = soundingPitch(step, alter, octave, by);
  if (sounding.pitch >= 0 && sounding.pitch <= 127) return sounding;
  warnings.add(
    "pitch-out-of-range",
    line,
    (times) => `${counted(times, "note")} outside MIDI's range ${times === 1 ? "was" : "were"} left out.`,
  );
  return null;
}
