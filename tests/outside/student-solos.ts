/**
 * Solos as students play them, written for this purpose, every note labelled by hand from the definitions before
 * anything was run on them. On the first run 632 of 644 line roles, 643 harmonic roles and 639 spellings agreed; of
 * what differed, eleven labels were slips against the definitions and are put right here. Harmonic roles by the table of scales and tensions (Nettles & Graf; Levine) [memory]; line
 * roles by the definitions of Kostka & Payne, Coker and Ligon [memory], in the order of precedence of `LINE_ROLES`.
 *
 * A note is `name@beat=role.line` (`:beats` before `=` for its length). Roles: 1 3 5 7 (and what stands in), t tension,
 * a altered tension, b blue, v avoid, o outside. Line roles: ct chord tone, pa passing, ne neighbour, ap approach,
 * en enclosure, an anticipation, su suspension, ag appoggiatura, es escape, hc held colour, fr free.
 */
import type { Setting } from "../harmony/notation.ts";

export interface StudentSolo {
  readonly name: string;
  readonly setting: Setting;
  readonly chords: string;
  /** One string a bar. */
  readonly bars: readonly string[];
}

export const STUDENT_SOLOS: readonly StudentSolo[] = [
  {
    name: "bebop lines over II-V-I in C",
    setting: { key: "C" },
    chords: "Dm7 | G7 | Cmaj7 | Cmaj7",
    bars: [
      "D4@1=1.ct F4@1.5=3.ct A4@2=5.ct C5@2.5=7.ct B4@3=v.pa A4@3.5=5.ct G4@4=t.pa F4@4.5=3.ct",
      "E4@1=t.pa D4@1.5=5.ct C4@2=v.pa B3@2.5=3.ct Ab4@3=a.hc F4@3.5=7.ct D4@4=5.ct B3@4.5=3.ct",
      "C4@1=1.ct E4@1.5=3.ct G4@2=5.ct B4@2.5=7.ct A4@3=t.pa G4@3.5=5.ct",
      "E4@4=3.ct Eb4@4.5=o.ap",
      "D4@1=1.ct C#4@1.5=o.ne D4@2=1.ct F4@2.5=3.ct A4@3=5.ct C5@3.5=7.ct E5@4=t.ag D5@4.5=1.ct",
      "B4@1=3.ct A4@1.5=t.pa G4@2=1.ct F4@2.5=7.ct E4@3=t.pa D4@3.5=5.ct F4@4=7.ct",
      "C4@1=1.ct F4@2=v.en D#4@2.5=o.en E4@3=3.ct G4@3.5=5.ct A4@4=t.es C5@4.5=1.ct",
      "E4@1=3.ct",
    ],
  },
  {
    name: "blues in F, scale and blue notes",
    setting: { key: "F", idiom: "blues" },
    chords: "F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | D7 | Gm7 | C7 | F7 | C7",
    bars: [
      "C5@1=5.ct A4@2=3.ct Ab4@2.5=b.pa G4@3=t.pa F4@3.5=1.ct",
      "Ab4@1=7.ct F4@2=5.ct D4@2.5=3.ct F4@3=5.ct",
      "F4@1.5=1.ct Ab4@2=b.ap A4@2.5=3.ct C5@3=5.ct D5@3.5=t.pa Eb5@4=7.ct C5@4.5=5.ct",
      "A4@1=3.ct F4@2=1.ct",
      "D5@1=3.ct C5@1.5=t.pa Bb4@2=1.ct Ab4@2.5=7.ct G4@3=t.pa F4@3.5=5.ct D4@4=3.ct F4@4.5=5.ct",
      "Ab4@1=7.ct Ab4@2=7.ct G4@2.5=t.ne Ab4@3=7.ct",
      "F5@1=1.ct Eb5@1.5=7.ct C5@2=5.ct B4@2.5=b.pa Bb4@3=v.pa A4@3.5=3.ct F4@4=1.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct Eb5@2.5=a.ap D5@3=1.ct C5@3.5=7.ct A4@4=5.ct",
      "Bb4@1=3.ct A4@1.5=t.pa G4@2=1.ct F4@2.5=7.ct D4@3=5.ct",
      "E4@1=3.ct G4@1.5=5.ct Bb4@2=7.ct Db5@2.5=a.ap C5@3=1.ct Bb4@3.5=7.ct G4@4=5.ct E4@4.5=3.ct",
      "F4@1=1.ct Eb4@2.5=7.ct F4@3=1.ct",
      "",
    ],
  },
  {
    name: "modal vamp in D Dorian",
    setting: { key: "Dm" },
    chords: "Dm7 | Dm7 | G7 | G7",
    bars: [
      "D4@1=1.ct E4@1.5=t.pa F4@2=3.ct G4@2.5=t.pa A4@3=5.ct C5@3.5=7.ct",
      "D5@1=1.ct C5@1.5=7.ct A4@2=5.ct G4@2.5=t.pa F4@3=3.ct D4@3.5=1.ct",
      "B4@1=3.ct A4@1.5=t.pa G4@2=1.ct F4@2.5=7.ct E4@3=t.pa D4@3.5=5.ct B3@4=3.ct",
      "D4@1=5.ct F4@1.5=7.ct A4@2=t.ag B4@2.5=3.ct D5@3=5.ct E5@3.5=t.es",
      "A4@1=5.ct G4@2=t.ne A4@2.5=5.ct C5@3=7.ct D5@3.5=1.ct E5@4=t.pa F5@4.5=3.ct",
      "E5@1=t.pa D5@1.5=1.ct C5@2=7.ct A4@2.5=5.ct G4@3=t.en E4@3.5=t.en F4@4=3.ct",
      "G4@1=1.ct A4@1.5=t.pa B4@2=3.ct C5@2.5=v.pa D5@3=5.ct",
      "B4@2=3.ct G4@3=1.ct",
    ],
  },
  {
    name: "minor II-V in C minor",
    setting: { key: "Cm" },
    chords: "Dm7b5 | G7 | Cm7 | Cm7",
    bars: [
      "F4@1=3.ct Ab4@1.5=5.ct C5@2=7.ct D5@2.5=1.ct C5@3=7.ct Bb4@3.5=t.pa Ab4@4=5.ct G4@4.5=t.pa",
      "F4@1=7.ct Eb4@1.5=a.pa D4@2=5.ct C4@2.5=v.pa B3@3=3.ct D4@3.5=5.ct F4@4=7.ct Ab4@4.5=a.ap",
      "G4@1=5.ct Eb4@1.5=3.ct C4@2=1.ct Bb3@2.5=7.ct C4@3=1.ct D4@3.5=t.pa Eb4@4=3.ct",
      "",
      "Ab4@1=5.ct G4@1.5=t.pa F4@2=3.ct D4@3=1.ct C4@3.5=7.ct",
      "B3@1=3.ct D4@1.5=5.ct F4@2=7.ct Ab4@2.5=a.hc B4@3=3.ct Ab4@3.5=a.hc F4@4=7.ct D4@4.5=5.ct",
      "Eb4@1=3.ct F#4@2=o.ag G4@2.5=5.ct Bb4@3=7.ct G4@3.5=5.ct",
      "C4@1=1.ct",
    ],
  },
  {
    name: "a pedal over falling lines, and a line in two registers",
    setting: { key: "G" },
    chords: "G | D7 | G | G",
    bars: [
      "G5@1=1.ct B4@1.5=3.ct G5@2=1.ct A4@2.5=t.pa G5@3=1.ct G4@3.5=1.ct G5@4=1.ct",
      "D5@1=1.ct A4@2=5.ct F#4@3=3.ct",
      "G4@1=1.ct D5@1.5=5.ct F#4@2=t.pa C5@2.5=v.pa E4@3=t.pa B4@3.5=3.ct D4@4=5.ct A4@4.5=t.pa",
      "B3@1=3.ct G4@1.5=1.ct D4@3=5.ct",
    ],
  },
  {
    name: "pickups, long rests and repeated notes in B flat",
    setting: { key: "Bb" },
    chords: "Bbmaj7 | Gm7 | Cm7 | F7",
    bars: [
      "^ F4@3.5=1.ct A4@4=3.ct C5@4.5=5.ct",
      "D5@1=3.ct D5@1.5=3.ct D5@2=3.ct C5@2.5=t.pa Bb4@3=1.ct",
      "",
      "G4@2.5=5.ct G4@3=5.ct G4@3.5=5.ct Bb4@4=7.ct A4@4.5:0.5=v.an",
      "A4@1=3.ct C5@1.5=5.ct Eb5@2=7.ct D5@2.5=t.pa C5@3=5.ct A4@3.5=3.ct",
      "",
      "D5@1=5.ct D5@1.5=5.ct Bb4@2=3.ct Bb4@2.5=3.ct G4@3=1.ct",
      "F#4@4=o.ag G4@4.5=5.ct",
      "A4@1=3.ct C5@2=5.ct D5@4.5:1.5=t.an",
      "F4@3=5.ct Bb4@4=1.ct",
    ],
  },
  {
    name: "arpeggios with passing notes in E flat",
    setting: { key: "Eb" },
    chords: "Ebmaj7 | Cm7 | Fm7 | Bb7",
    bars: [
      "Eb4@1=1.ct G4@1.5=3.ct Bb4@2=5.ct D5@2.5=7.ct C5@3=t.pa Bb4@3.5=5.ct Ab4@4=v.pa G4@4.5=3.ct",
      "C4@1=1.ct Eb4@1.5=3.ct F4@2=t.pa G4@2.5=5.ct Bb4@3=7.ct G4@3.5=5.ct Eb4@4=3.ct",
      "F4@1=1.ct Ab4@1.5=3.ct C5@2=5.ct Eb5@2.5=7.ct D5@3=v.pa C5@3.5=5.ct B4@4=o.pa Bb4@4.5=t.an",
      "Bb4@1=1.ct D5@1.5=3.ct F5@2=5.ct Ab5@2.5=7.ct G5@3=t.pa F5@3.5=5.ct Eb5@4=v.pa D5@4.5=3.ct",
      "Eb5@1=1.ct Bb4@2=5.ct G4@3=3.ct F4@3.5=t.pa Eb4@4=1.ct",
      "",
      "C5@1=5.ct Ab4@1.5=3.ct F4@2=1.ct E4@2.5=o.ne F4@3=1.ct",
      "D4@1=3.ct C4@1.5=t.ne D4@2=3.ct Ab4@3=7.ct G4@3.5=t.pa F4@4=5.ct",
      "Eb4@1=1.ct",
    ],
  },
  {
    name: "altered dominants in F",
    setting: { key: "F" },
    chords: "Gm7 | C7alt | Fmaj7 | D7b9",
    bars: [
      "Bb4@1=3.ct D5@1.5=5.ct F5@2=7.ct D5@2.5=5.ct Bb4@3=3.ct A4@3.5=t.pa G4@4=1.ct",
      "Ab4@1=a.pa Bb4@1.5=7.ct Db5@2=a.ap D#5@2.5=a.pa E5@3=3.ct Db5@3.5=a.hc Ab4@4=a.fr F#4@4.5=a.es",
      "A4@1=3.ct C5@1.5=5.ct E5@2=7.ct D5@2.5=t.pa C5@3=5.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct Eb5@2.5=a.ap D5@3=1.ct C5@3.5=7.ct A4@4=5.ct",
      "Bb4@1=3.ct G4@2=1.ct F4@2.5=7.ct D4@3=5.ct",
      "E4@1=3.ct F#4@1.5=a.es Bb4@2=7.ct Ab4@2.5=a.pa F#4@3=a.pa E4@3.5=3.ct Eb4@4=a.pa Db4@4.5=a.pa",
      "C4@1=5.ct F4@2=1.ct G4@2.5=t.pa A4@3=3.ct",
    ],
  },
  {
    name: "secondary dominants in G",
    setting: { key: "G" },
    chords: "Gmaj7 | E7 | Am7 | D7",
    bars: [
      "D5@1=5.ct B4@1.5=3.ct G4@2=1.ct A4@2.5=t.pa B4@3=3.ct C5@3.5=v.pa D5@4=5.ct",
      "E5@1=1.ct D5@1.5=7.ct C5@2=a.pa B4@2.5=5.ct G#4@3=3.ct B4@3.5=5.ct D5@4=7.ct F5@4.5=a.ap",
      "E5@1=5.ct C5@1.5=3.ct A4@2=1.ct B4@2.5=t.pa C5@3=3.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct E5@2.5=t.ap D5@3=1.ct",
      "B4@1=3.ct D5@1.5=5.ct F#5@2=7.ct D5@2.5=5.ct C5@3=v.en A#4@3.5=o.en B4@4=3.ct",
      "G#4@1=3.ct E4@1.5=1.ct D4@2=7.ct E4@2.5=1.ct F4@3=a.pa G#4@3.5=3.ct B4@4=5.ct",
      "C5@1=3.ct B4@1.5=t.pa A4@2=1.ct G4@2.5=7.ct C5@3=3.ct",
      "Eb4@1=a.ag D4@1.5=1.ct F#4@2=3.ct A4@2.5=5.ct C5@3=7.ct",
      "B4@1=3.ct",
    ],
  },
  {
    name: "tritone substitutes in C",
    setting: { key: "C" },
    chords: "Dm7 | Db7 | Cmaj7 | A7",
    bars: [
      "F4@1=3.ct A4@1.5=5.ct C5@2=7.ct E5@2.5=t.ap D5@3=1.ct C5@3.5=7.ct A4@4=5.ct",
      "Ab4@1=5.ct F4@1.5=3.ct Eb4@2=t.pa Db4@2.5=1.ct Cb5@3=7.ct Ab4@3.5=5.ct G4@4=t.pa F4@4.5=3.ct",
      "E4@1=3.ct G4@1.5=5.ct B4@2=7.ct D5@2.5=t.ap C5@3=1.ct",
      "C#5@1=3.ct E5@1.5=5.ct G5@2=7.ct Bb5@2.5=a.ap A5@3=1.ct G5@3.5=7.ct E5@4=5.ct C#5@4.5=3.ct",
      "D5@1=1.ct C5@1.5=7.ct A4@2=5.ct F4@2.5=3.ct E4@3=t.pa D4@3.5=1.ct",
      "Cb4@1=7.ct Db4@1.5=1.ct Eb4@2=t.pa F4@2.5=3.ct G4@3=t.pa Ab4@3.5=5.ct Bb4@4=t.pa Cb5@4.5=7.ct",
      "C5@1=1.ct G4@2=5.ct E4@2.5=3.ct",
    ],
  },
  {
    name: "diminished passing chords in F",
    setting: { key: "F" },
    chords: "Fmaj7 F#dim7 | Gm7 G#dim7 | Am7 D7 | Gm7 C7",
    bars: [
      "F4@1=1.ct A4@1.5=3.ct C5@2=5.ct A4@2.5=3.ct F#4@3=1.ct A4@3.5=3.ct C5@4=5.ct Eb5@4.5=7.ct",
      "D5@1=5.ct Bb4@1.5=3.ct G4@2=1.ct Bb4@2.5=3.ct G#4@3=1.ct B4@3.5=3.ct D5@4=5.ct F5@4.5=7.ct",
      "E5@1=5.ct C5@1.5=3.ct A4@2=1.ct G4@2.5=7.ct F#4@3=3.ct A4@3.5=5.ct C5@4=7.ct D5@4.5=1.ct",
      "Bb4@1=3.ct A4@1.5=t.pa G4@2=1.ct F4@2.5=7.ct E4@3=3.ct G4@3.5=5.ct Bb4@4=7.ct G4@4.5=5.ct",
      "A4@1=3.ct C5@2=5.ct G#4@3=t.ag A4@3.5=3.ct C5@4=5.ct",
      "Bb4@1=3.ct D5@2=5.ct B4@3=3.ct A#4@3.5=t.ne B4@4=3.ct",
    ],
  },
  {
    name: "slash chords in D",
    setting: { key: "D" },
    chords: "D | A/C# | Bm7 | D/A | G | D/F# | Em7/A | D",
    bars: [
      "F#4@1=3.ct A4@2=5.ct D5@3=1.ct E5@4.5=t.an",
      "E5@1=5.ct C#5@2=3.ct A4@3=1.ct B4@3.5=t.pa C#5@4=3.ct",
      "D5@1=3.ct C#5@1.5=t.pa B4@2=1.ct A4@2.5=7.ct F#4@3=5.ct",
      "F#4@1=3.ct E4@1.5=t.pa D4@2=1.ct F#4@2.5=3.ct A4@3=5.ct",
      "B4@1=3.ct C5@1.5=o.ne B4@2=3.ct D5@3=5.ct",
      "A4@1=5.ct G4@1.5=v.pa F#4@2=3.ct D4@3=1.ct",
      "G4@1=3.ct B4@1.5=5.ct D5@2=7.ct B4@2.5=5.ct G4@3=3.ct E4@3.5=1.ct F#4@4=t.es D4@4.5:2=7.ct",
      "F#4@3=3.ct",
    ],
  },
  {
    name: "in 6/8, a minor tune",
    setting: { key: "Em", meter: "6/8" },
    chords: "Em | Am | B7 | Em",
    bars: [
      "E4@1=1.ct F#4@2=t.pa G4@3=3.ct B4@4=5.ct A4@5=t.pa G4@6=3.ct",
      "A4@1=1.ct B4@2=t.pa C5@3=3.ct E5@4=5.ct D#5@5=o.ne E5@6=5.ct",
      "D#5@1=3.ct C5@2=a.pa B4@3=1.ct A4@4=7.ct G4@5=a.pa F#4@6=5.ct",
      "G4@1=3.ct F#4@2=t.en D#4@3=o.en E4@4=1.ct",
      "B4@1=5.ct B4@2=5.ct C5@3=v.ne B4@4=5.ct G4@5=3.ct E4@6=1.ct",
      "C5@1=3.ct B4@2=t.ne C5@3=3.ct A4@4=1.ct",
      "A4@1=7.ct F#4@2=5.ct D#4@3=3.ct F#4@4=5.ct A4@5=7.ct C5@6=a.ap",
      "B4@1=5.ct G4@4=3.ct",
    ],
  },
  {
    name: "a waltz in A flat",
    setting: { key: "Ab", meter: "3/4" },
    chords: "Abmaj7 | Fm7 | Bbm7 | Eb7",
    bars: [
      "C5@1=3.ct Eb5@2=5.ct Db5@2.5=v.pa C5@3=3.ct",
      "Ab4@1=3.ct G4@1.5=t.pa F4@2=1.ct Ab4@2.5=3.ct C5@3=5.ct",
      "Db5@1=3.ct C5@1.5=t.pa Bb4@2=1.ct Ab4@2.5=7.ct F4@3=5.ct E4@3.5=o.ap",
      "Eb4@1=1.ct G4@1.5=3.ct Bb4@2=5.ct Db5@2.5=7.ct C5@3=t.pa Bb4@3.5=5.ct",
      "Ab4@1=1.ct C5@2=3.ct B4@2.5=o.ne C5@3=3.ct",
      "F4@1=1.ct G4@1.5=t.pa Ab4@2=3.ct Bb4@2.5=t.pa C5@3=5.ct",
      "F5@1=5.ct F5@2=5.ct Eb5@2.5=t.pa Db5@3=3.ct",
      "Db5@1=7.ct C5@1.5=t.pa Bb4@2=5.ct G4@3=3.ct",
      "Ab4@1=1.ct",
    ],
  },
  {
    name: "a bridge of dominants and a turn home in B flat",
    setting: { key: "Bb" },
    chords: "D7 | D7 | G7 | G7 | C7 | C7 | F7 | F7 | Bb6",
    bars: [
      "F#4@1=3.ct A4@1.5=5.ct D5@2=1.ct E5@2.5=t.es C5@3=7.ct B4@3.5=t.pa A4@4=5.ct",
      "G4@1=v.pa F#4@1.5=3.ct E4@2=t.ne F#4@2.5=3.ct A4@3=5.ct",
      "B4@1=3.ct D5@1.5=5.ct F5@2=7.ct E5@2.5=t.pa D5@3=5.ct C#5@3.5=a.ne D5@4=5.ct",
      "G5@1=1.ct F#5@1.5=o.ap F5@2=7.ct E5@2.5=t.pa D5@3=5.ct C5@3.5=v.pa B4@4=3.ct A4@4.5=t.pa",
      "G4@1=5.ct E4@2=3.ct D#4@2.5=a.ne E4@3=3.ct G4@3.5=5.ct Bb4@4=7.ct",
      "A4@1=t.pa G4@1.5=5.ct",
      "A4@1=3.ct C5@1.5=5.ct Eb5@2=7.ct Gb5@2.5=a.ap F5@3=1.ct Eb5@3.5=7.ct C5@4=5.ct",
      "Eb5@1=7.ct Db5@1.5=a.ap C5@2=5.ct B4@2.5=a.ne C5@3=5.ct A4@3.5=3.ct F4@4=1.ct Eb4@4.5=7.ct",
      "D4@1=3.ct F4@1.5=5.ct G4@2=7.ct Bb4@2.5=1.ct",
    ],
  },
];

