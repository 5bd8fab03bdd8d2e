/**
 * Reads one file in a process of its own, for `harmful.bench.ts`: prints milliseconds of the processor and the megabytes of memory that
 * reading needed beyond the file itself, as JSON. Arguments: path, and "take", "cuts", "midi" or "xml".
 */
import { readFileSync } from "node:fs";
import { parseMidi } from "midi-file";
import { readTake } from "../../src/ingest/index.ts";
import { Problem } from "../../src/take/index.ts";
import { bareMusicXml } from "./bare-musicxml.ts";

const [path, how] = process.argv.slice(2) as [string, "take" | "cuts" | "midi" | "xml"];
const bytes = new Uint8Array(readFileSync(path));

function read(file: Uint8Array): string {
  try {
    const { notes, warnings } = readTake(file, { name: "file" });
    return `read: ${notes.length} notes, ${warnings.map(({ code }) => code).join(", ") || "no warning"}`;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return error.where === null ? error.code : `${error.code} at ${error.where}`;
  }
}

function run(): string {
  switch (how) {
    case "take":
      return read(bytes);
    case "cuts": {
      const endings = new Map<string, number>();
      for (let length = 0; length < bytes.length; length++) {
        const ending = read(bytes.subarray(0, length)).split(/[ :]/)[0]!;
        endings.set(ending, (endings.get(ending) ?? 0) + 1);
      }
      return [...endings].map(([ending, times]) => `${times} ${ending}`).join(", ");
    }
    case "midi":
      return String(parseMidi(bytes).tracks.length);
    case "xml":
      return String(bareMusicXml(new TextDecoder().decode(bytes)));
  }
}

/** The most that this process has held so far, in megabytes. */
const peak = (): number => process.resourceUsage().maxRSS / 1024;

const before = peak();
const start = process.cpuUsage();
const ending = run();
const { user, system } = process.cpuUsage(start);
const ms = (user + system) / 1000;
console.log(JSON.stringify({ ms, megabytes: peak() - before, ending }));
