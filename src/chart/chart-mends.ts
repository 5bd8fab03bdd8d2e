/** What is wrong with a piece of a chart that is no chord, and the mend that fits it. */
import type { Problem } from "../take/index.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import { askForNames, isChord, namesOf } from "./note-names.ts";

interface Mend {
  readonly pattern: RegExp;
  readonly code: string;
  readonly what: string;
  readonly todo: string | ((text: string) => string);
}

const PART_THE_BARS = 'Part the bars with "|".';

/** Tried in this order. */
const MENDS: readonly Mend[] = [
  {
    pattern: /^(?:(?:\/:|:\/|\/\/:|\{|\}|\[:|:\]|:+)$|\(?(?:repeat(?:ed|s)?|rpt|rep|bis)(?![a-z]).*$)/i,
    code: "repeat-sign",
    what: "is no repeat sign that can be read",
    todo: 'Write "|:" before the passage and ":|" behind it, with the number of times in all: |: C | F :| x3',
  },
  {
    pattern: /^I$/,
    code: "not-a-chord",
    what: "is no bar line and no chord",
    todo: `${PART_THE_BARS} Write each chord by name, not by its degree: in F, IV7 is Bb7.`,
  },
  {
    pattern: /^(?:same|idem|dto\.?|again)$/i,
    code: "not-a-chord",
    what: "is a word, not a chord",
    todo: 'Write "%" where the bar before returns, "%%" where the two before it do.',
  },
  {
    pattern: /^(?:on|over|sur|über)$/,
    code: "not-a-chord",
    what: "is a word, not a chord",
    todo: "Write the bass right behind a slash: C/E.",
  },
  {
    pattern: /^[!l\\¡\][]$/,
    code: "not-a-chord",
    what: "is no bar line and no chord",
    todo: PART_THE_BARS,
  },
  {
    pattern: /^(?:→|⇒|>+|[=-]+>|»|<[=-]+|←|⇐)$/,
    code: "not-a-chord",
    what: "is no bar line and no chord",
    todo: PART_THE_BARS,
  },
  {
    pattern: /^(?!0$)\(?\d{1,3}[.):]?\)?$/,
    code: "not-a-chord",
    what: "is a number among the chords",
    todo: 'Part the bars with "|"; beats stand right behind a colon: Dm7:2.',
  },
  {
    pattern: /^[A-G][^()]*\(\d\)$/,
    code: "not-a-chord",
    what: "has a number in brackets that is no part of a chord",
    todo: (text) => `Write beats right behind a colon: ${text.replace(/\((\d)\)$/, ":$1")}.`,
  },
  {
    pattern: /^[A-G][^\s(]*(?:[-–—_+&/]|->)[A-G]/,
    code: "not-a-chord",
    what: "is more than one chord",
    todo: (text) =>
      `Part chords of one bar with a space, and bars with "|": ${text.split(/(?:->|[-–—_+&/])(?=[A-G])/).join(" ")}`,
  },
  {
    pattern: /^\((?!tacet\b).*\p{L}{3}.*\)$/u,
    code: "not-a-chord",
    what: "is a remark, not a chord",
    todo: "Take remarks out of the chart; beats stand right behind a colon: Dm7:2.",
  },
  {
    pattern: /^[A-D]{3,}$/,
    code: "not-a-chord",
    what: "is an order of sections, not a chord",
    todo: "Write the sections out in the order in which they are played.",
  },
  {
    pattern: /^bass$/,
    code: "not-a-chord",
    what: "is a word for a bass",
    todo: "Write the bass right behind a slash: C/E.",
  },
  {
    pattern: /^half(?:-?dim.*)?$/i,
    code: "not-a-chord",
    what: "is the word for a kind of chord",
    todo: "Write the kind right behind the root: Cm7b5.",
  },
  {
    pattern: /^(?:flat|sharp)s?$/i,
    code: "not-a-chord",
    what: "is the word for a sign",
    todo: "Write b for flat and # for sharp right behind the letter: Bb7, F#m7b5.",
  },
  {
    pattern: /^[b#♭♯]?(?:VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)(?![a-zA-Z])/,
    code: "not-a-chord",
    what: "is a degree, not a chord",
    todo: "Write each chord by name: in F, IV7 is Bb7.",
  },
  {
    pattern: /^(?:or|oder|ou|o)$|^\(or\s/,
    code: "not-a-chord",
    what: "names a chord to choose from",
    todo: "Write the one chord that is played.",
  },
  {
    pattern: /^\([^()]*\p{L}{2,}[^()]*\s[^()]*\)$/u,
    code: "not-a-chord",
    what: "is a remark, not a chord",
    todo: "Take remarks out of the chart.",
  },
  {
    pattern: /^[A-G][^\s(]*?(?:-{2,}|\.{2,}|_+)/,
    code: "not-a-chord",
    what: "has strokes or dots grown to it",
    todo: 'Write a stroke for each beat on which a chord goes on, with spaces: "C / / /".',
  },
  {
    pattern: /^(?:[A-G]\S*x\d{1,2}|\d{1,2}x[A-G]\S*)$/i,
    code: "not-a-chord",
    what: "gives a number to a chord",
    todo: 'Write "%" for each further bar on which it goes on: G7 | % | % | %',
  },
  {
    pattern: /^(?:[’‘`´_=~^<>«»]+|''+)$/,
    code: "not-a-chord",
    what: "is no sign that a chart has",
    todo: 'Write "%" where the bar before returns, and "|" between the bars.',
  },
  {
    pattern: /^(?:m|mm|bars?)\.?\s?\d{1,3}$/i,
    code: "not-a-chord",
    what: "is the number of a bar, not a chord",
    todo: "Take the numbers of bars out, or write each bar on a line of its own: Bar 1: F7.",
  },
  {
    pattern: /^(?:x|X|0|'|tacet|break|-+|—|rest|silence)$/,
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
  if (/^\((?!rep|rpt|bis|tacet\b)\p{Ll}{3}/u.test(text)) {
    return chartProblem(
      "not-a-chord",
      `"${text.slice(0, 40)}" begins a remark`,
      place,
      "Take remarks out of the chart.",
    );
  }
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
  const bare = text.slice(0, 80).replace(/^[<'"`*_]+|[>'"`*_?!]+$/g, "");
  if (bare !== text && isChord(bare)) {
    return chartProblem(
      "not-a-chord",
      `"${text.slice(0, 40)}" is a chord among signs that are none of it`,
      place,
      `Take the signs out: ${bare}.`,
    );
  }
  const mend = MENDS.find(({ pattern }) => pattern.test(text));
  return mend === undefined
    ? null
    : chartProblem(
        mend.code,
        `"${text.slice(0, 40)}" ${mend.what}`,
        place,
        typeof mend.todo === "string" ? mend.todo : mend.todo(text.slice(0, 80)),
      );
}