/**
 * A second set, with more of what is rare, labelled in the same way before anything was run on it. On the first run
 * 222 of 235 line roles, all harmonic roles and 230 spellings agreed; twelve labels were slips against the definitions.
 */
export const RARER_SOLOS: readonly StudentSolo[] = [
  {
    name: "suspensions and pushes in B flat",
    setting: { key: "Bb" },
    chords: "Cm7 | F7 | Bbmaj7 | G7",
    bars: [
      "G4@1=5.ct Eb4@2=3.ct C4@3=1.ct Bb4@4=7.ct",
      "Bb4@1=v.su A4@2=3.ct C5@2.5=5.ct Eb5@3=7.ct D5@4.5:1.5=t.an",
      "F4@3=5.ct A4@4=7.ct",
      "B4@1=3.ct D5@2=5.ct F5@3=7.ct Eb5@4.5=a.an",
      "Eb5@1=3.ct D5@1.5=t.pa C5@2=1.ct G4@3=5.ct Bb4@4:1.5=7.su",
      "A4@2=3.ct F4@3=1.ct Bb4@4.5:1=v.an",
      "D4@3=3.ct F4@4=5.ct",
      "D5@1=5.ct B4@2=3.ct",
    ],
  },
  {
    name: "enclosures of two and three notes in F",
    setting: { key: "F" },
    chords: "Fmaj7 | Dm7 | Gm7 | C7",
    bars: [
      "C5@1=5.ct Bb4@2=v.en G#4@2.5=o.en A4@3=3.ct F4@3.5=1.ct",
      "D4@1=1.ct G4@2=t.en E4@2.5=t.en F4@3=3.ct A4@3.5=5.ct",
      "Bb4@1=3.ct A4@2=t.en F#4@2.5=o.en G4@3=1.ct D5@3.5=5.ct",
      "Bb4@1=7.ct F4@2=v.en D4@2.5=t.en D#4@2.75=a.en E4@3=3.ct G4@3.5=5.ct",
      "A4@1=3.ct D5@2=t.en B4@2.5=o.en C5@3=5.ct",
      "A4@1=5.ct E5@2=t.en C#5@2.5=o.en D5@3=1.ct C5@3.5=7.ct",
      "D5@1=5.ct E5@2=v.ne C#5@2.5=o.ne D5@3=5.ct",
      "E4@1=3.ct G4@1.5=5.ct Bb4@2=7.ct G4@2.5=5.ct C5@3=1.ct",
    ],
  },
  {
    name: "colours that are left to stand, in D flat",
    setting: { key: "Db" },
    chords: "Dbmaj7 | Gbmaj7 | Ebm7 | Ab7",
    bars: [
      "F4@1=3.ct Eb5@2:2=t.hc Ab4@4=5.ct",
      "F5@1=7.ct C5@2:2=t.hc Gb4@4=1.ct",
      "Ab4@1:2=t.hc Db5@3=7.ct Bb4@4=5.ct",
      "F5@1:2=t.hc C5@3=3.ct Ab4@4=1.ct",
      "Bb4@1:2=t.hc F4@3=3.ct",
      "Ab4@1:3=t.hc Db5@4=5.ct",
      "F4@1=t.ag Gb4@2=3.ct Bb4@3=5.ct",
      "Eb4@1=5.ct Gb4@2=7.ct A4@3=a.hc",
    ],
  },
  {
    name: "chromatic lines up and down in C",
    setting: { key: "C" },
    chords: "Cmaj7 | A7 | Dm7 | G7",
    bars: [
      "G4@1=5.ct Gb4@1.5=o.pa F4@2=v.pa E4@2.5=3.ct D#4@3=o.ne E4@3.5=3.ct G4@4=5.ct B4@4.5=7.ct",
      "C#5@1=3.ct D5@1.5=v.pa D#5@2=a.ap E5@2.5=5.ct G5@3=7.ct E5@3.5=5.ct C#5@4=3.ct A4@4.5=1.ct",
      "D5@1=1.ct C#5@1.5=o.ap C5@2=7.ct B4@2.5=v.pa A4@3=5.ct Ab4@3.5=o.pa G4@4=t.pa F#4@4.5=o.ap",
      "F4@1=7.ct E4@1.5=t.pa Eb4@2=a.ap D4@2.5=5.ct C4@3=v.pa B3@3.5=3.ct D4@4=5.ct F4@4.5=7.ct",
      "E4@1=3.ct",
    ],
  },
  {
    name: "a suspended dominant and the way back door in E flat",
    setting: { key: "Eb" },
    chords: "Abmaj7 | Db7 | Ebmaj7 | Bb7sus4",
    bars: [
      "C5@1=3.ct Bb4@1.5=t.pa Ab4@2=1.ct G4@2.5=7.ct Eb4@3=5.ct D5@4=t.hc",
      "F4@1=3.ct Ab4@1.5=5.ct Cb5@2=7.ct Bb4@2.5=t.pa Ab4@3=5.ct G4@3.5=t.pa F4@4=3.ct",
      "Bb4@1=5.ct G4@2=3.ct F4@2.5=t.pa Eb4@3=1.ct",
      "Eb4@1=3.ct F4@1.5=5.ct Ab4@2=7.ct G4@2.5=t.pa F4@3=5.ct Bb4@4=1.ct",
      "G4@1=7.ct Eb4@2=5.ct",
    ],
  },
  {
    name: "a minor blues in C",
    setting: { key: "Cm", idiom: "blues" },
    chords: "Cm7 | Fm7 | Cm7 | G7",
    bars: [
      "C5@1=1.ct Bb4@1.5=7.ct G4@2=5.ct Gb4@2.5=b.pa F4@3=t.pa Eb4@3.5=3.ct C4@4=1.ct",
      "Eb4@1.5=7.ct F4@2=1.ct Ab4@2.5=3.ct C5@3=5.ct",
      "Eb5@1=3.ct C5@1.5=1.ct D5@2=t.ne C5@2.5=1.ct Bb4@3=7.ct G4@3.5=5.ct",
      "F4@1=7.ct D4@1.5=5.ct B3@2=3.ct Ab3@2.5=a.pa G3@3=1.ct",
      "G4@1=5.ct Ab4@1.5=v.ne G4@2=5.ct Eb4@3=3.ct",
    ],
  },
  {
    name: "graces and turns over a dominant, in G",
    setting: { key: "G", idiom: "blues" },
    chords: "G7 | C7 | G7 | D7",
    bars: [
      "D5@1=5.ct ~Bb4@2=b.ap B4@2=3.ct G4@2.5=1.ct E4@3=t.ag F4@3.5=7.ct G4@4=1.ct",
      "E4@1=3.ct ~Eb4@2=b.ne E4@2=3.ct G4@3=5.ct A4@3.5=t.ne G4@4=5.ct",
      "F5@1=7.ct D5@1.5=5.ct Db5@2=b.pa C5@2.5=v.pa Bb4@3=b.hc G4@4=1.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct A4@2.5=5.ct F#4@3=3.ct D4@3.5=1.ct",
      "G4@1=1.ct",
    ],
  },
  {
    name: "turns, escapes and leaning notes in A minor",
    setting: { key: "Am" },
    chords: "Am | Dm7 | E7 | Am",
    bars: [
      "A4@1=1.ct B4@1.5=t.ne A4@2=1.ct G#4@2.5=o.ne A4@3=1.ct E5@4=5.ct",
      "D5@1=1.ct E5@1.5=t.es C5@2=7.ct A4@2.5=5.ct G4@3=t.pa F4@3.5=3.ct",
      "G#4@1=3.ct A4@1.5=v.es E4@2=1.ct F4@2.5=a.ne E4@3=1.ct D4@3.5=7.ct",
      "C4@1=3.ct E4@2=5.ct A4@3=1.ct",
      "F5@1=v.ag E5@2=5.ct C5@3=3.ct D5@3.5=t.pa E5@4=5.ct",
      "F5@1=3.ct A5@2=5.ct G#5@2.5=o.ne A5@3=5.ct",
      "B4@1=5.ct C5@1.5=a.ne B4@2=5.ct G#4@2.5=3.ct F4@3=a.pa E4@3.5=1.ct",
      "A4@1:2=1.ct",
    ],
  },
];
