import { isChord } from "../../chart/index.ts";
import { UNISON } from "../../pitch/index.ts";
import { Problem } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import type { WarningCollector } from "../warning-collector.ts";
import { attributeEvents } from "./attribute-events.ts";
import type { BarContent, BarEvent, Length } from "./bar-content.ts";
import { readDirectionEvents, readSoundEvents, velocityOfMark } from "./direction-events.ts";
import { attributeNumber, child, childNumber, childText, descendants, type XmlElement } from "./element.ts";
import { harmonyText, stackedChords } from "./harmony-text.ts";
import { readHarmony } from "./interfaces.ts";
import { noteEvent } from "./note-event.ts";
import { newPart, type PartState, velocityOfPercent } from "./part-state.ts";
import type { BarAttributes } from "./read-document.ts";
import { addBarline, addSound, addWords, emptyPartRoad, type PartRoad } from "./road-marks.ts";

/** Reads the bars of one part, in order: divisions, key, transposition and loudness go on from bar to bar. */
export interface PartReader extends Readonly<PartState> {
  readonly bars: readonly BarContent[];
  read(element: XmlElement, attributes: BarAttributes): void;
}

export function partReader(id: string, warnings: WarningCollector): PartReader {
  const part = newPart(id, warnings);
  const bars: BarContent[] = [];
  const read = (element: XmlElement, attributes: BarAttributes): void => {
    const where = `part ${id}, bar ${attributes.number || bars.length + 1}`;
    bars.push({
      number: attributes.number,
      implicit: attributes.implicit,
      ...contentOf(part, element, where),
    });
  };
  return Object.assign(part, { bars, read });
}

function contentOf(
  part: PartState,
  bar: XmlElement,
  where: string,
): { readonly events: BarEvent[]; readonly roadmap: PartRoad } {
  const events: BarEvent[] = [];
  const roadmap = emptyPartRoad();
  for (const one of bar.children) {
    try {
      events.push(...eventsOf(part, one, roadmap, where));
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
  return { events, roadmap };
}

/** The events of one child of a bar; what it says of repeats and jumps goes into `road`. */
function eventsOf(part: PartState, one: XmlElement, road: PartRoad, where: string): readonly BarEvent[] {
  const lengthOf = (name: string): Length => ({
    units: childNumber(one, name) ?? 0,
    divisions: part.divisions,
  });
  switch (one.nodeName) {
    case "note":
      return [noteEvent(part, one, where)];
    case "backup":
      return [{ kind: "move", direction: -1, length: lengthOf("duration") }];
    case "forward":
      return [{ kind: "move", direction: 1, length: lengthOf("duration") }];
    case "attributes":
      return attributeEvents(part, one, where);
    case "harmony": {
      const text = harmonyText(readHarmony(one), one, part.key, part.transpositions.get(0) ?? UNISON);
      warnOfSymbol(part.warnings, one, text, where);
      return text === null ? [] : [{ kind: "chord", text, offset: lengthOf("offset") }];
    }
    case "direction": {
      for (const mark of descendants(one, "dynamics")) part.velocity = velocityOfMark(mark) ?? part.velocity;
      const sound = child(one, "sound");
      if (sound !== null) hear(part, sound, road);
      addWords(road.own, one);
      return readDirectionEvents(one, lengthOf("offset"));
    }
    case "sound":
      hear(part, one, road);
      return readSoundEvents(one, lengthOf("offset"));
    case "barline":
      addBarline(road, one);
  }
  return [];
}

/** What a `<sound>` says to the player from here on. */
function hear(part: PartState, sound: XmlElement, road: PartRoad): void {
  addSound(road.own, sound);
  const dynamics = attributeNumber(sound, "dynamics");
  if (dynamics !== null) part.velocity = velocityOfPercent(dynamics);
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
