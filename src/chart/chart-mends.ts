/** What is wrong with a piece of a chart that is no chord, and the mend that fits it. */
import type { Problem } from "../take/index.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import { askForNames, namesOf } from "./note-names.ts";

interface Mend {
  readonly pattern: RegExp;
  readonly code: string;
  readonly what: string;
  readonly todo: string;
}

/** Tried in this order. */
const MENDS: readonly Mend[] = [
  {
    pattern: /^(?:\/:|:\/|\/\/:|\{|\}|\[:|:\]|:+|repeat|rpt\.?|rep\.?|bis)$/i,
    code: "repeat-sign",
    what: "is no repeat sign that can be read",
    todo: 'Write "|:" before the passage and ":|" behind it: |: C | F :|',
  },
  {
    pattern: /^[!lI\\¡\][]$/,
    code: "not-a-chord",
    what: "is no bar line and no chord",
    todo: 'Part the bars with "|".',
  },
  {
    pattern: /^[b#♭♯]?(?:VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)(?![a-zA-Z])/,
    code: "not-a-chord",
    what: "is a degree, not a chord",
    todo: "Write each chord by name: in F, IV7 is Bb7.",
  },
  {
    pattern: /^(?:x|X|tacet|-+|—|rest|silence)$/,
    code: "not-a-chord",
    what: "is no chord",
    todo: 'Write "N.C." where no chord sounds, or "%" where the bar before returns.',
  },
  {
    pattern: /^[A-G][b#♭♯]?\/$/,
    code: "not-a-chord",
    what: "has no bass behind its slash",
    todo: "Write the bass right behind the slash: C/E.",
  },
  {
    pattern: /^\p{L}[\p{Ll}'’]{3,}[.!?:]?$/u,
    code: "not-a-chord",
    what: "is a word, not a chord",
    todo: "Take words out of the bars, or put a section's name in brackets: [Bridge].",
  },
];

/** The problem with a text that should be a chord; null when only its spelling is at fault. */
export function mendFor(text: string, place: Place): Problem | null {
  const names = namesOf(text);
  if (names !== null) return askForNames(text, names, place);
  const opened = [...text].filter((letter) => letter === "(").length;
  const closed = [...text].filter((letter) => letter === ")").length;
  if (opened !== closed && text.length > 1) {
    return chartProblem(
      "not-a-chord",
      `"${text.slice(0, 40)}" is not a chord: its brackets do not match`,
      place,
      opened > closed
        ? 'Close the bracket, as in "Bb7(b9)".'
        : 'Open the bracket, as in "Bb7(b9)", or take it out.',
    );
  }
  const mend = MENDS.find(({ pattern }) => pattern.test(text));
  return mend === undefined
    ? null
    : chartProblem(mend.code, `"${text.slice(0, 40)}" ${mend.what}`, place, mend.todo);
}
