/** How the pages write what is theirs alone: dates, bare keys. */
import { keyboardName } from "../../src/pitch/index.ts";
import { withAccidentals } from "../../src/words/index.ts";

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
  return withAccidentals(keyboardName(pitch, "flats"));
}

/** The day where the browser is, not in Greenwich: "2026-03-04". */
export function localDate(at: Date): string {
  const two = (value: number) => String(value).padStart(2, "0");
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}
