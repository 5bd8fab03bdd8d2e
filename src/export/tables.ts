/** The account as tables: one row a note, a phrase, an occurrence of a motif, a placement, a chorus. */
import { type Analysis, HARMONIC_ROLES, LINE_ROLES } from "../account.ts";

export type Cell = string | number | boolean | null;

export interface Column<Row> {
  readonly name: string;
  /** Dates are days, written 2026-03-01; the items of a list stand in one cell, see `listCell`. */
  readonly type: "text" | "integer" | "number" | "boolean" | "list" | "date";
  readonly value: (row: Row) => Cell;
}

/** Between the items of a list in a cell: the unit separator of ASCII, since items may hold spaces. */
export const BETWEEN = "\u001f";

/** A list as one cell. */
export function listCell(items: readonly (string | number)[]): string {
  return items.join(BETWEEN);
}

/** The items of a list's cell. */
export function itemsOfCell(cell: Cell): string[] | null {
  if (cell === null) return null;
  return cell === "" ? [] : String(cell).split(BETWEEN);
}

export interface Table<Row> {
  readonly columns: readonly Column<Row>[];
  readonly rows: (analysis: Analysis) => readonly Row[];
}

const text = <Row>(name: string, value: (row: Row) => string | null): Column<Row> => ({
  name,
  type: "text",
  value,
});
const integer = <Row>(name: string, value: (row: Row) => number | null): Column<Row> => ({
  name,
  type: "integer",
  value,
});
const number = <Row>(name: string, value: (row: Row) => number | null): Column<Row> => ({
  name,
  type: "number",
  value,
});
const list = <Row>(name: string, value: (row: Row) => readonly (string | number)[]): Column<Row> => ({
  name,
  type: "list",
  value: (row) => listCell(value(row)),
});
const flag = <Row>(name: string, value: (row: Row) => boolean): Column<Row> => ({
  name,
  type: "boolean",
  value,
});

type Note = Analysis["notes"][number];
type Phrase = Analysis["phrases"][number];
type Placement = Analysis["placements"][number];
type Chorus = Analysis["choruses"][number];
type Motif = Analysis["motifs"][number];
interface Occurrence {
  readonly motif: Motif;
  readonly occurrence: Motif["occurrences"][number];
}

export const NOTES: Table<Note> = {
  rows: (analysis) => analysis.notes,
  columns: [
    text("id", (note) => note.id),
    integer("pitch", (note) => note.pitch),
    text("spelling", (note) => note.spelling),
    number("onset", (note) => note.onset),
    number("duration", (note) => note.duration),
    number("beats", (note) => note.beats),
    integer("velocity", (note) => note.velocity),
    text("hand", (note) => note.hand),
    flag("solo", (note) => note.solo),
    integer("chorus", (note) => note.chorus),
    integer("bar", (note) => note.bar),
    number("beat", (note) => note.beat),
    number("position", (note) => note.position),
    text("chord", (note) => note.chord),
    text("degree", (note) => note.degree),
    text("role", (note) => note.role),
    flag("guideTone", (note) => note.guideTone),
    flag("blueInKey", (note) => note.blueInKey),
    text("lineRole", (note) => note.lineRole),
    text("target", (note) => note.target),
    number("strength", (note) => note.strength),
    text("placement", (note) => note.placement),
    integer("finger", (note) => note.finger),
    text("fingerSource", (note) => note.fingerSource),
    text("slide", (note) => note.slide),
    text("phrase", (note) => note.phrase),
    list("motifs", (note) => note.motifs),
    number("timing", (note) => note.timing),
    text("account", (note) => note.account),
    text("printedFingers", (note) => fingerMarks(note.printedFingers ?? [])),
    number("certainty", (note) => note.certainty ?? null),
  ],
};

/** "2-3" for a change of finger on the held key, "2 (3)" for an alternate, "1 3" for two plain marks. */
function fingerMarks(marks: NonNullable<Note["printedFingers"]>): string {
  return marks
    .map(({ finger, substitution, alternate }, i) => {
      const before = i === 0 ? "" : substitution ? "-" : " ";
      return `${before}${alternate ? `(${finger})` : finger}`;
    })
    .join("");
}

