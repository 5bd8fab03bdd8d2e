import { timesAlone } from "../../chart/how-often.ts";
import {
  emptyRoad,
  endingPasses,
  type RoadDraft,
  type RoadMarks,
  type WrittenSign,
} from "../../chart/road.ts";
import { child, descendants, type XmlElement } from "./element.ts";
import { readBarline } from "./interfaces.ts";

/** The road marks of a bar of one part, with those that belong to the bar on the other side of its bar line. */
export interface PartRoad {
  readonly own: RoadDraft;
  /** A repeat's end and an ending's end that stand in the bar line at the left belong to the bar before. */
  readonly before: RoadDraft;
  /** A repeat's beginning that stands in the bar line at the right belongs to the next bar. */
  readonly after: RoadDraft;
}

export function emptyPartRoad(): PartRoad {
  return { own: emptyRoad(), before: emptyRoad(), after: emptyRoad() };
}

/** No section is played more often, however often a file asks for it. */
const MOST_TIMES = 64;

/** Repeats and endings. The package keeps one number of an ending: "1, 2" is read from the element. */
export function addBarline({ own, before, after }: PartRoad, element: XmlElement): void {
  const barline = readBarline(element);
  const location = element.getAttribute("location") ?? "right";
  const closing = location === "left" ? before : own;
  if (barline.repeat !== undefined) {
    // The package counts directions from backward, 0, to forward, 1.
    if (barline.repeat.direction === 1) (location === "right" ? after : own).repeatStart = true;
    else {
      const times = Number.parseInt(barline.repeat.times ?? "", 10);
      closing.repeatEnd = Number.isFinite(times) ? Math.max(1, Math.min(times, MOST_TIMES)) : 2;
      closing.repeatAfterJump = child(element, "repeat")?.getAttribute("after-jump") === "yes";
    }
  }
  const ending = child(element, "ending");
  if (ending !== null) {
    if (ending.getAttribute("type") === "start")
      own.endingStart = endingPasses(ending.getAttribute("number") ?? "");
    else closing.endingStop = true;
  }
  if (barline.segno !== undefined) own.segno ??= element.getAttribute("segno") ?? "";
  if (barline.coda !== undefined) own.coda ??= element.getAttribute("coda") ?? "";
}

/** Road marks of each bar, all parts together: often only the first part carries them. */
export function roadsOf(parts: readonly (readonly PartRoad[])[], length: number): RoadMarks[] {
  return Array.from({ length }, (_, index) => {
    const road = emptyRoad();
    for (const bars of parts) {
      for (const one of [bars[index]?.own, bars[index + 1]?.before, bars[index - 1]?.after]) {
        if (one !== undefined) addMarks(road, one);
      }
    }
    return road;
  });
}

function addMarks(road: RoadDraft, own: RoadMarks): void {
  road.repeatStart ||= own.repeatStart;
  road.repeatEnd = Math.max(road.repeatEnd, own.repeatEnd);
  road.repeatAfterJump ||= own.repeatAfterJump;
  if (road.endingStart.length === 0) road.endingStart = own.endingStart;
  road.endingStop ||= own.endingStop;
  road.segno ??= own.segno;
  road.coda ??= own.coda;
  road.toCoda ??= own.toCoda;
  road.daCapo ||= own.daCapo;
  road.dalSegno ??= own.dalSegno;
  road.fine ||= own.fine;
  road.toEnding ??= own.toEnding;
  road.withRepeats ||= own.withRepeats;
  road.times ??= own.times;
  road.written.push(...own.written.filter((sign) => !road.written.includes(sign)));
}

/** Jumps as `<sound>` states them. musicxml-interfaces looks for "decapo", so all are read from the element. */
export function addSound(road: RoadDraft, sound: XmlElement): void {
  for (const { name, value } of sound.attributes) {
    switch (name) {
      case "segno":
        road.segno = value;
        break;
      case "coda":
        road.coda = value;
        break;
      case "tocoda":
        road.toCoda = value;
        break;
      case "dalsegno":
        road.dalSegno = value;
        break;
      case "dacapo":
        road.daCapo = value === "yes";
        break;
      case "fine":
        road.fine = value !== "no";
        break;
      case "forward-repeat":
        road.repeatStart ||= value === "yes";
        break;
    }
  }
}

const WORDS: readonly (readonly [RegExp, WrittenSign])[] = [
  [/^\W*(d\s*\.?\s*c\b|da\s+capo)/i, "da capo"],
  [/^\W*(d\s*\.?\s*s\b|dal\s+segno)/i, "dal segno"],
  [/^\W*(?:to|da|al)\s+coda\b/i, "to coda"],
  [/^\W*fine\W*$/i, "fine"],
  [/^\W*coda\W*$|^\s*\u{1d10c}\s*$/iu, "coda"],
  [/^\W*segno\W*$|^\s*\u{1d10b}\s*$/iu, "segno"],
];

const WITH_REPEATS = /\b(?:with|con|mit|avec)\s+(?:all\s+)?(?:rep|rip|reprise|wiederholung)/i;

/** Jumps as only words and symbols state them. */
export function addWords(road: RoadDraft, direction: XmlElement): void {
  const words = descendants(direction, "words")
    .map((one) => one.textContent)
    .join(" ");
  const sign = words.trim() === "" ? undefined : WORDS.find(([pattern]) => pattern.test(words))?.[1];
  if (sign !== undefined) road.written.push(sign);
  if (sign === "da capo" || sign === "dal segno") {
    const ending = /\bal?\s+(?:the\s+)?(\d)(?:st|nd|rd|th|\.)?\s*(?:ending|time)?\W*$/i.exec(words)?.[1];
    if (ending !== undefined) road.toEnding = Number(ending);
    road.withRepeats ||= WITH_REPEATS.test(words);
  }
  road.times ??= timesAlone(words);
  if (descendants(direction, "segno", 2).length > 0 && sign !== "dal segno" && sign !== "segno")
    road.written.push("segno");
  // A coda sign behind "To Coda" is part of the words.
  if (descendants(direction, "coda", 2).length > 0 && sign === undefined) road.written.push("coda");
}
