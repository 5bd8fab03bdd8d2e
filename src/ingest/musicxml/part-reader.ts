import { isChord } from "../../chart/index.ts";
import { type Interval, signatureMovedBy, UNISON, usualSteps } from "../../pitch/index.ts";
import { Problem } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import type { WarningCollector } from "../warning-collector.ts";
import type { BarContent, BarEvent, Length, NoteEvent } from "./bar-content.ts";
import { readDirectionEvents, readSoundEvents, velocityOfMark } from "./direction-events.ts";
import { attributeNumber, child, childNumber, childText, descendants, type XmlElement } from "./element.ts";
import { fingeringOf } from "./fingering.ts";
import { harmonyText, stackedChords } from "./harmony-text.ts";
import { readAttributes, readHarmony, readNote } from "./interfaces.ts";
import { lyricsOf, meterOf, passesOf, tiesOf } from "./note-parts.ts";
import type { BarAttributes } from "./read-document.ts";
import { addBarline, addSound, addWords, emptyPartRoad, type PartRoad } from "./road-marks.ts";
import { soundingPitch } from "./sounding-pitch.ts";

/** Reads the bars of one part, in order: divisions, key, transposition and loudness go on from bar to bar. */
export interface PartReader {
  readonly id: string;
  readonly bars: BarContent[];
  /** Sounding notes, before ties are joined. */
  notes: number;
  unpitched: number;
  staves: number;
  read(element: XmlElement, attributes: BarAttributes): void;
}

/** Loudness until one is stated: mezzo-forte. */
const DEFAULT_VELOCITY = 80;