const PHRASES: Table<Phrase> = {
  rows: (analysis) => analysis.phrases,
  columns: [
    text("id", (phrase) => phrase.id),
    text("firstNote", (phrase) => phrase.firstNote),
    text("lastNote", (phrase) => phrase.lastNote),
    integer("notes", (phrase) => phrase.notes),
    integer("chorus", (phrase) => phrase.chorus),
    integer("bar", (phrase) => phrase.bar),
    number("beat", (phrase) => phrase.beat),
    number("bars", (phrase) => phrase.bars),
    number("seconds", (phrase) => phrase.seconds),
    number("restSeconds", (phrase) => phrase.restSeconds),
    number("restBeats", (phrase) => phrase.restBeats),
    integer("low", (phrase) => phrase.low),
    integer("high", (phrase) => phrase.high),
    text("shape", (phrase) => phrase.shape),
    text("answers", (phrase) => phrase.answers),
    number("boundary", (phrase) => phrase.boundary),
  ],
};

const MOTIFS: Table<Occurrence> = {
  rows: (analysis) =>
    analysis.motifs.flatMap((motif) => motif.occurrences.map((occurrence) => ({ motif, occurrence }))),
  columns: [
    text("motif", ({ motif }) => motif.id),
    text("viewpoint", ({ motif }) => motif.viewpoint),
    list("pattern", ({ motif }) => motif.pattern),
    integer("length", ({ motif }) => motif.length),
    number("expected", ({ motif }) => motif.expected),
    number("q", ({ motif }) => motif.q),
    text("firstNote", ({ occurrence }) => occurrence.firstNote),
    text("lastNote", ({ occurrence }) => occurrence.lastNote),
    integer("chorus", ({ occurrence }) => occurrence.chorus),
    integer("bar", ({ occurrence }) => occurrence.bar),
    number("beat", ({ occurrence }) => occurrence.beat),
    text("relation", ({ occurrence }) => occurrence.relation),
    text("change", ({ occurrence }) => occurrence.change),
    integer("transposition", ({ occurrence }) => occurrence.transposition),
  ],
};

const PLACEMENTS: Table<Placement> = {
  rows: (analysis) => analysis.placements,
  columns: [
    text("id", (placement) => placement.id),
    text("shape", (placement) => placement.shape),
    integer("anchorPitch", (placement) => placement.anchorPitch),
    integer("anchorFinger", (placement) => placement.anchorFinger),
    text("anchorDegree", (placement) => placement.anchorDegree),
    text("chord", (placement) => placement.chord),
    integer("chorus", (placement) => placement.chorus),
    integer("bar", (placement) => placement.bar),
    number("beat", (placement) => placement.beat),
    text("firstNote", (placement) => placement.firstNote),
    text("lastNote", (placement) => placement.lastNote),
    integer("notes", (placement) => placement.notes),
    integer("shift", (placement) => placement.shift),
    flag("fitsChord", (placement) => placement.fitsChord),
  ],
};

const CHORUSES: Table<Chorus> = {
  rows: (analysis) => analysis.choruses,
  columns: [
    integer("chorus", (chorus) => chorus.chorus),
    integer("notes", (chorus) => chorus.notes),
    integer("low", (chorus) => chorus.register.low),
    integer("high", (chorus) => chorus.register.high),
    number("notesPerBar", (chorus) => chorus.density.perBar),
    number("notesPerSecond", (chorus) => chorus.density.perSecond),
    number("swing", (chorus) => chorus.swing?.median ?? null),
    number("placementShare", (chorus) => chorus.placementShare),
    number("runShare", (chorus) => chorus.runShare),
    number("rests", (chorus) => chorus.rests),
    integer("phrases", (chorus) => chorus.phrases),
    ...HARMONIC_ROLES.map((role) => number<Chorus>(`role ${role}`, (chorus) => chorus.roles[role] ?? 0)),
    ...LINE_ROLES.map((role) => number<Chorus>(`line ${role}`, (chorus) => chorus.lineRoles[role] ?? 0)),
  ],
};

export const TABLES = {
  notes: NOTES,
  phrases: PHRASES,
  motifs: MOTIFS,
  placements: PLACEMENTS,
  choruses: CHORUSES,
} as unknown as Readonly<Record<TableName, Table<unknown>>>;

export const TABLE_NAMES = ["notes", "phrases", "motifs", "placements", "choruses"] as const;

export type TableName = (typeof TABLE_NAMES)[number];
