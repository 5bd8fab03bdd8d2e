import type { Chord, Quality } from "../../src/chart/index.ts";
import type { CompingNote } from "./comping.ts";
import { type Harmony, spell } from "./harmony.ts";
import { type LineNote, samePlace } from "./line.ts";
import type { TakeSpec } from "./spec.ts";

/** Divisions of a quarter note: eighths are 6, triplet eighths 4. */
const DIVISIONS = 12;
const BAR = 4 * DIVISIONS;

/** A written note or rest inside one bar. */
interface Written {
  readonly start: number;
  readonly length: number;
  readonly pitches: readonly number[];
  readonly tieFrom: boolean;
  readonly tieTo: boolean;
  readonly finger: number | null;
  readonly grace: { readonly pitch: number; readonly finger: number } | null;
}

/** A page of notation of what was meant: straight eighths marked "Swing", chord symbols, fingers at each new place. */
export function musicXmlFile(
  spec: TakeSpec,
  harmony: Harmony,
  solo: readonly LineNote[],
  comping: readonly CompingNote[],
): string {
  const bars = harmony.bars * spec.choruses;
  const lead = spec.pickup > 0 ? Math.ceil(spec.pickup) * DIVISIONS : 0;
  const right = writeVoice(soloSounds(solo, spec.annotated), bars, lead);
  const left = writeVoice(compingSounds(comping), bars, lead);
  const lines = [
    `<?xml version="1.0" encoding="UTF-8" standalone="no"?>`,
    `<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">`,
    `<score-partwise version="4.0">`,
    `  <work><work-title>${escaped(spec.title)}</work-title></work>`,
    `  <part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list>`,
    `  <part id="P1">`,
  ];
  for (let k = lead > 0 ? -1 : 0; k < bars; k++) {
    const length = k < 0 ? lead : BAR;
    lines.push(k < 0 ? `    <measure number="0" implicit="yes">` : `    <measure number="${k + 1}">`);
    if (k === (lead > 0 ? -1 : 0)) lines.push(...firstAttributes(spec));
    if (spec.annotated && k >= 0) lines.push(...harmonies(harmony, k % harmony.bars));
    const position = k < 0 ? -lead / DIVISIONS : k * 4;
    lines.push(...voice(right.get(k) ?? [], length, position, harmony, 1, 1));
    lines.push(`      <backup><duration>${length}</duration></backup>`);
    lines.push(...voice(left.get(k) ?? [], length, position, harmony, 2, 5));
    if (k === bars - 1)
      lines.push(`      <barline location="right"><bar-style>light-heavy</bar-style></barline>`);
    lines.push(`    </measure>`);
  }
  lines.push(`  </part>`, `</score-partwise>`, "");
  return lines.join("\n");
}

interface Sound {
  readonly start: number;
  readonly length: number;
  readonly pitches: readonly number[];
  readonly finger: number | null;
  readonly grace: { readonly pitch: number; readonly finger: number } | null;
}

/** Beats to divisions, on the grid of eighths and triplets. */
function grid(beats: number): number {
  return Math.round(beats * DIVISIONS);
}

function soloSounds(solo: readonly LineNote[], annotated: boolean): Sound[] {
  const sounds: Sound[] = [];
  let place: LineNote["place"] = null;
  solo.forEach((note, i) => {
    if (note.grace) return;
    const before = solo[i - 1];
    const next = solo.slice(i + 1).find((one) => !one.grace);
    const start = grid(note.at);
    const room = next === undefined ? Number.POSITIVE_INFINITY : grid(next.at) - start;
    const moved = note.place !== null && (place === null || !samePlace(note.place, place));
    if (note.place !== null) place = note.place;
    const triplet = start % 6 !== 0 || (room === 4 && start % DIVISIONS === 0);
    sounds.push({
      start,
      length: triplet ? 4 : Math.min(room, Math.max(6, 6 * Math.round(grid(note.length) / 6))),
      pitches: [note.pitch],
      finger: annotated && (moved || before?.grace === true) ? note.finger : null,
      grace: before?.grace === true ? { pitch: before.pitch, finger: before.finger } : null,
    });
  });
  return sounds;
}

