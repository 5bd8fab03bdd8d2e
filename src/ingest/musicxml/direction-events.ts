import type { StatedSwing } from "../../take/index.ts";
import type { BarEvent, Length } from "./bar-content.ts";
import {
  attributeNumber,
  child,
  childNumber,
  childText,
  descendants,
  signText,
  type XmlElement,
} from "./element.ts";

/** Words, rehearsal marks, tempo, pedal and swing of a `<direction>`. */
export function readDirectionEvents(direction: XmlElement, offset: Length): BarEvent[] {
  const events: BarEvent[] = [];
  const sound = child(direction, "sound");
  if (sound !== null) events.push(...readSoundEvents(sound, offset));
  const metronome = descendants(direction, "metronome")[0];
  const stated = events.some((event) => event.kind === "tempo");
  const written = metronome === undefined ? null : metronomeTempo(metronome);
  if (written !== null && !stated) events.push({ kind: "tempo", offset, quartersPerMinute: written });

  const words = joined(descendants(direction, "words"));
  const isTempo = stated || metronome !== undefined;
  if (/^N\.?\s?C\.?$/.test(words)) events.push({ kind: "chord", offset, text: "N.C." });
  else if (words !== "") events.push({ kind: "text", as: isTempo ? "tempo" : "text", offset, text: words });
  const rehearsal = joined(descendants(direction, "rehearsal"));
  if (rehearsal !== "") events.push({ kind: "text", as: "marker", offset, text: rehearsal });
  for (const pedal of descendants(direction, "pedal", 2)) {
    const type = pedal.getAttribute("type");
    if (type === "start" || type === "resume") events.push({ kind: "pedal", offset, down: true });
    else if (type === "stop" || type === "discontinue") events.push({ kind: "pedal", offset, down: false });
    else if (type === "change") {
      events.push({ kind: "pedal", offset, down: false }, { kind: "pedal", offset, down: true });
    }
  }
  return events;
}

/** Tempo, pedal and swing of a `<sound>`. The package knows no `<swing>`. */
export function readSoundEvents(sound: XmlElement, offset: Length): BarEvent[] {
  const events: BarEvent[] = [];
  const tempo = attributeNumber(sound, "tempo");
  if (tempo !== null && isTempo(tempo)) events.push({ kind: "tempo", offset, quartersPerMinute: tempo });
  const pedal = sound.getAttribute("damper-pedal");
  if (pedal !== null) {
    const depth = attributeNumber(sound, "damper-pedal");
    events.push({ kind: "pedal", offset, down: depth === null ? pedal === "yes" : depth >= 50 });
  }
  const swing = child(sound, "swing");
  if (swing !== null) events.push({ kind: "swing", swing: swingOf(swing) });
  return events;
}

function swingOf(swing: XmlElement): StatedSwing | null {
  if (child(swing, "straight") !== null) return null;
  const first = childNumber(swing, "first");
  const second = childNumber(swing, "second");
  if (first === null || second === null || first <= 0 || second <= 0) return null;
  return { first, second, unit: childText(swing, "swing-type") === "16th" ? "16th" : "eighth" };
}

/** Length of each note value in quarter notes (MusicXML 4.0, "note-type-value"). */
const NOTE_VALUES: ReadonlyMap<string, number> = new Map([
  ["breve", 8],
  ["whole", 4],
  ["half", 2],
  ["quarter", 1],
  ["eighth", 0.5],
  ["16th", 0.25],
  ["32nd", 0.125],
]);

/** "dotted quarter = 60" is 90 quarter notes a minute; null for an equation of two note values. */
function metronomeTempo(metronome: XmlElement): number | null {
  const value = NOTE_VALUES.get(childText(metronome, "beat-unit") ?? "");
  const figure = /\d+(?:\.\d+)?/.exec(childText(metronome, "per-minute") ?? "");
  if (value === undefined || figure === null) return null;
  const dots = metronome.children.filter((one) => one.nodeName === "beat-unit-dot").length;
  const tempo = Number(figure[0]) * value * (2 - 0.5 ** dots);
  return isTempo(tempo) ? tempo : null;
}

function isTempo(quartersPerMinute: number): boolean {
  return quartersPerMinute >= 1 && quartersPerMinute <= 2000;
}

/** Velocities of the dynamic marks, evenly spaced through MIDI's range [practice]. */
const MARKS: ReadonlyMap<string, number> = new Map([
  ["pppp", 8],
  ["ppp", 16],
  ["pp", 33],
  ["p", 49],
  ["mp", 64],
  ["mf", 80],
  ["f", 96],
  ["ff", 112],
  ["fff", 122],
  ["ffff", 127],
]);

/** MIDI velocity of a `<dynamics>`, or null for accents and marks without a level. */
export function velocityOfMark(dynamics: XmlElement): number | null {
  for (const mark of dynamics.children) {
    const velocity = MARKS.get(mark.nodeName);
    if (velocity !== undefined) return velocity;
  }
  return null;
}

function joined(elements: readonly XmlElement[]): string {
  return signText(elements.map((one) => one.textContent.trim()).join(" "));
}