export function partReader(id: string, warnings: WarningCollector): PartReader {
  let divisions = 1;
  let velocity = DEFAULT_VELOCITY;
  let key = { fifths: 0, mode: "major" as "major" | "minor" };
  /** By staff; 0 for all staves without one of their own. */
  const transpositions = new Map<number, Interval>();
  const self: PartReader = { id, bars: [], notes: 0, unpitched: 0, staves: 1, read };
  return self;

  function read(element: XmlElement, attributes: BarAttributes): void {
    const where = `part ${id}, bar ${attributes.number || self.bars.length + 1}`;
    const events: BarEvent[] = [];
    const road = emptyPartRoad();
    for (const one of element.children) {
      try {
        readChild(one, events, road, where);
      } catch (error) {
        if (error instanceof Problem) throw error;
        throw new Problem(
          "unreadable-element",
          `<${one.nodeName}> cannot be read: ${error instanceof Error ? error.message : error}`,
          `${where}, line ${one.line}`,
          "Export the score again, or correct the line.",
        );
      }
    }
    self.bars.push({ number: attributes.number, implicit: attributes.implicit, events, roadmap: road });
  }

  function readChild(one: XmlElement, events: BarEvent[], road: PartRoad, where: string): void {
    switch (one.nodeName) {
      case "note":
        events.push(noteEvent(one, where));
        return;
      case "backup":
        events.push({ kind: "move", direction: -1, length: lengthOf(one, "duration") });
        return;
      case "forward":
        events.push({ kind: "move", direction: 1, length: lengthOf(one, "duration") });
        return;
      case "attributes":
        events.push(...attributeEvents(one, where));
        return;
      case "harmony": {
        const text = harmonyText(readHarmony(one), one, key, transpositions.get(0) ?? UNISON);
        warnOfSymbol(warnings, one, text, where);
        if (text !== null) events.push({ kind: "chord", text, offset: lengthOf(one, "offset") });
        return;
      }
      case "direction": {
        const offset = lengthOf(one, "offset");
        events.push(...readDirectionEvents(one, offset));
        for (const mark of descendants(one, "dynamics")) velocity = velocityOfMark(mark) ?? velocity;
        const sound = child(one, "sound");
        if (sound !== null) hear(sound, road.own);
        addWords(road.own, one);
        return;
      }
      case "sound":
        events.push(...readSoundEvents(one, lengthOf(one, "offset")));
        hear(one, road.own);
        return;
      case "barline":
        addBarline(road, one);
        return;
    }
  }

  /** What a `<sound>` says to the player from here on. */
  function hear(sound: XmlElement, road: PartRoad["own"]): void {
    addSound(road, sound);
    const dynamics = attributeNumber(sound, "dynamics");
    if (dynamics !== null) velocity = velocityOfPercent(dynamics);
  }

  function lengthOf(element: XmlElement, name: string): Length {
    return { units: childNumber(element, name) ?? 0, divisions };
  }

  function noteEvent(element: XmlElement, where: string): NoteEvent {
    const note = readNote(element);
    const voice = childText(element, "voice") ?? "1";
    const event = {
      kind: "note" as const,
      length: { units: finite(note.duration) ?? 0, divisions },
      withPrevious: note.chord !== undefined,
      grace:
        note.grace === undefined
          ? null
          : note.grace.slash
            ? ("acciaccatura" as const)
            : ("appoggiatura" as const),
      voice,
    };
    if (note.rest !== undefined) return { ...event, sound: null };
    if (note.cue !== undefined) {
      warnings.add(
        "cue-notes-left-out",
        where,
        (times) => `${counted(times, "cue note")} ${times === 1 ? "was" : "were"} left out.`,
      );
      return { ...event, sound: null };
    }
    if (note.pitch === undefined) {
      if (note.unpitched !== undefined) self.unpitched++;
      return { ...event, sound: null };
    }
    const staff = Math.max(1, finite(note.staff) ?? 1);
    self.staves = Math.max(self.staves, staff);
    const step = note.pitch.step ?? "";
    const octave = finite(note.pitch.octave);
    const alter = finite(note.pitch.alter) ?? 0;
    if (!/^[a-g]$/.test(step) || octave === null) {
      throw new Problem(
        "impossible-pitch",
        `A note has the pitch "${step}${note.pitch.octave ?? ""}"`,
        `${where}, line ${element.line}`,
        "Correct the pitch in the notation program.",
      );
    }
    if (alter !== Math.round(alter)) {
      warnings.add(
        "microtones-rounded",
        where,
        (times) =>
          `${counted(times, "note")} between the keys of a piano ${times === 1 ? "was" : "were"} rounded.`,
      );
    }
    const by = transpositions.get(staff) ?? transpositions.get(0) ?? UNISON;
    const { pitch, spelling } = soundingPitch(step, alter, octave, by);
    if (pitch < 0 || pitch > 127) {
      warnings.add(
        "pitch-out-of-range",
        `${where}, line ${element.line}`,
        (times) => `${counted(times, "note")} outside MIDI's range ${times === 1 ? "was" : "were"} left out.`,
      );
      return { ...event, sound: null };
    }
    self.notes++;
    const ties = tiesOf(element, note.ties);
    const dynamics = attributeNumber(element, "dynamics");
    return {
      ...event,
      sound: {
        pitch,
        spelling,
        staff,
        velocity: dynamics === null ? velocity : velocityOfPercent(dynamics),
        ...ties,
        fingering: fingeringOf(element),
        lyrics: lyricsOf(element),
        documentId: element.getAttribute("id"),
        timeOnly: passesOf(element.getAttribute("time-only")),
      },
    };
  }

  function attributeEvents(element: XmlElement, where: string): BarEvent[] {
    const events: BarEvent[] = [];
    const attributes = readAttributes(element);
    const stated = finite(attributes.divisions) ?? 0;
    if (stated > 0) divisions = stated;
    self.staves = Math.max(self.staves, Math.min(16, finite(attributes.staves) ?? 1));
    for (const { chromatic, diatonic, octaveChange, number } of attributes.transposes ?? []) {
      const octaves = Number.parseInt(octaveChange ?? "", 10) || 0;
      const semitones = Math.round(Number.parseFloat(chromatic ?? "")) || 0;
      const letters = finite(Number.parseInt(diatonic ?? "", 10));
      const steps = letters !== null && (letters !== 0 || semitones === 0) ? letters : usualSteps(semitones);
      transpositions.set(finite(number) ?? 0, {
        steps: steps + 7 * octaves,
        semitones: semitones + 12 * octaves,
      });
    }
    const keyElement = child(element, "key");
    const fifths = keyElement === null ? null : childNumber(keyElement, "fifths");
    if (keyElement !== null && fifths !== null && Math.abs(fifths) <= 7) {
      const mode = childText(keyElement, "mode");
      key = { fifths, mode: mode === "minor" || mode === "aeolian" ? "minor" : "major" };
      const moved = fifths + signatureMovedBy(transpositions.get(0)?.semitones ?? 0);
      // Beyond seven signs the enharmonic key is meant.
      events.push({
        kind: "key",
        mode: key.mode,
        fifths: moved > 7 ? moved - 12 : moved < -7 ? moved + 12 : moved,
      });
    } else if (keyElement !== null) {
      warnings.add(
        "unusual-key",
        where,
        (times) => `${counted(times, "key signature")} of an unusual kind was left out.`,
      );
    }
    const meter = meterOf(child(element, "time"));
    if (meter !== null) events.push({ kind: "meter", ...meter });
    if (descendants(element, "measure-repeat").some((one) => one.getAttribute("type") === "start")) {
      warnings.add(
        "bar-repeat-signs",
        where,
        () =>
          "Signs that repeat a bar were not played out; bars are read with the notes that the file gives them.",
      );
    }
    return events;
  }
}

function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}

/** Velocity of a percentage of forte, MIDI 90 (MusicXML 4.0, `<sound dynamics>`). */
function velocityOfPercent(percent: number): number {
  return Math.max(1, Math.min(127, Math.round(0.9 * percent)));
}

/** Says what of a chord symbol is not read: stacked chords but the first, and what stands in no chart. */
function warnOfSymbol(
  warnings: WarningCollector,
  harmony: XmlElement,
  text: string | null,
  where: string,
): void {
  if (stackedChords(harmony) > 1) {
    warnings.add(
      "stacked-chords",
      where,
      (times) => `Of ${counted(times, "chord symbol")} with several chords on each other the first was read.`,
    );
  }
  if (text !== null && isChord(text)) return;
  const kind = childText(harmony, "kind") ?? "";
  const what = text === null ? `of the kind "${kind}" without a chord that is named` : `"${text}"`;
  warnings.add(
    "chord-unread",
    where,
    (times) =>
      `${counted(times, "chord symbol")} cannot be read and ${times === 1 ? "is" : "are"} in no chart; the first is ${what}.`,
  );
}
