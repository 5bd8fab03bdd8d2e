import { descendants, signText, type XmlElement } from "./element.ts";

/** Ties of playing; where a document only draws them, the drawn ones. */
export function tiesOf(element: XmlElement, ties: unknown): { tieStart: boolean; tieStop: boolean } {
  const marks =
    ties === undefined
      ? descendants(element, "tied", 2)
      : element.children.filter((one) => one.nodeName === "tie");
  let tieStart = false;
  let tieStop = false;
  for (const mark of marks) {
    const type = mark.getAttribute("type");
    if (type === "start") tieStart = true;
    else if (type === "stop") tieStop = true;
    else if (type === "continue") {
      tieStart = true;
      tieStop = true;
    }
  }
  return { tieStart, tieStop };
}

const NO_LYRICS: readonly string[] = [];

/** Syllables under a note, one for each verse. */
export function lyricsOf(element: XmlElement): readonly string[] {
  let lyrics: string[] | null = null;
  for (const one of element.children) {
    if (one.nodeName !== "lyric") continue;
    const text = one.children
      .filter(({ nodeName }) => nodeName === "text" || nodeName === "elision")
      .map((piece) => piece.textContent.trim())
      .join(" ");
    if (text.trim() === "") continue;
    lyrics ??= [];
    lyrics.push(signText(text));
  }
  return lyrics ?? NO_LYRICS;
}

/** Passes of a repeat, from 1, that a `time-only` attribute names; null for all. */
export function passesOf(text: string | null): readonly number[] | null {
  const passes = (text ?? "")
    .split(/[^0-9]+/)
    .filter((one) => one !== "")
    .map(Number);
  return passes.length === 0 ? null : passes;
}

/** Sums "3+2" and joins several fractions: 2/4 and 3/8 are 7/8. Null when there is no meter. */
export function meterOf(time: XmlElement | null): { beats: number; unit: number } | null {
  if (time === null) return null;
  const fractions: { beats: number; unit: number }[] = [];
  let beats: number | null = null;
  for (const one of time.children) {
    if (one.nodeName === "beats") {
      beats = one.textContent.split("+").reduce((sum, part) => sum + Number(part.trim()), 0);
    } else if (one.nodeName === "beat-type" && beats !== null) {
      fractions.push({ beats, unit: Number(one.textContent.trim()) });
      beats = null;
    }
  }
  const usable = fractions.every(
    ({ beats: number, unit }) =>
      Number.isInteger(number) && number > 0 && number < 1000 && [1, 2, 4, 8, 16, 32, 64].includes(unit),
  );
  if (fractions.length === 0 || !usable) return null;
  const unit = Math.max(...fractions.map((one) => one.unit));
  return { unit, beats: fractions.reduce((sum, one) => sum + (one.beats * unit) / one.unit, 0) };
}
