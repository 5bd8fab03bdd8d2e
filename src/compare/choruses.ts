import type {
  AccountMotif,
  AccountNote,
  AccountPhrase,
  AccountPlacement,
  AccountRun,
  ChorusSummary,
  SwingSummary,
} from "../account.ts";
import type { Chart } from "../chart/types.ts";
import type { Alignment } from "../take/index.ts";
import { registerOf } from "./register.ts";
import { restShare, type Stretch } from "./rests.ts";
import { sharesOf } from "./shares.ts";

/** What a chorus is summed up from: the account as far as it is known before the summaries. */
export interface ChorusMaterial {
  /** All notes of the take in time order, solo and not. */
  readonly notes: readonly AccountNote[];
  readonly placements: readonly AccountPlacement[];
  readonly phrases: readonly AccountPhrase[];
  readonly runs: readonly AccountRun[];
  readonly motifs: readonly AccountMotif[];
  readonly alignment: Pick<Alignment, "bars" | "choruses">;
  readonly chart: Pick<Chart, "bars">;
  /** Swing of a set of solo notes; null when there is too little to measure. */
  readonly swingOf: (notes: readonly AccountNote[]) => SwingSummary | null;
}

/**
 * One summary for each chorus of the alignment, also for a chorus in which the solo is silent. Shares of roles, line
 * roles and degrees are shares of the chorus's solo notes; densities are solo notes a bar (of the chart's bars that
 * were played) and a second; `rests` is the share of the chorus's time in which no solo key is held.
 */
export function summariseChoruses(material: ChorusMaterial): ChorusSummary[] {
  const { alignment, phrases, swingOf } = material;
  const solo = material.notes.filter((note) => note.solo);
  const byChorus = new Map<number, AccountNote[]>();
  for (const note of solo) {
    const list = byChorus.get(note.chorus);
    if (list) list.push(note);
    else byChorus.set(note.chorus, [note]);
  }
  const running = notesInRuns(solo, material.runs);
  const known = new Set(material.motifs.map((motif) => motif.id));
  return Array.from({ length: alignment.choruses }, (_, k) => {
    const chorus = k + 1;
    const notes = byChorus.get(chorus) ?? [];
    const time = timeOfChorus(material, chorus);
    const count = Math.max(1, notes.length);
    return {
      chorus,
      notes: notes.length,
      roles: sharesOf(notes.map((note) => note.role)),
      lineRoles: sharesOf(notes.map((note) => note.lineRole)),
      degrees: sharesOf(notes.map((note) => note.degree)),
      register: registerOf(notes.map((note) => note.pitch)),
      density: {
        perBar: time.bars > 0 ? notes.length / time.bars : 0,
        perSecond: time.end > time.start ? notes.length / (time.end - time.start) : 0,
      },
      swing: swingOf(notes),
      placements: distinct(notes.map((note) => note.placement)),
      placementShare: notes.filter((note) => note.placement !== null).length / count,
      motifs: distinct(notes.flatMap((note) => note.motifs)).filter((id) => known.has(id)),
      runShare: notes.filter((note) => running.has(note.id)).length / count,
      rests: restShare(notes, time),
      phrases: phrases.filter((phrase) => phrase.chorus === chorus).length,
    };
  });
}

/** Ids of the notes that belong to a stepwise run. */
export function notesInRuns(solo: readonly AccountNote[], runs: readonly AccountRun[]): Set<string> {
  const place = new Map(solo.map((note, index) => [note.id, index]));
  const inside = new Set<string>();
  for (const run of runs) {
    const first = place.get(run.firstNote);
    const last = place.get(run.lastNote);
    if (first === undefined || last === undefined) continue;
    for (let i = first; i <= last; i++) inside.add(solo[i]!.id);
  }
  return inside;
}

function timeOfChorus(material: ChorusMaterial, chorus: number): Stretch & { bars: number } {
  const bars = material.alignment.bars.filter(
    (bar) => bar.chorus === chorus && bar.bar >= 1 && bar.bar <= material.chart.bars.length,
  );
  if (bars.length === 0) return { start: 0, end: 0, bars: 0 };
  return { start: bars[0]!.start, end: bars[bars.length - 1]!.end, bars: bars.length };
}

function distinct(values: readonly (string | null)[]): string[] {
  return [...new Set(values.filter((value) => value !== null))];
}
