/**
 * `npm run report -- devices`: how often each device is said of random lines (the floor), of the demo takes and of the
 * open solos.
 */
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { DEVICE_NAMES, findDevices } from "../../src/devices/index.ts";
import { labelNotes } from "../../src/harmony/index.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import { demoAccount, demoClass } from "../demo-class.ts";
import { randomLine } from "../devices/random-lines.ts";
import { placedSolos } from "../outside/placed-solos.ts";

const LINES = 500;

export function report(): void {
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

function phrasesOf(ids: readonly string[], phrases: readonly string[]) {
  const found: { firstNote: string; lastNote: string }[] = [];
  phrases.forEach((phrase, i) => {
    if (i === 0 || phrase !== phrases[i - 1]) found.push({ firstNote: ids[i]!, lastNote: ids[i]! });
    else found[found.length - 1] = { ...found.at(-1)!, lastNote: ids[i]! };
  });
  return found;
}
