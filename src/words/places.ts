/** Places of a solo in English: choruses, bars and beats. */
import { listInWords } from "./lists.ts";
import { counted } from "./numbers.ts";

/** Where a note is: bar 0 and below is the pickup. */
export interface BarPlace {
  readonly chorus: number;
  readonly bar: number;
}

/**
 * "bars 2 and 5 of chorus 1, bar 7 of chorus 2": where a few notes are, each bar once, at most `most` of them, with
 * "among others" for the rest. Choruses are named only when the take has several.
 */
export function placesInWords(notes: readonly BarPlace[], choruses: number, most = 3): string {
  const told = examplesInWords(notes, choruses, most);
  return placesOf(notes).length > most ? `${told}, among others` : told;
}

/** The same for a sentence that gives examples anyway ("as in"): nothing is said of the rest. */
export function examplesInWords(notes: readonly BarPlace[], choruses: number, most = 3): string {
  const byChorus = new Map<number, number[]>();
  for (const { chorus, bar } of placesOf(notes).slice(0, most)) {
    byChorus.set(chorus, [...(byChorus.get(chorus) ?? []), bar]);
  }
  const parts = [...byChorus].map(([chorus, list]) => {
    const bars = list.filter((bar) => bar > 0).map(String);
    const ofChorus = choruses > 1 ? ` of chorus ${chorus}` : "";
    const named =
      bars.length === 0 ? [] : [`${bars.length > 1 ? "bars" : "bar"} ${listInWords(bars)}${ofChorus}`];
    return listInWords(list.includes(0) ? ["the pickup", ...named] : named);
  });
  return parts.length === 2 ? parts.join(", ") : listInWords(parts);
}

/** Each bar once, the pickup as bar 0. */
function placesOf(notes: readonly BarPlace[]): BarPlace[] {
  const places = new Map<string, BarPlace>();
  for (const note of notes) {
    const bar = Math.max(0, note.bar);
    places.set(`${note.chorus}:${bar}`, { chorus: note.chorus, bar });
  }
  return [...places.values()];
}

/** "bar 5", "bars 5, 6 and 9": bars by number or by name, at most `most` of them, the rest counted. */
export function barsInWords(names: readonly (number | string)[], most = 12): string {
  const told = names.map(String);
  if (told.length === 1) return `bar ${told[0]}`;
  if (told.length > most)
    return `bars ${told.slice(0, most).join(", ")} and ${counted(told.length - most, "other")}`;
  return `bars ${listInWords(told)}`;
}

/** "chorus 2, bar 5, beat 2½" */
export function placeInWords(place: BarPlace & { readonly beat: number | null }): string {
  const beat = place.beat === null ? "" : `, beat ${beatInFigures(place.beat)}`;
  return place.bar < 1
    ? `pickup to chorus ${place.chorus}${beat}`
    : `chorus ${place.chorus}, bar ${place.bar}${beat}`;
}

const PARTS: readonly (readonly [number, string])[] = [
  [0.25, "¼"],
  [0.333, "⅓"],
  [0.5, "½"],
  [0.667, "⅔"],
  [0.75, "¾"],
];

/** "2½", "3⅓", "½"; two decimals where no usual part fits. */
export function beatInFigures(beat: number): string {
  const whole = Math.floor(beat + 0.01);
  const rest = beat - whole;
  if (Math.abs(rest) < 0.02) return String(whole);
  const part = PARTS.find(([value]) => Math.abs(value - rest) < 0.02);
  return part ? `${whole === 0 ? "" : whole}${part[1]}` : beat.toFixed(2);
}
