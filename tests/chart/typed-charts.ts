/**
 * Chart texts as people type and paste them, each with the bars that a musician reads in it, or with the refusal and
 * the mend that fit. All of it is common practice [practice]; no text is anyone's tune: they are blues, rhythm
 * changes, turnarounds and made-up rows of chords.
 *
 * `bars` are in the house style, parted by "|" (`:N` beats where a bar is not shared evenly). `asks` is the code of
 * a warning that must be there, because the text could mean something else; a text without `asks` says what it says.
 */
export interface TypedChart {
  readonly text: string;
  readonly bars?: string;
  readonly asks?: string;
  readonly refused?: string;
  readonly mend?: RegExp;
  readonly meter?: string;
  readonly key?: string;
  readonly name?: string;
}

const BLUES = "F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | C7";
const BLUES_LINES = ["F7 Bb7 F7 F7", "Bb7 Bb7 F7 F7", "C7 Bb7 F7 C7"];
const TURN = "C | Am7 | Dm7 | G7";
export const twice = (bars: string) => `${bars} | ${bars}`;
export const read = (text: string, bars: string, more: Partial<TypedChart> = {}): TypedChart => ({
  text,
  bars,
  ...more,
});
export const ask = (
  text: string,
  asks: string,
  bars: string,
  more: Partial<TypedChart> = {},
): TypedChart => ({
  text,
  bars,
  asks,
  ...more,
});
export const no = (text: string, refused: string, mend: RegExp): TypedChart => ({ text, refused, mend });

/** Without bar lines a line can be a bar or a row of bars. */
const UNBARRED: readonly TypedChart[] = [
  ask(BLUES_LINES.join("\n"), "bars-understood", BLUES),
  ask(BLUES_LINES.join("\n").replaceAll(" ", "\t"), "bars-understood", BLUES),
  ask(BLUES_LINES.join("\n").replaceAll(" ", ", "), "bars-understood", BLUES),
  ask(BLUES_LINES.join("\n").replaceAll(" ", ","), "bars-understood", BLUES),
  ask(BLUES_LINES.join("\n").replaceAll(" ", "   "), "bars-understood", BLUES),
  ask(BLUES_LINES.join("\n\n"), "bars-understood", BLUES),
  ask(BLUES_LINES.join(" "), "bars-understood", BLUES),
  ask(`key: F\n${BLUES_LINES.join("\n")}\n`, "bars-understood", BLUES, { key: "F" }),
  ask("F7 Bb7 F7 F7\nBb7 % F7 %\nC7 Bb7 F7 C7", "bars-understood", BLUES),
  ask("C Am7 Dm7 G7", "bars-understood", TURN),
  ask("C; Am7; Dm7; G7", "bars-understood", TURN),
  ask("Dm7 G7, C, Dm7 G7, C", "bars-understood", "Dm7 G7 | C | Dm7 G7 | C"),
  ask("Dm7 G7\tC\tDm7 G7\tC", "bars-understood", "Dm7 G7 | C | Dm7 G7 | C"),
  read("C\nAm7\nDm7\nG7", TURN),
  ask("Dm7 G7\nC\nDm7 G7\nC", "bars-understood", "Dm7 G7 | C | Dm7 G7 | C"),
  ask(
    "C A7\nDm7 G7\nEm7 A7\nDm7\nFm7 Bb7\nC\nDm7 G7\nC",
    "bars-understood",
    "C A7 | Dm7 G7 | Em7 A7 | Dm7 | Fm7 Bb7 | C | Dm7 G7 | C",
  ),
  no("F7 Bb7 F7 F7\nBb7 Bb7 F7 D7\nGm7 C7 F7 D7 Gm7 C7", "bars-unclear", /\|/),
  no("C Am7 Dm7 G7 C\nF G\nAm7 D7 G", "bars-unclear", /\|/),
  no("C - Am7 - Dm7 - G7", "bars-unclear", /\|/),
  no("Dm7 G7 C", "bars-unclear", /\|/),
  ask("F7 / / / Bb7 / / / F7 / / / Cm7 / F7 /", "bars-understood", "F7 | Bb7 | F7 | Cm7 F7"),
  ask("| C | Am7 | Dm7 | G7 |\nC Am7 Dm7 G7", "bars-understood", twice(TURN)),
  no("| C | Am7 | Dm7 | G7 |\nC Am7 Dm7", "bars-unclear", /\|/),
  ask(
    "| F7 Bb7 F7 F7 |\n| Bb7 Bb7 F7 F7 |\n| C7 Bb7 F7 C7 |",
    "crowded-bars",
    "F7 Bb7 F7 F7 | Bb7 Bb7 F7 F7 | C7 Bb7 F7 C7",
  ),
];

