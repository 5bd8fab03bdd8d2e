/**
 * `npm run report -- sentences [SEED] [COUNT]`: sentences drawn at random, half of them from the demo takes and half from
 * the held-out half of the open solos (placed as people annotated them), each with the notes and chords around it, to be
 * judged as a teacher would. Notes are name@beat/degree, `{}` the chord, `[]` the note that is spoken of, `.` a rest.
 */
import { labelNotes, type NoteLabel, sentenceFor } from "../../src/harmony/index.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import { demoAccount, demoClass } from "../demo-class.ts";
import { drawnSolos } from "../outside/open-solos.ts";
import { placedSolos } from "../outside/placed-solos.ts";

/** Notes shown before and after. */
const BEFORE = 4;
const AFTER = 4;
/** A rest is shown from so many beats on. */
const REST = 0.5;

interface Shown {
  readonly chord: string | null;
  readonly spelling: string;
  readonly degree: string | null;
  readonly bar: number;
  readonly beat: number | null;
  readonly onset: number;
  readonly end: number;
  readonly account: string;
  readonly label: string;
}

export function report(args: string[]): void {
  const chance = chanceFrom(Number(args[0] ?? 1));
  const count = Number(args[1] ?? 100);
  const demo = demoLines();
  const open = openLines();
  const kinds = open.length === 0 ? [demo] : [demo, open];
  for (let i = 0; i < count; i++) {
    const lines = kinds[i % kinds.length]!;
    const { name, notes } = lines[Math.floor(chance() * lines.length)]!;
    const at = Math.floor(chance() * notes.length);
    console.log(`${i + 1}. ${name} (${notes[at]!.label})\n   ${around(notes, at)}\n   ${notes[at]!.account}`);
  }
}

interface NamedLine {
  readonly name: string;
  readonly notes: readonly Shown[];
}

function demoLines(): NamedLine[] {
  return demoClass.takes.map((take) => {
    const { notes, chart } = demoAccount(take);
    const solo = notes.filter((note) => note.solo);
    return {
      name: `${take.id} in ${chart.key}, ${chart.idiom}`,
      notes: solo.map((note) => ({
        ...note,
        end: note.position === null ? note.onset + note.duration : note.position + note.beats!,
        onset: note.position ?? note.onset,
        label: `${note.role}, ${note.lineRole}`,
      })),
    };
  });
}

function openLines(): NamedLine[] {
  const heldOut = new Set(drawnSolos(1, Number.MAX_SAFE_INTEGER).map(({ id }) => id));
  return placedSolos()
    .filter(({ id }) => heldOut.has(id))
    .map(({ id, notes, chart, spans }) => {
      const labels = labelNotes(notes, chart, spans);
      const placeOf = new Map(notes.map((note, i) => [note.id, i]));
      const shownOf = (note: PlacedNote, label: NoteLabel): Shown => {
        const at = label.target === null ? null : placeOf.get(label.target)!;
        const account = sentenceFor(note, label, {
          target: at === null ? null : notes[at]!,
          targetLabel: at === null ? null : labels[at]!,
          span: spans[note.span]!,
          nextSpan: spans[(note.span + 1) % spans.length]!,
          meter: chart.meter,
          finger: null,
          slide: false,
        });
        return {
          ...label,
          bar: note.bar,
          beat: note.beat,
          onset: note.position!,
          end: note.position! + note.beats!,
          account,
          label: `${label.role}, ${label.lineRole}`,
        };
      };
      return {
        name: `${id} in ${chart.key.tonic} ${chart.key.mode}, ${chart.idiom}`,
        notes: notes.map((note, i) => shownOf(note, labels[i]!)),
      };
    });
}

function around(notes: readonly Shown[], at: number): string {
  const first = Math.max(0, at - BEFORE);
  let [bar, chord] = [-1, "" as string | null];
  return notes
    .slice(first, at + AFTER + 1)
    .map((note, k) => {
      const before = k === 0 ? undefined : notes[first + k - 1];
      const rest = before !== undefined && note.onset - before.end >= REST ? ". " : "";
      const line = note.bar === bar ? "" : `|${note.bar} `;
      const over = note.chord === chord && note.bar === bar ? "" : `{${note.chord}} `;
      [bar, chord] = [note.bar, note.chord];
      const beat = note.beat === null ? "" : `@${Number(note.beat.toFixed(2))}`;
      const name = `${note.spelling}${beat}/${note.degree}`;
      return `${rest}${line}${over}${first + k === at ? `[${name}]` : name}`;
    })
    .join(" ");
}
