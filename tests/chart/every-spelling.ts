/**
 * Writes the qualities of the trade in every usual way, each with the notes that it means: semitones above the root.
 *
 * The meanings are those of the chord-symbol handbooks (Brandt & Roemer, Standardized Chord Symbol Notation, 1976
 * [memory]); a thirteenth has no eleventh over a major third and a dominant eleventh no third (Levine, The Jazz Piano
 * Book, 1989 [memory]). How they are written is use [practice]: case and full stops never matter beyond M and m.
 */

export interface WrittenChord {
  /** Without its root. */
  readonly written: string;
  /** Semitones above the root, 0 to 11, rising: "0 4 7 10". */
  readonly tones: string;
}

const MAJOR = ["maj", "Maj", "MAJ", "ma", "Ma", "MA", "M", "maj.", "Ma.", "Δ", "△", "∆", "^", "major"];
const MINOR = ["m", "min", "Min", "MIN", "mi", "Mi", "MI", "-", "−", "–", "min.", "mi.", "m.", "minor"];
const DIMINISHED = ["dim", "Dim", "DIM", "dim.", "o", "°", "º", "diminished"];
const AUGMENTED = ["aug", "Aug", "AUG", "aug.", "+", "augmented"];
const HALF = ["ø", "Ø", "∅", "halfdim", "half-dim"];
const SUS = ["sus", "Sus", "SUS", "sus4", "SUS4", "sus.", "(sus4)", "(sus)", " sus4"];
const ADD = ["add", "Add", "ADD", "add "];
const ALTERED = ["alt", "Alt", "ALT", "alt.", "(alt)", "altered", " alt"];
const SEVENTH_ON_MINOR = ["maj7", "Maj7", "MAJ7", "MA7", "ma7", "M7", "Δ7", "Δ", "^7", "maj.7"];

const DEGREES: Readonly<Record<string, number>> = {
  b9: 1,
  "9": 2,
  "#9": 3,
  "11": 5,
  "#11": 6,
  b5: 6,
  "#5": 8,
  b13: 8,
  "13": 9,
};

/** Alterations of a dominant seventh as they come together on charts. */
const ALTERATIONS: readonly (readonly string[])[] = [
  ["b9"],
  ["#9"],
  ["#11"],
  ["b13"],
  ["b5"],
  ["#5"],
  ["b9", "#11"],
  ["b9", "b13"],
  ["#9", "b13"],
  ["#9", "#11"],
  ["b9", "b5"],
  ["#5", "#9"],
  ["#5", "b9"],
  ["b9", "#9"],
  ["b5", "#9"],
  ["b9", "#9", "#11"],
  ["#11", "b13"],
  ["b5", "b13"],
];

const tonesOf = (...semitones: readonly number[]) =>
  [...new Set([0, ...semitones])].sort((a, b) => a - b).join(" ");
const all = (heads: readonly string[], tail: string, ...semitones: readonly number[]): WrittenChord[] =>
  heads.map((head) => ({ written: head + tail, tones: tonesOf(...semitones) }));

/** One set of alterations in every way of writing it behind a number. */
function alterationsWritten(names: readonly string[]): string[] {
  const glyphs = names.map((name) => name.replace("b", "♭").replace("#", "♯"));
  const signs = names.map((name) => name.replace("b", "-").replace("#", "+"));
  const backwards = [...names].reverse();
  return [
    names.join(""),
    `(${names.join("")})`,
    `(${names.join(",")})`,
    `(${names.join(", ")})`,
    `(${names.join(" ")})`,
    names.map((name) => `(${name})`).join(""),
    ` ${names.join(" ")}`,
    ` (${names.join(",")})`,
    names.join("/"),
    glyphs.join(""),
    `(${glyphs.join(",")})`,
    signs.join(""),
    `(${signs.join(",")})`,
    backwards.join(""),
    `(${backwards.join(",")})`,
  ];
}