/** Names of sections, titles and other lines of words. */
const WORDS: readonly TypedChart[] = [
  ask("A\n| C | Am7 | Dm7 | G7 |", "section-letter", TURN),
  ask("| C | Am7 |\nB\n| Dm7 | G7 |", "section-letter", TURN),
  read("A:\n| C | Am7 | Dm7 | G7 |", TURN),
  read("A: | C | Am7 | Dm7 | G7 |", TURN),
  read("[A] | C | Am7 |\n[B] | Dm7 | G7 |", TURN),
  read("[A]\nC | Am7\n[B]\nDm7 | G7", TURN),
  read("[Verse]\n| C | Am7 |\n[Chorus]\n| Dm7 | G7 |", TURN),
  read("Verse:\n| C | Am7 |\nChorus:\n| Dm7 | G7 |", TURN),
  read("Intro: | C | Am7 |\nSolo: | Dm7 | G7 |", TURN),
  read("(A)\n| C | Am7 |\n(B)\n| Dm7 | G7 |", TURN),
  read("A) | C | Am7 |\nB) | Dm7 | G7 |", TURN),
  read("Bridge\n| C | Am7 | Dm7 | G7 |", TURN),
  read("[A1] | C | Am7 | [A2] | Dm7 | G7 |", TURN),
  read("A section:\n| C | Am7 |\nB section:\n| Dm7 | G7 |", TURN),
  read("Part A\n| C | Am7 | Dm7 | G7 |", TURN),
  read("H\n| C | Am7 | Dm7 | G7 |", TURN),
  read("Slow Blues\n| F7 | Bb7 |", "F7 | Bb7", { name: "Slow Blues" }),
  read("Blues for the first lesson\n\n| F7 | Bb7 |", "F7 | Bb7", { name: "Blues for the first lesson" }),
  read("Title: Slow Blues\n| F7 | Bb7 |", "F7 | Bb7", { name: "Slow Blues" }),
  ask("Slow Blues\nMedium swing\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7", { name: "Slow Blues" }),
  ask("tempo: 120\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7"),
  ask("Tempo 120\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7"),
  ask("♩ = 120\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7"),
  ask("q=132\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7"),
  ask("120 bpm\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7"),
  ask("Medium swing (120)\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7"),
  ask("Style: swing\n| F7 | Bb7 |", "line-left-out", "F7 | Bb7"),
  read("Key of Bb\n| F7 | Bb7 |", "F7 | Bb7", { key: "Bb" }),
  read("Key: Bb major\n| F7 | Bb7 |", "F7 | Bb7", { key: "Bb" }),
  read("KEY = F\n| F7 | Bb7 |", "F7 | Bb7", { key: "F" }),
  no("kye: F\n| F7 | Bb7 |", "unknown-heading", /key/),
  no("Capo: 2\n| F7 | Bb7 |", "unknown-heading", /sound/),
  no("| F7 | Bb7 |\nwhen the night comes down\n| F7 | C7 |", "words-in-chart", /words/i),
  no("| F7 | hello | Bb7 |", "not-a-chord", /./),
  no("| C | Am7 |\nForm: AABA", "unknown-heading", /in the order/i),
  read("```\n| C | Am7 | Dm7 | G7 |\n```", TURN),
  read("| C | Am7 | Dm7 | G7 |\n|---|---|---|---|", TURN),
  read("1 | C | Am7 |\n3 | Dm7 | G7 |", TURN),
  read("1: | C | Am7 |\n3: | Dm7 | G7 |", TURN),
  ask("// first try\n| C | Am7 | Dm7 | G7 |", "line-left-out", TURN),
];