function compingSounds(comping: readonly CompingNote[]): Sound[] {
  const byStart = new Map<number, { length: number; pitches: number[] }>();
  for (const note of comping) {
    const start = grid(note.at);
    const group = byStart.get(start) ?? { length: 6, pitches: [] };
    group.length = Math.max(group.length, 6 * Math.round(grid(note.length) / 6));
    if (!group.pitches.includes(note.pitch)) group.pitches.push(note.pitch);
    byStart.set(start, group);
  }
  const starts = [...byStart.keys()].sort((a, b) => a - b);
  return starts.map((start, i) => {
    const group = byStart.get(start)!;
    const room = (starts[i + 1] ?? Number.POSITIVE_INFINITY) - start;
    return { start, length: Math.min(room, group.length), pitches: group.pitches, finger: null, grace: null };
  });
}

/** Cuts sounds at bar lines and into note values, tied; by bar, -1 for the pickup. */
function writeVoice(sounds: readonly Sound[], bars: number, lead: number): Map<number, Written[]> {
  const written = new Map<number, Written[]>();
  for (const sound of sounds) {
    let left = Math.min(sound.length, bars * BAR - sound.start);
    let start = sound.start;
    let first = true;
    while (left > 0) {
      const bar = start < 0 ? -1 : Math.floor(start / BAR);
      const inside = start < 0 ? start + lead : start - bar * BAR;
      const room = (start < 0 ? lead : BAR) - inside;
      const length = noteValue(inside, Math.min(left, room));
      const piece: Written = {
        start: inside,
        length,
        pitches: sound.pitches,
        tieFrom: !first,
        tieTo: left > length,
        finger: first ? sound.finger : null,
        grace: first ? sound.grace : null,
      };
      written.set(bar, [...(written.get(bar) ?? []), piece]);
      left -= length;
      start += length;
      first = false;
    }
  }
  return written;
}

/** The longest single note value that may stand at this place of the bar. */
function noteValue(inside: number, longest: number): number {
  const values = [48, 36, 24, 18, 12, 6, 4].filter((value) => value <= longest);
  const allowed = values.find(
    (value) =>
      value < 24 ||
      (value === 48 && inside === 0) ||
      (value === 36 && inside <= 12 && inside % 12 === 0) ||
      (value === 24 && inside % 12 === 0 && inside <= 24),
  );
  return allowed ?? longest;
}

function voice(
  pieces: readonly Written[],
  barLength: number,
  position: number,
  harmony: Harmony,
  staff: number,
  number: number,
): string[] {
  const lines: string[] = [];
  let at = 0;
  const rest = (until: number) => {
    while (at < until) {
      const toBeat = DIVISIONS - (at % DIVISIONS);
      const length =
        at % 6 === 0 ? noteValue(at, at % DIVISIONS === 0 ? until - at : Math.min(until - at, toBeat)) : 4;
      lines.push(note(null, length, staff, number, {}));
      at += length;
    }
  };
  for (const piece of pieces) {
    rest(piece.start);
    const { chord } = harmony.at(Math.max(0, position + piece.start / DIVISIONS));
    if (piece.grace !== null) {
      const { pitch, finger } = piece.grace;
      lines.push(note(spell(pitch, chord), 0, staff, number, { finger, grace: true }));
    }
    piece.pitches.forEach((pitch, i) => {
      const { finger, tieFrom, tieTo, length } = piece;
      lines.push(note(spell(pitch, chord), length, staff, number, { finger, tieFrom, tieTo, chord: i > 0 }));
    });
    at = piece.start + piece.length;
  }
  rest(barLength);
  return lines;
}

interface NoteMarks {
  readonly finger?: number | null;
  readonly tieFrom?: boolean;
  readonly tieTo?: boolean;
  readonly chord?: boolean;
  readonly grace?: boolean;
}

