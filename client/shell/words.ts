/** How figures, keys and places are written on the pages. */

import type { AccountNote } from "../../src/account.ts";
import { countInWords } from "../../src/findings/words.ts";
import { keyboardName } from "../../src/pitch/index.ts";

/** "three choruses", "1 note", "14 bars": small numbers in words. */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n < 1000 ? countInWords(n) : n.toLocaleString("en")} ${n === 1 ? one : many}`;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "61 %"; "<1 %" for what is there but rounds to nothing. */
export function percent(share: number): string {
  const rounded = Math.round(share * 100);
  return share > 0 && rounded === 0 ? "<1 %" : `${rounded} %`;
}

/** "1:07" */
export function clock(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** Chord and key names with the printed accidentals: "Bb7(#9)" becomes "B♭7(♯9)". */
export function printed(symbol: string): string {
  return symbol
    .replace(/([A-G])b/g, "$1♭")
    .replace(/b(?=\d)/g, "♭")
    .replace(/#/g, "♯");
}

/** "chorus 2, bar 5, beat 2½" */
export function place(note: Pick<AccountNote, "chorus" | "bar" | "beat">): string {
  const beat = note.beat === null ? "" : `, beat ${beatText(note.beat)}`;
  return note.bar < 1
    ? `pickup to chorus ${note.chorus}${beat}`
    : `chorus ${note.chorus}, bar ${note.bar}${beat}`;
}

const PARTS: readonly (readonly [number, string])[] = [
  [0.25, "¼"],
  [0.333, "⅓"],
  [0.5, "½"],
  [0.667, "⅔"],
  [0.75, "¾"],
];

/** "2½", "3⅓"; two decimals where no usual part fits. */
export function beatText(beat: number): string {
  const whole = Math.floor(beat + 0.01);
  const rest = beat - whole;
  if (Math.abs(rest) < 0.02) return String(whole);
  const part = PARTS.find(([value]) => Math.abs(value - rest) < 0.02);
  return part ? `${whole}${part[1]}` : beat.toFixed(2);
}

/** "4 March 2026" from "2026-03-04"; the text itself when it is no date. */
export function day(date: string | null): string {
  if (!date) return "";
  const parsed = new Date(`${date.slice(0, 10)}T12:00:00Z`);
  return Number.isNaN(parsed.getTime())
    ? date
    : parsed.toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
}

/** "E♭4" for a key of the keyboard that no music names: outside an account, black keys are read as flats [practice]. */
export function bareKeyName(pitch: number): string {
  return printed(keyboardName(pitch, "flats"));
}