/** Bars that say "the same again", in full or in part. */
const SAME_AGAIN: readonly TypedChart[] = [
  read("| F7 / / / | Bb7 / / / |", "F7 | Bb7"),
  read("| Cm7 / F7 / | Bb7 / / / |", "Cm7 F7 | Bb7"),
  read("| F7 / / Bb7 | C7 |", "F7:3 Bb7:1 | C7"),
  read("3/4\n| C / / | F / G7 |", "C | F:2 G7:1", { meter: "3/4" }),
  read("| F7/// | Bb7 /// |", "F7 | Bb7"),
  read("| F7 | / / / / | Bb7 |", "F7 | F7 | Bb7"),
  read("| F7 . . . | Bb7 . C7 . |", "F7 | Bb7 C7"),
  read("| F7 - - - | Bb7 - C7 - |", "F7 | Bb7 C7"),
  read("| F7 | - | Bb7 | - |", "F7 | F7 | Bb7 | Bb7"),
  read("| F7 | /. | Bb7 | ./. |", "F7 | F7 | Bb7 | Bb7"),
  read("| Dm7 G7 | sim. | C | simile |", "Dm7 G7 | Dm7 G7 | C | C"),
  read("| Dm7 G7 | % | C | % |", "Dm7 G7 | Dm7 G7 | C | C"),
  read('| Dm7 G7 | " | C | 〃 |', "Dm7 G7 | Dm7 G7 | C | C"),
  read("| Dm7 | G7 | %% | C |", "Dm7 | G7 | Dm7 | G7 | C"),
  ask("| Dm7 G7 | - | C |", "held-chord", "Dm7 G7 | G7 | C"),
  ask("| F7 |  | Bb7 | |", "empty-bar", "F7 | F7 | Bb7 | Bb7"),
  ask("|F7| |Bb7| |", "empty-bar", "F7 | F7 | Bb7 | Bb7"),
  no("|  | F7 |", "empty-bar", /chord/),
  no("| F7 / / | Bb7 |", "beats-do-not-fit", /4/),
  no("| C / E | F |", "beats-do-not-fit", /C\/E/),
  no("| % | F7 |", "nothing-to-repeat", /first bar/),
  no("| / / / / | F7 |", "nothing-to-repeat", /first bar/),
  read("| N.C. | F7 |", "N.C. | F7"),
  read("| NC | F7 N.C. |", "N.C. | F7 N.C."),
];