function note(
  pitch: { step: string; alter: number; octave: number } | null,
  length: number,
  staff: number,
  voiceNumber: number,
  marks: NoteMarks,
): string {
  const parts: string[] = [];
  if (marks.grace) parts.push(`<grace slash="yes"/>`);
  if (marks.chord) parts.push("<chord/>");
  if (pitch === null) parts.push("<rest/>");
  else {
    const alter = pitch.alter === 0 ? "" : `<alter>${pitch.alter}</alter>`;
    parts.push(`<pitch><step>${pitch.step}</step>${alter}<octave>${pitch.octave}</octave></pitch>`);
  }
  if (!marks.grace) parts.push(`<duration>${length}</duration>`);
  if (marks.tieFrom) parts.push(`<tie type="stop"/>`);
  if (marks.tieTo) parts.push(`<tie type="start"/>`);
  parts.push(`<voice>${voiceNumber}</voice>`, typeOf(marks.grace ? 6 : length), `<staff>${staff}</staff>`);
  const notations: string[] = [];
  if (marks.tieFrom) notations.push(`<tied type="stop"/>`);
  if (marks.tieTo) notations.push(`<tied type="start"/>`);
  if (marks.finger) notations.push(`<technical><fingering>${marks.finger}</fingering></technical>`);
  if (notations.length > 0) parts.push(`<notations>${notations.join("")}</notations>`);
  return `      <note>${parts.join("")}</note>`;
}

function typeOf(length: number): string {
  switch (length) {
    case 48:
      return "<type>whole</type>";
    case 36:
      return "<type>half</type><dot/>";
    case 24:
      return "<type>half</type>";
    case 18:
      return "<type>quarter</type><dot/>";
    case 12:
      return "<type>quarter</type>";
    case 6:
      return "<type>eighth</type>";
    case 4:
      return "<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>";
    default:
      throw new RangeError(`no note value of ${length} divisions`);
  }
}

function firstAttributes(spec: TakeSpec): string[] {
  const { key } = spec.chart;
  const major = key.mode === "major" ? key.tonicClass : (key.tonicClass + 3) % 12;
  const fifths = ((major * 7 + 5) % 12) - 5;
  const { swing, tempo } = spec.time;
  return [
    `      <attributes><divisions>${DIVISIONS}</divisions><key><fifths>${fifths}</fifths><mode>${key.mode}</mode></key><time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves><clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef></attributes>`,
    `      <direction placement="above"><direction-type><words>Swing</words></direction-type><sound tempo="${tempo}">${swing > 1.2 ? "<swing><first>2</first><second>1</second><swing-type>eighth</swing-type></swing>" : ""}</sound></direction>`,
  ];
}

const KINDS: Readonly<Record<Quality, string>> = {
  major: "major",
  "major-seventh": "major-seventh",
  sixth: "major-sixth",
  dominant: "dominant",
  suspended: "suspended-fourth",
  minor: "minor",
  "minor-seventh": "minor-seventh",
  "minor-sixth": "minor-sixth",
  "minor-major": "major-minor",
  "half-diminished": "half-diminished",
  diminished: "diminished",
  "diminished-seventh": "diminished-seventh",
  augmented: "augmented",
  "augmented-major": "major-seventh",
  power: "power",
};

function harmonies(harmony: Harmony, bar: number): string[] {
  return harmony.stretches
    .filter((stretch) => stretch.bar === bar + 1)
    .map((stretch) => {
      const offset = grid(stretch.start - bar * 4);
      return `      <harmony>${root(stretch.chord)}<kind>${KINDS[stretch.chord.quality]}</kind>${offset > 0 ? `<offset>${offset}</offset>` : ""}</harmony>`;
    });
}

function root(chord: Chord): string {
  const alter = chord.root.endsWith("b") ? -1 : chord.root.endsWith("#") ? 1 : 0;
  const alteration = alter === 0 ? "" : `<root-alter>${alter}</root-alter>`;
  return `<root><root-step>${chord.root[0]}</root-step>${alteration}</root>`;
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
