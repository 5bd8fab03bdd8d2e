import type { RoadMarks, WrittenSign } from "./bar-content.ts";
import { child, descendants, type XmlElement } from "./element.ts";
import { readBarline } from "./interfaces.ts";

/** Road marks while a bar is read. */
export type RoadDraft = { -readonly [Name in keyof RoadMarks]: RoadMarks[Name] } & { written: WrittenSign[] };

export function emptyRoad(): RoadDraft {
  return {
    repeatStart: false,
    repeatEnd: 0,
    repeatAfterJump: false,
    endingStart: [],
    endingStop: false,
    segno: null,
    coda: null,
    toCoda: null,
    daCapo: false,
    dalSegno: null,
    fine: false,
    written: [],
  };
}

/** No section is played more often, however often a file asks for it. */
const MOST_TIMES = 64;

/** Repeats and endings. The package keeps one number of an ending: "1, 2" is read from the element. */
export function addBarline(road: RoadDraft, element: XmlElement): void {
  const barline = readBarline(element);
  if (barline.repeat !== undefined) {
    // The package counts directions from backward, 0, to forward, 1.
    if (barline.repeat.direction === 1) road.repeatStart = true;
    else {
      const times = Number.parseInt(barline.repeat.times ?? "", 10);
      road.repeatEnd = Number.isFinite(times) ? Math.max(1, Math.min(times, MOST_TIMES)) : 2;
      road.repeatAfterJump = child(element, "repeat")?.getAttribute("after-jump") === "yes";
    }
  }
  const ending = child(element, "ending");
  if (ending !== null) {
    if (ending.getAttribute("type") === "start")
      road.endingStart = endingNumbers(ending.getAttribute("number") ?? "");
    else road.endingStop = true;
  }
  if (barline.segno !== undefined) road.segno ??= element.getAttribute("segno") ?? "";
  if (barline.coda !== undefined) road.coda ??= element.getAttribute("coda") ?? "";
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
  [/^\W*to\s+coda\b/i, "to coda"],
  [/^\W*fine\W*$/i, "fine"],
  [/^\W*coda\W*$/i, "coda"],
];

/** Jumps as only words and symbols state them. */
export function addWords(road: RoadDraft, direction: XmlElement): void {
  const words = descendants(direction, "words")
    .map((one) => one.textContent)
    .join(" ");
  const sign = words.trim() === "" ? undefined : WORDS.find(([pattern]) => pattern.test(words))?.[1];
  if (sign !== undefined) road.written.push(sign);
  if (descendants(direction, "segno", 2).length > 0 && sign !== "dal segno") road.written.push("segno");
  // A coda sign behind "To Coda" is part of the words.
  if (descendants(direction, "coda", 2).length > 0 && sign === undefined) road.written.push("coda");
}

/** "1, 2" and "1-3" as lists of passes. */
function endingNumbers(text: string): number[] {
  const passes = new Set<number>();
  for (const piece of text.split(/[,\s.]+/)) {
    const range = /^(\d{1,2})(?:-(\d{1,2}))?$/.exec(piece);
    if (range === null) continue;
    const last = Number(range[2] ?? range[1]);
    for (let pass = Number(range[1]); pass <= last; pass++) passes.add(pass);
  }
  return passes.size > 0 ? [...passes].sort((a, b) => a - b) : [1];
}