/** Repeats, endings and jumps. */
const ROADS: readonly TypedChart[] = [
  read("|: C | Am7 :|", twice("C | Am7")),
  read("||: C | Am7 :||", twice("C | Am7")),
  read("𝄆 C | Am7 𝄇", twice("C | Am7")),
  read("|: C | Am7 :| x3", `${twice("C | Am7")} | C | Am7`),
  read("|: C | Am7 :| 3x", `${twice("C | Am7")} | C | Am7`),
  read("|: C | Am7 :| (x3)", `${twice("C | Am7")} | C | Am7`),
  read("|: C | Am7 :|x3", `${twice("C | Am7")} | C | Am7`),
  read("|: C | Am7 :| ×3", `${twice("C | Am7")} | C | Am7`),
  read("|: C | Am7 :| play 3 times", `${twice("C | Am7")} | C | Am7`),
  read("|: C | Am7 :| (3 times)", `${twice("C | Am7")} | C | Am7`),
  read("| C | Am7 | x2\n| Dm7 | G7 |", "C | Am7 | C | Am7 | Dm7 | G7"),
  read("| C | Am7 | (x2)\n| Dm7 | G7 |", "C | Am7 | C | Am7 | Dm7 | G7"),
  ask("C Am7 Dm7 G7 x2", "bars-understood", twice(TURN)),
  read("|: C | Am7 |1 Dm7 :|2 G7 |", "C | Am7 | Dm7 | C | Am7 | G7"),
  read("|: C | Am7 |1. Dm7 :|2. G7 ||", "C | Am7 | Dm7 | C | Am7 | G7"),
  read("|: C | Am7 | [1. Dm7 :| [2. G7 ||", "C | Am7 | Dm7 | C | Am7 | G7"),
  read("|: C | Am7 | [1.] Dm7 :| [2.] G7 |", "C | Am7 | Dm7 | C | Am7 | G7"),
  read("|: C | Am7 |\n1. Dm7 :|\n2. G7 |", "C | Am7 | Dm7 | C | Am7 | G7"),
  read("|: C | Am7 | 1st ending Dm7 :| 2nd ending G7 |", "C | Am7 | Dm7 | C | Am7 | G7"),
  read("|: C |1,2 Am7 :|3 G7 |", "C | Am7 | C | Am7 | C | G7"),
  read("|: C |1-2. Am7 :|3. G7 |", "C | Am7 | C | Am7 | C | G7"),
  read("C | F | Fine\nG7 | Am7 | D.C. al Fine", "C | F | G7 | Am7 | C | F"),
  read("| C | F (Fine) | G7 | Am7 | D.C. al Fine", "C | F | G7 | Am7 | C | F"),
  read("| C | F |\nFine\n| G7 | Am7 |\nDC al fine", "C | F | G7 | Am7 | C | F"),
  read("| C | F | D.C.", "C | F | C | F"),
  read("| C | Segno Am7 | To Coda | Dm7 | D.S. al Coda | Coda G7 |", "C | Am7 | Dm7 | Am7 | G7"),
  read("| C | 𝄋 Am7 | Dm7 𝄌 | G7 | D.S. al Coda\n𝄌 | F | C |", "C | Am7 | Dm7 | G7 | Am7 | Dm7 | F | C"),
  ask(
    "[A] |: C | Am7 :|\n[B] | F | G7 |\nD.C. al Fine",
    "no-fine",
    "C | Am7 | C | Am7 | F | G7 | C | Am7 | F | G7",
  ),
  no("|: C | Am7", "repeat-sign", /:\|/),
  no("|: C |: Am7 :|", "repeat-sign", /Close/),
  no("|: C | Am7 :| x99", "repeat-sign", /1 to 32/),
  no("| C | Am7 | D.S. al Coda", "repeat-sign", /Segno/),
  no("| C | Am7 x2 | F |", "repeat-sign", /bar line/),
  no("/: C | Am7 :/", "repeat-sign", /\|:/),
  no("| C | Am7 | repeat", "repeat-sign", /\|:/),
  no("{ C | Am7 }", "repeat-sign", /\|:/),
];

/** Meters and the glyphs of bar lines. */
const LINES_AND_METERS: readonly TypedChart[] = [
  read("3/4 | C | Am7 | Dm7 | G7 |", TURN, { meter: "3/4" }),
  read("| 3/4 C | Am7 | Dm7 | G7 |", TURN, { meter: "3/4" }),
  read("[3/4] C | Am7 | Dm7 | G7 |", TURN, { meter: "3/4" }),
  read("(3/4)\nC | Am7 | Dm7 | G7 |", TURN, { meter: "3/4" }),
  read("6/8\n| C | Am7 | Dm7 | G7 |", TURN, { meter: "6/8" }),
  read("Time: 3/4\n| C | Am7 | Dm7 | G7 |", TURN, { meter: "3/4" }),
  read("Time signature: 5/4\n| C | Am7 | Dm7 | G7 |", TURN, { meter: "5/4" }),
  no("4/4 | C | Am7 | 2/4 Dm7 | G7 |", "not-a-meter", /one meter/),
  read("| C | Am7 | Dm7 | G7 ||", TURN),
  read("| C | Am7 | Dm7 | G7 |]", TURN),
  read("[| C | Am7 | Dm7 | G7 |]", TURN),
  read("| C | Am7 | Dm7 | G7 |||", TURN),
  read("| C | Am7 | Dm7 | G7 ‖", TURN),
  read("𝄀 C 𝄀 Am7 𝄀 Dm7 𝄀 G7 𝄂", TURN),
  read("│ C │ Am7 │ Dm7 │ G7 │", TURN),
  read("¦ C ¦ Am7 ¦ Dm7 ¦ G7 ¦", TURN),
  read("｜C｜Am7｜Dm7｜G7｜", TURN),
  read("|C|Am7|Dm7|G7|", TURN),
  read("\ufeff| C | Am7 |\u00a0Dm7\u00a0|\u200b G7 |", TURN),
];

