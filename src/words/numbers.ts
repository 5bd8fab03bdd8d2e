/** Numbers, shares and times in English. */

const NUMBERS = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

/** Small numbers as words, others as figures. */
export function countInWords(count: number): string {
  return NUMBERS[count] ?? String(count);
}

/** "1 note", "2 notes": a number in figures with its noun. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** "three choruses", "one note", "14 bars", "1,200 notes": small numbers in words. */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${NUMBERS[n] ?? n.toLocaleString("en")} ${n === 1 ? one : many}`;
}

/** "not once", "once", "twice", "three times". */
export function timesInWords(count: number): string {
  if (count === 0) return "not once";
  if (count === 1) return "once";
  if (count === 2) return "twice";
  return `${countInWords(count)} times`;
}

/** "a third", "two thirds", "nearly all": a share as a teacher says it, with no false exactness. */
export function shareInWords(share: number): string {
  if (share >= 0.995) return "all";
  if (share >= 0.9) return "nearly all";
  if (share >= 0.78) return "four fifths";
  if (share >= 0.71) return "three quarters";
  if (share >= 0.63) return "two thirds";
  if (share >= 0.55) return "more than half";
  if (share >= 0.45) return "about half";
  if (share >= 0.37) return "two fifths";
  if (share >= 0.29) return "about a third";
  if (share >= 0.22) return "a quarter";
  if (share >= 0.17) return "about a fifth";
  if (share >= 0.08) return "about a tenth";
  if (share > 0) return "very little";
  return "none";
}

/** "61 %"; "<1 %" for what is there but rounds to nothing. */
export function percent(share: number): string {
  const rounded = Math.round(share * 100);
  return share > 0 && rounded === 0 ? "<1 %" : `${rounded} %`;
}

/** "1:07": minutes and seconds of a length in seconds. */
export function clock(seconds: number): string {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** "♩ = 132": a tempo in quarter notes a minute, as it stands over a score. */
export function tempoMark(quartersPerMinute: number): string {
  return `♩ = ${Math.round(quartersPerMinute)}`;
}

/** Units of the numbers that are followed from take to take. */
type FollowedUnit = "share" | "ratio" | "count" | "semitones" | "notes a bar";

/** "41 %", "7 semitones": a followed number with its unit. */
export function followedInWords(value: number, unit: FollowedUnit): string {
  switch (unit) {
    case "share":
    case "ratio":
      return percent(value);
    case "count":
      return value.toFixed(0);
    case "semitones":
      return `${value.toFixed(0)} semitones`;
    case "notes a bar":
      return `${value.toFixed(1)} notes a bar`;
  }
}