function altered(head: string, names: readonly string[], basic: readonly number[]): WrittenChord[] {
  const fifths = names.filter((name) => /5$/.test(name));
  const kept = fifths.length > 0 ? basic.filter((tone) => tone !== 7) : basic;
  // An altered degree takes the place of the natural one that the number brings along.
  const left = kept.filter((tone) => !(tone === 2 && names.some((name) => /^[b#]9/.test(name))));
  const tones = tonesOf(...left, ...names.map((name) => DEGREES[name]!));
  return alterationsWritten(names).map((written) => ({ written: head + written, tones }));
}

/** Minor triads, sixths, sevenths and what is added to them. */
function everyMinor(): WrittenChord[] {
  return [
    ...all(MINOR, "", 3, 7),
    ...["6", "(6)", "(add6)"].flatMap((tail) => all(MINOR, tail, 3, 7, 9)),
    ...["69", "6/9", "6(9)", "6add9"].flatMap((tail) => all(MINOR, tail, 3, 7, 9, 2)),
    ...all(MINOR, "7", 3, 7, 10),
    ...["9", "7(9)", "7/9", "7add9"].flatMap((tail) => all(MINOR, tail, 3, 7, 10, 2)),
    ...["11", "9(11)", "7(9,11)"].flatMap((tail) => all(MINOR, tail, 3, 7, 10, 2, 5)),
    ...["13", "11(13)"].flatMap((tail) => all(MINOR, tail, 3, 7, 10, 2, 5, 9)),
    ...SEVENTH_ON_MINOR.flatMap((seventh) => all(MINOR, `(${seventh})`, 3, 7, 11)),
    ...["maj7", "Maj7", "MA7", "ma7", "M7", "Δ7"].flatMap((seventh) => all(MINOR, seventh, 3, 7, 11)),
    ...["(maj9)", "(MA9)", "M9", "Δ9"].flatMap((tail) => all(MINOR, tail, 3, 7, 11, 2)),
    ...["7b5", "7(b5)", "7♭5", "7-5", "7 b5", "7(♭5)"].flatMap((tail) => all(MINOR, tail, 3, 6, 10)),
    ...["9b5", "9(b5)", "7b5(9)"].flatMap((tail) => all(MINOR, tail, 3, 6, 10, 2)),
    ...["11b5", "11(b5)"].flatMap((tail) => all(MINOR, tail, 3, 6, 10, 2, 5)),
    ...["7#5", "7(#5)", "7+5"].flatMap((tail) => all(MINOR, tail, 3, 8, 10)),
  ];
}

/** Every spelling once. */
export function everySpelling(): WrittenChord[] {
  const chords = [
    ...all(MAJOR.slice(0, 9), "", 4, 7).filter(({ written }) => written !== ""),
    ...all(["", ...MAJOR.slice(0, 9)], "6", 4, 7, 9),
    ...["69", "6/9", "6(9)", "6add9", "6 9", "6,9", "6(add9)"].flatMap((tail) => all([""], tail, 4, 7, 9, 2)),
    ...all(MAJOR, "7", 4, 7, 11),
    ...all(["(maj7)", "(MA7)", "(Ma7)", "(M7)"], "", 4, 7, 11),
    ...all(MAJOR, "9", 4, 7, 11, 2),
    ...all(MAJOR, "13", 4, 7, 11, 2, 9),
    ...["b5", "(b5)", "♭5", "-5"].flatMap((tail) => all(MAJOR, `7${tail}`, 4, 6, 11)),
    ...["#5", "(#5)", "♯5", "+5", "(+5)"].flatMap((tail) => all(MAJOR, `7${tail}`, 4, 8, 11)),
    ...["#11", "(#11)", "♯11", "+11", "(♯11)", " #11"].flatMap((tail) => all(MAJOR, `7${tail}`, 4, 7, 11, 6)),
    ...["#11", "(#11)"].flatMap((tail) => all(MAJOR, `9${tail}`, 4, 7, 11, 2, 6)),
    ...all([""], "7", 4, 7, 10),
    ...all(["dom", "dominant", "Dom"], "7", 4, 7, 10),
    ...["9", "7(9)", "7add9", "7/9", "7 add 9", "7(add9)"].flatMap((tail) => all([""], tail, 4, 7, 10, 2)),
    ...["13", "9(13)", "7(9,13)", "7(9, 13)", "9/13"].flatMap((tail) => all([""], tail, 4, 7, 10, 2, 9)),
    ...ALTERATIONS.flatMap((names) => altered("7", names, [4, 7, 10])),
    ...[["#11"], ["b5"], ["#5"], ["b13"], ["#11", "b13"]].flatMap((names) =>
      altered("9", names, [4, 7, 10, 2]),
    ),
    ...[["b9"], ["#11"], ["#9"], ["b9", "#11"], ["#9", "#11"]].flatMap((names) =>
      altered("13", names, [4, 7, 10, 2, 9]),
    ),
    ...ALTERED.flatMap((alt) => all(["7", ""], alt, 4, 10, 1, 3, 6, 8)),
    ...SUS.flatMap((sus) => [
      ...all([""], sus, 5, 7),
      ...all([""], `7${sus}`, 5, 7, 10),
      ...all([""], `9${sus}`, 5, 7, 10, 2),
      ...all([""], `13${sus}`, 5, 7, 10, 2, 9),
      ...["b9", "(b9)", "♭9", "-9"].flatMap((tail) => all([""], `7${sus}${tail}`, 5, 7, 10, 1)),
      ...ADD.flatMap((add) => all([""], `7${sus}(${add}3)`, 4, 5, 7, 10)),
    ]),
    ...all(["sus2", "Sus2", "SUS2", "(sus2)"], "", 2, 7),
    ...ADD.flatMap((add) => [
      ...["9", "2"].flatMap((degree) => all([""], add + degree, 4, 7, 2)),
      ...["9", "2"].flatMap((degree) => all([""], `(${add}${degree})`, 4, 7, 2)),
      ...["11", "4"].flatMap((degree) => all([""], `(${add}${degree})`, 4, 7, 5)),
      ...all([""], `${add}#11`, 4, 7, 6),
      ...all(MINOR, `(${add}9)`, 3, 7, 2),
      ...all(MINOR, `(${add}2)`, 3, 7, 2),
      ...all(MINOR, `7(${add}11)`, 3, 7, 10, 5),
      ...all(MINOR, `7(${add}4)`, 3, 7, 10, 5),
      ...DIMINISHED.flatMap((head) => [
        ...all([head], `7(${add}ma7)`, 3, 6, 9, 11),
        ...all([head], `7(${add}maj7)`, 3, 6, 9, 11),
        ...all([head], `7(${add}M7)`, 3, 6, 9, 11),
      ]),
    ]),
    ...all(["5", "(no3)", "(no 3)", "(No3)", "(omit3)", "no3rd", "(OMIT 3)"], "", 7),
    ...all(["7(no5)", "7no5", "7(omit5)", "7(NO 5)", "7 no 5th"], "", 4, 10),
    ...everyMinor(),
    ...["", "7"].flatMap((tail) => all(HALF, tail, 3, 6, 10)),
    ...["9", "7(9)"].flatMap((tail) => all(HALF, tail, 3, 6, 10, 2)),
    ...all(HALF, "11", 3, 6, 10, 2, 5),
    ...all(DIMINISHED, "", 3, 6),
    ...all(DIMINISHED, "7", 3, 6, 9),
    ...["(maj7)", "(MA7)", "(M7)", "(Δ7)", "M7"].flatMap((tail) => all(DIMINISHED, tail, 3, 6, 11)),
    ...all(AUGMENTED, "", 4, 8),
    ...all(AUGMENTED, "7", 4, 8, 10),
    ...all(AUGMENTED, "9", 4, 8, 10, 2),
    ...["maj7", "(maj7)", "(MA7)", "M7"].flatMap((tail) => all(AUGMENTED, tail, 4, 8, 11)),
    ...all(["+5", "(+5)", "(#5)", "aug5"], "", 4, 8),
    ...all(["(b5)", "(♭5)", "(-5)"], "", 4, 6),
    ...all(["7+", "7aug", "7(aug)", "7AUG"], "", 4, 8, 10),
  ];
  return [...new Map(chords.map((chord) => [chord.written, chord])).values()];
}
