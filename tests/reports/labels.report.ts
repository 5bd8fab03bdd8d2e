/**
 * `npm run report -- labels`: how many notes of the demo takes and of all package files have all of their labels, and
 * how often each label is said of the notes of the open solos, at their true places.
 */
import { readdirSync } from "node:fs";
import { labelNotes } from "../../src/harmony/index.ts";
import { taken, unlabelled } from "../outside/every-note.ts";
import { FOREIGN_FILES, type ForeignFile } from "../outside/foreign-files.ts";
import { type PlacedSolo, placedSolos } from "../outside/placed-solos.ts";

const DEMO: readonly ForeignFile[] = readdirSync("corpus/takes")
  .filter((name) => /\.(mid|musicxml)$/.test(name))
  .map((name) => ({ package: "demo takes", name, path: `corpus/takes/${name}` }));

export function report(): void {
  const files = [...DEMO, ...FOREIGN_FILES];
  for (const name of [...new Set(files.map((file) => file.package))]) {
    let [read, notes, without] = [0, 0, 0];
    for (const file of files.filter((one) => one.package === name)) {
      const take = taken(file);
      if (take === null) continue;
      read += 1;
      notes += take.notes.length;
      without += unlabelled(take).length;
    }
    console.log(`${name.padEnd(24)} ${read} files, ${notes} notes, ${without} without a label`);
  }
  reportOpenSolos();
}

function reportOpenSolos(): void {
  const solos = placedSolos();
  if (solos.length === 0) {
    console.log("open solos               skipped: ../shared/data/solos is not there");
    return;
  }
  const lineRoles = new Map<string, number>();
  const roles = new Map<string, number>();
  const pushes = new Map<string, number>();
  const add = (counts: Map<string, number>, name: string) => counts.set(name, (counts.get(name) ?? 0) + 1);
  let notes = 0;
  for (const solo of solos) {
    const labels = labelNotes(solo.notes, solo.chart, solo.spans);
    notes += labels.length;
    labels.forEach((label, i) => {
      add(lineRoles, label.lineRole!);
      add(roles, label.role!);
      if (label.lineRole === "anticipation") add(pushes, afterPush(solo, i));
    });
  }
  console.log(`open solos               ${solos.length} solos, ${notes} notes; of 100 notes:`);
  console.log(`  line role      ${shares(lineRoles, notes)}`);
  console.log(`  harmonic role  ${shares(roles, notes)}`);
  console.log(`  after an anticipation, of 100: ${shares(pushes, sum(pushes))}`);
}

/** What the solo does after a note that is said to be early, counted without the rule. */
function afterPush({ chart, spans, notes }: PlacedSolo, i: number): string {
  const note = notes[i]!;
  const next = notes[i + 1];
  const chorus = spans.at(-1)!.start + spans.at(-1)!.beats;
  const span = spans[note.span]!;
  const change = span.start + span.beats - (((note.position! % chorus) + chorus) % chorus);
  if (next === undefined) return "ends the solo";
  const until = next.position! - note.position!;
  if (next.pitch === note.pitch && until <= change + chart.meter.beats / 2) return "is struck again";
  if (until < change + 0.5 - 1e-6) return "runs on";
  return note.beats! > change ? "is held over" : "stands before a rest";
}

function sum(counts: ReadonlyMap<string, number>): number {
  return [...counts.values()].reduce((all, count) => all + count, 0);
}

function shares(counts: ReadonlyMap<string, number>, all: number): string {
  return [...counts]
    .sort((a, b) => b[1] - a[1])
    .map(([name, count]) => `${name} ${((100 * count) / all).toFixed(2)}`)
    .join(", ");
}
