/** What the labels of a distribution are called where one speaks of many notes that have them. */
import { type Degree, degreeName } from "../chart/index.ts";

/** Names of roles for several notes; what is missing stands as it is written. */
const PLURALS: Readonly<Record<string, string>> = {
  root: "roots",
  third: "thirds",
  fifth: "fifths",
  seventh: "sevenths",
  tension: "tensions",
  blue: "blue notes",
  avoid: "avoid notes",
  outside: "notes outside the chord",
  anticipation: "anticipations",
  suspension: "suspensions",
  enclosure: "enclosures",
  approach: "approach notes",
  passing: "passing notes",
  neighbour: "neighbour notes",
  appoggiatura: "appoggiaturas",
  escape: "escape notes",
  "chord tone": "chord tones",
  "held colour": "held colours",
  free: "free notes",
};

/**
 * The label of a distribution as a musician says it of many notes.
 *
 * @param distribution id of the distribution
 * @example labelWords("roles", "blue") // "blue notes"
 * @example labelWords("degrees", "b3") // "minor thirds"
 */
export function labelWords(distribution: string, label: string): string {
  if (distribution === "degrees") return `${degreeName(label as Degree) ?? label}s`;
  return distribution === "placements" ? label : (PLURALS[label] ?? label);
}
