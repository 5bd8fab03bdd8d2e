/**
 * `npm run report -- devices`: how often each device is said of random lines (the floor), of the demo takes and of the
 * open solos. `npm run report -- devices draw [SEED]` prints readings of the open solos drawn at random, to be judged
 * by hand against the definitions (`src/devices/certainty.ts` keeps what came of it).
 */
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { DEVICE_NAMES, findDevices } from "../../src/devices/index.ts";
import { labelNotes } from "../../src/harmony/index.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import { demoAccount, demoClass } from "../demo-class.ts";
import { randomLine } from "../devices/random-lines.ts";
import { placedSolos } from "../outside/placed-solos.ts";

const LINES = 500;

export function report(args: string[]): void {
  if (args[0] === "draw") drawn(Number(args[1] ?? 1));
  else counted();
}

function counted(): void {
  const random = new Map<string, number>();
  const chance = chanceFrom(7);
  const forms = [
    formChart("blues-basic", "F"),
    formChart("two-five-one", "C"),
    formChart("aaba-dominant-bridge", "Bb"),
  ];
  for (let i = 0; i < LINES; i++) {
    const chart = forms[i % forms.length]!;
    const spans = chordSpans(chart);
    const { notes, phrases } = randomLine(chance, chart, spans);
    const names = new Set(
      findDevices(notes, labelNotes(notes, chart, spans), spans, phrases).map(({ name }) => name),
    );
    for (const name of names) random.set(name, (random.get(name) ?? 0) + 1);
  }
  const real = new Map<string, number>();
  let notes = 0;
  for (const solo of placedSolos()) {
    notes += solo.notes.length;
    const labels = labelNotes(solo.notes, solo.chart, solo.spans);
    const phrases = phrasesOf(
      solo.notes.map(({ id }) => id),
      solo.phrases,
    );
    for (const { name } of findDevices(solo.notes, labels, solo.spans, phrases))
      real.set(name, (real.get(name) ?? 0) + 1);
  }
  const demo = demoClass.takes.flatMap((take) => demoAccount(take).devices);
  console.log(
    `device                 random lines (of ${LINES}, 64 notes)   per 1000 notes of open solos   demo takes`,
  );
  for (const name of DEVICE_NAMES) {
    const share = `${((100 * (random.get(name) ?? 0)) / LINES).toFixed(1)} %`;
    const rate = notes === 0 ? "-" : ((1000 * (real.get(name) ?? 0)) / notes).toFixed(2);
    const said = demo.filter((device) => device.name === name).length;
    console.log(`${name.padEnd(22)} ${share.padStart(12)} ${rate.padStart(30)} ${String(said).padStart(20)}`);
  }
}

const DRAWN = 8;
/** Notes shown before and after a reading. */
const BEFORE = 2;
const AFTER = 3;

/** Readings of each device, each as its notes in brackets between their neighbours: name@beat/degree. */
function drawn(seed: number): void {
  const chance = chanceFrom(seed);
  const byName = new Map<string, string[]>();
  for (const solo of placedSolos()) {
    const ids = solo.notes.map(({ id }) => id);
    const labels = labelNotes(solo.notes, solo.chart, solo.spans);
    for (const device of findDevices(solo.notes, labels, solo.spans, phrasesOf(ids, solo.phrases))) {
      const [first, last] = [ids.indexOf(device.firstNote), ids.indexOf(device.lastNote)];
      const shown = labels.slice(Math.max(0, first - BEFORE), last + AFTER + 1).map((label, k) => {
        const at = Math.max(0, first - BEFORE) + k;
        const beat = Number(solo.notes[at]!.beat?.toFixed(2));
        const chord = at === 0 || labels[at - 1]!.chord !== label.chord ? `{${label.chord}} ` : "";
        const [open, close] = [at === first ? "[" : "", at === last ? "]" : ""];
        return `${chord}${open}${label.spelling}@${beat}/${label.degree}${close}`;
      });
      byName.set(device.name, [...(byName.get(device.name) ?? []), `${solo.id} ${shown.join(" ")}`]);
    }
  }
  for (const name of DEVICE_NAMES) {
    const all = byName.get(name) ?? [];
    console.log(`${name} (${all.length})`);
    const order = all.map((reading) => [chance(), reading] as const).sort(([a], [b]) => a - b);
    for (const [, reading] of order.slice(0, DRAWN)) console.log(`  ${reading}`);
  }
}

function phrasesOf(ids: readonly string[], phrases: readonly string[]) {
  const found: { firstNote: string; lastNote: string }[] = [];
  phrases.forEach((phrase, i) => {
    if (i === 0 || phrase !== phrases[i - 1]) found.push({ firstNote: ids[i]!, lastNote: ids[i]! });
    else found[found.length - 1] = { ...found.at(-1)!, lastNote: ids[i]! };
  });
  return found;
}
