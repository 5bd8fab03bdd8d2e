/**
 * Standard fingerings of scales (two octaves up) and root-position arpeggios (two octaves up) from two handbooks:
 *
 * A. Bellingham Music Teachers Association, "Scale and Arpeggio Fingering Chart for Piano" (major keys C to Db as
 *    printed; the remaining keys and the minor ones follow Hanon, "The Virtuoso Pianist", nos. 39 and 41 [memory]).
 * B. What graded-examination manuals print where they differ: a scale that begins on a black key begins with the
 *    second finger, and some arpeggios have an alternate [memory; alternates as in A's own "alternate" rows].
 */
export interface HandbookRow {
  readonly name: string;
  readonly kind: "major scale" | "harmonic minor scale" | "major arpeggio" | "minor arpeggio";
  readonly hand: "right" | "left";
  /** MIDI numbers, rising. */
  readonly keys: readonly number[];
  readonly a: string;
  readonly b: string;
}

const STEPS = {
  "major scale": [0, 2, 4, 5, 7, 9, 11],
  "harmonic minor scale": [0, 2, 3, 5, 7, 8, 11],
  "major arpeggio": [0, 4, 7],
  "minor arpeggio": [0, 3, 7],
} as const;

const TONICS: Readonly<Record<string, number>> = {
  C: 0,
  Db: 1,
  D: 2,
  Eb: 3,
  E: 4,
  F: 5,
  Gb: 6,
  G: 7,
  Ab: 8,
  A: 9,
  Bb: 10,
  B: 11,
};

/** Kind, hand, tonics, fingering in A, fingering in B where it differs. */
const TABLE: readonly (readonly [HandbookRow["kind"], "right" | "left", string, string, string?])[] = [
  ["major scale", "right", "C G D A E B", "123123412312345"],
  ["major scale", "right", "F", "123412312341234"],
  ["major scale", "right", "Bb", "412312341231234", "212312341231234"],
  ["major scale", "right", "Eb", "312341231234123", "212341231234123"],
  ["major scale", "right", "Ab", "341231234123123", "231231234123123"],
  ["major scale", "right", "Db", "231234123123412"],
  ["major scale", "right", "Gb", "234123123412312"],
  ["major scale", "left", "C G D A E F", "543213214321321"],
  ["major scale", "left", "B", "432143213214321"],
  ["major scale", "left", "Bb Eb Ab Db", "321432132143213", "321432132143212"],
  ["major scale", "left", "Gb", "432132143213214", "432132143213212"],
  ["harmonic minor scale", "right", "A E B D G C", "123123412312345"],
  ["harmonic minor scale", "right", "F", "123412312341234"],
  ["harmonic minor scale", "right", "Bb", "412312341231234", "212312341231234"],
  ["harmonic minor scale", "right", "Eb", "312341231234123", "212341231234123"],
  ["harmonic minor scale", "right", "Ab Db Gb", "341231234123123", "231231234123123"],
  ["harmonic minor scale", "left", "A E D G C F", "543213214321321"],
  ["harmonic minor scale", "left", "B", "432143213214321"],
  ["harmonic minor scale", "left", "Bb", "213214321321432", "321432132143213"],
  ["harmonic minor scale", "left", "Eb", "214321321432132"],
  ["harmonic minor scale", "left", "Ab Db", "321432132143213", "321432132143212"],
  ["harmonic minor scale", "left", "Gb", "432132143213214", "432132143213212"],
  ["major arpeggio", "right", "C G F D A E B Gb", "1231235"],
  ["major arpeggio", "right", "Db Ab Eb Bb", "4124124", "2124124"],
  ["major arpeggio", "left", "C G F", "5421421", "5321321"],
  ["major arpeggio", "left", "D A E B Gb", "5321321", "5421421"],
  ["major arpeggio", "left", "Bb", "3213213"],
  ["major arpeggio", "left", "Db Ab Eb", "2142142"],
  ["minor arpeggio", "right", "A E B D G C F Eb", "1231235"],
  ["minor arpeggio", "right", "Gb Db Ab", "4124124", "2124124"],
  ["minor arpeggio", "right", "Bb", "2312312"],
  ["minor arpeggio", "left", "A E B D G C F Eb", "5421421"],
  ["minor arpeggio", "left", "Gb Db Ab", "2142142"],
  ["minor arpeggio", "left", "Bb", "3213213"],
];

export const HANDBOOK_ROWS: readonly HandbookRow[] = TABLE.flatMap(([kind, hand, tonics, a, b]) =>
  tonics.split(" ").map((tonic) => ({
    name: `${tonic} ${kind}, ${hand} hand`,
    kind,
    hand,
    keys: twoOctaves((hand === "right" ? 60 : 36) + TONICS[tonic]!, STEPS[kind]),
    a,
    b: b ?? a,
  })),
);

function twoOctaves(tonic: number, steps: readonly number[]): number[] {
  return [...steps, ...steps.map((step) => step + 12), 24].map((step) => tonic + step);
}
