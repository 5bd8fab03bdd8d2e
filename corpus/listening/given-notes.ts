/**
 * Notes for the pianos of the listening network to play: takes of our generator with seeds that no demo uses, and every
 * second of the folder of solos that is named (the others are held back). One piece a line, as [onset, seconds, pitch,
 * velocity] lists: `npx tsx corpus/listening/given-notes.ts OUT [SOLOS]`.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { readTake } from "../../src/ingest/index.ts";
import { generateTake } from "../generator/generate-take.ts";
import { randomSpec } from "../generator/random-spec.ts";

/** Far from the seeds of the demo class and of the tests. */
const FIRST_SEED = 710_000;
const TAKES = 160;

const [out, solos] = process.argv.slice(2);
if (out === undefined) throw new Error("say where to write: given-notes.ts OUT [SOLOS]");

const lines: string[] = [];
for (let seed = FIRST_SEED; seed < FIRST_SEED + TAKES; seed++)
  lines.push(notesOf(generateTake(seed, randomSpec(seed, { free: seed % 2 === 0 })).bytes));
if (solos !== undefined) {
  const files = readdirSync(solos).filter((file) => /^solo-\d*[02468]\.mid$/.test(file));
  for (const file of files.sort()) lines.push(notesOf(readFileSync(`${solos}/${file}`)));
}
writeFileSync(out, `${lines.join("\n")}\n`);
console.log(`${lines.length} pieces written to ${out}`);

function notesOf(bytes: Uint8Array): string {
  const round = (seconds: number) => Math.round(seconds * 1e4) / 1e4;
  const { notes } = readTake(bytes, { name: "given" });
  return JSON.stringify(notes.map((n) => [round(n.onset), round(n.duration), n.pitch, n.velocity]));
}