/** Ways of writing a chord that a chart makes clear. */
const CHORDS: readonly TypedChart[] = [
  read("| C /E | F | Am /G | G7 |", "C/E | F | Am/G | G7"),
  ask("| c | am7 | dm7 | g7 |", "lower-case-roots", TURN),
  ask("am7 | dm7 | g7 | cmaj7", "lower-case-roots", "Am7 | Dm7 | G7 | Cmaj7"),
  ask("| C | am7 | dm7 | G7 |", "lower-case-roots", TURN),
  ask("bbmaj7 | ebm7 | f#m7b5 | ab7", "lower-case-roots", "Bbmaj7 | Ebm7 | F#m7b5 | Ab7"),
  no("| C | a | d | G |", "not-a-chord", /Am.*A/),
  ask("| C (A7) | Dm7 (G7) |", "optional-chords", "C A7 | Dm7 G7"),
  ask("| C | (Dm7 G7) |", "optional-chords", "C | Dm7 G7"),
  read("| Eb maj7 | C min7 | F 7 | Bb |", "Ebmaj7 | Cm7 | F7 | Bb"),
  read("| F⁷ | Cmaj⁷ | B♭7 | C♯º7 |", "F7 | Cmaj7 | Bb7 | C#dim7"),
  read("| Cm(MA7) | CMI7 | C7alt. | Cdim. |", "Cm(maj7) | Cm7 | C7alt | Cdim"),
  read("| Dm7, G7 | C |", "Dm7 G7 | C"),
  ask("| C6 | Do7 | Dm7 | G7 |", "o-in-a-name", "C6 | Ddim7 | Dm7 | G7"),
  no("| Do7 |", "note-names", /solfege/),
  no("| Do | Lam7 | Rem7 | Sol7 |", "note-names", /solfege/),
  no("Do Lam Rem Sol7", "note-names", /solfege/),
  read("names: solfege\n| Do | Lam7 | Rem7 | Sol7 |", TURN),
  read("names: solfege\n| DO | LA-7 | RÉm7 | SOL7/SI |", "C | Am7 | Dm7 | G7/B"),
  read("names: solfege\nkey: Fa\n| Fa7 | Sib7 | Fa#m7b5 | Mibmaj7 |", "F7 | Bb7 | F#m7b5 | Ebmaj7", {
    key: "F",
  }),
  no("| H7 | E | A | H7 |", "note-names", /german/),
  no("| E | Hm7 | B | F |", "note-names", /german/),
  read("names: german\n| H7 | E | A | H7 |", "B7 | E | A | B7"),
  read("names: german\nkey: B\n| B7 | Es7 | B7 | F7/A |", "Bb7 | Eb7 | Bb7 | F7/A", { key: "Bb" }),
  read("names: german\n| Fism7 | Cis7 | As7 | Esus4 |", "F#m7 | C#7 | Ab7 | Esus4"),
  read("names: solfege\n| Do | N.C. |", "C | N.C."),
  no("names: numbers\n| C |", "unknown-heading", /german|solfege/),
  no("| I7 | IV7 | V7 |", "not-a-chord", /by name/),
  no("| C | X | G |", "not-a-chord", /N\.C\./),
  no("| C | Bb7(b9 | G |", "not-a-chord", /bracket/),
  no("| C ! Am7 ! Dm7 ! G7", "not-a-chord", /\|/),
  no("", "empty-chart", /bar lines/),
  no("Slow Blues in F", "empty-chart", /bar lines/),
];

export const TYPED_CHARTS: readonly TypedChart[] = [
  ...UNBARRED,
  ...WORDS,
  ...SAME_AGAIN,
  ...ROADS,
  ...LINES_AND_METERS,
  ...CHORDS,
];
