/** The trade's forms as data, written in C or C minor as on a lead sheet. */
import { Problem } from "../take/index.ts";
import { parseChart } from "./chart-text.ts";
import { parseKey } from "./key.ts";
import { transposeChart } from "./transpose.ts";
import type { Chart, Idiom, Key } from "./types.ts";

export interface Form {
  /** Stable, kebab-case. */
  readonly id: string;
  readonly name: string;
  readonly bars: number;
  /** Mode of a key that does not say its own. */
  readonly mode: Key["mode"];
  readonly idiom: Idiom;
  readonly description: string;
  /** In C, or null when the form is a minor one. */
  readonly major: string | null;
  /** In C minor, or null when the form is a major one. */
  readonly minor: string | null;
}

export const FORMS: readonly Form[] = [
  {
    id: "blues-basic",
    name: "12-bar blues",
    bars: 12,
    mode: "major",
    idiom: "blues",
    description: "Four bars of I, two of IV, two of I, then V, IV and two of I",
    major: `| C7 | C7 | C7 | C7 |
            | F7 | F7 | C7 | C7 |
            | G7 | F7 | C7 | C7 |`,
    minor: null,
  },
  {
    id: "blues-quick-change",
    name: "12-bar blues with quick change",
    bars: 12,
    mode: "major",
    idiom: "blues",
    description: "To IV in the second bar, and back on V in the last",
    major: `| C7 | F7 | C7 | C7 |
            | F7 | F7 | C7 | C7 |
            | G7 | F7 | C7 | G7 |`,
    minor: null,
  },
  {
    id: "blues-two-five",
    name: "12-bar blues with II-V turnaround",
    bars: 12,
    mode: "major",
    idiom: "blues",
    description: "VI in bar 8 leads to II and V, and I VI II V lead back to the top",
    major: `| C7 | F7 | C7 | C7 |
            | F7 | F7 | C7 | A7 |
            | Dm7 | G7 | C7 A7 | Dm7 G7 |`,
    minor: null,
  },
  {
    id: "blues-minor",
    name: "12-bar minor blues",
    bars: 12,
    mode: "minor",
    idiom: "blues",
    description: "I and IV are minor; bVI leads to V",
    major: null,
    minor: `| Cm7 | Cm7 | Cm7 | Cm7 |
            | Fm7 | Fm7 | Cm7 | Cm7 |
            | Ab7 | G7 | Cm7 | Dm7b5 G7 |`,
  },
  {
    id: "blues-eight-bar",
    name: "8-bar blues",
    bars: 8,
    mode: "major",
    idiom: "blues",
    description: "V in the second bar, IV in the third",
    major: `| C7 | G7 | F7 | F7 |
            | C7 | G7 | C7 | G7 |`,
    minor: null,
  },
  {
    id: "blues-sixteen-bar",
    name: "16-bar blues",
    bars: 16,
    mode: "major",
    idiom: "blues",
    description: "The 12-bar blues with its first four bars twice",
    major: `| C7 | C7 | C7 | C7 |
            | C7 | C7 | C7 | C7 |
            | F7 | F7 | C7 | C7 |
            | G7 | F7 | C7 | C7 |`,
    minor: null,
  },
  {
    id: "aaba-dominant-bridge",
    name: "32-bar AABA with a bridge of dominants",
    bars: 32,
    mode: "major",
    idiom: "standard",
    description: "Turnarounds in the A parts; in the bridge III, VI, II and V, two bars each",
    major: `| C6 A7 | Dm7 G7 | C6 A7 | Dm7 G7 | C7 | F7 F#dim7 | C6/G A7 | Dm7 G7 |
            | C6 A7 | Dm7 G7 | C6 A7 | Dm7 G7 | C7 | F7 F#dim7 | Dm7 G7 | C6 |
            | E7 | E7 | A7 | A7 | D7 | D7 | G7 | G7 |
            | C6 A7 | Dm7 G7 | C6 A7 | Dm7 G7 | C7 | F7 F#dim7 | Dm7 G7 | C6 |`,
    minor: null,
  },
  {
    id: "two-five-one",
    name: "II-V-I",
    bars: 4,
    mode: "major",
    idiom: "standard",
    description: "II, V and two bars of I",
    major: "| Dm7 | G7 | Cmaj7 | Cmaj7 |",
    minor: null,
  },
  {
    id: "two-five-one-minor",
    name: "Minor II-V-I",
    bars: 4,
    mode: "minor",
    idiom: "standard",
    description: "Half-diminished II, V with flat ninth, and two bars of minor I",
    major: null,
    minor: "| Dm7b5 | G7(b9) | Cm6 | Cm6 |",
  },
  {
    id: "vamp-one-chord",
    name: "One-chord vamp",
    bars: 8,
    mode: "major",
    idiom: "blues",
    description: "Eight bars of I7, or of Im7 in a minor key",
    major: "|:8 C7 :|",
    minor: "|:8 Cm7 :|",
  },
  {
    id: "vamp-two-chord",
    name: "Two-chord vamp",
    bars: 8,
    mode: "major",
    idiom: "blues",
    description: "I7 and IV7 in turn, two bars each, or Im7 and IV7 in a minor key",
    major: "|: C7 | C7 | F7 | F7 :|",
    minor: "|: Cm7 | Cm7 | F7 | F7 :|",
  },
];

/**
 * A built-in form in a key. Ids and keys are forgiving of case; a key without a mode takes the form's own, so that
 * the minor blues in "C" is in C minor.
 *
 * Throws `Problem("no-such-form")`, `Problem("not-a-key")`, and `Problem("another-mode")` for a form that does not
 * exist in the key's mode.
 * @example formChart("blues-basic", "F").bars[4]?.chords[0]?.symbol // "Bb7"
 */
export function formChart(form: string, key: string): Chart {
  const wanted = form.trim().toLowerCase();
  const found = FORMS.find(({ id }) => id === wanted);
  if (found === undefined) {
    throw new Problem(
      "no-such-form",
      `"${form.slice(0, 60)}" is not a form`,
      null,
      `Choose one of: ${FORMS.map(({ id }) => id).join(", ")}.`,
    );
  }
  const asked = parseKey(key);
  const mode =
    found.minor === null ? asked.mode : asked.mode === "minor" || found.major === null ? "minor" : "major";
  const text = mode === "minor" ? found.minor : found.major;
  if (text === null) {
    throw new Problem(
      "another-mode",
      `The form "${found.id}" is in a major key`,
      null,
      `Write the key as "${asked.tonic}", or choose a minor form: ${FORMS.filter(
        ({ minor }) => minor !== null,
      )
        .map(({ id }) => id)
        .join(", ")}.`,
    );
  }
  const chart = parseChart(text, {
    name: found.name,
    key: mode === "minor" ? "Cm" : "C",
    idiom: mode === "minor" && found.major !== null ? "standard" : found.idiom,
  });
  return transposeChart(chart, { ...asked, mode });
}
