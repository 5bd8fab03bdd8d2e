/**
 * Files that are wrong or meant to harm: the processor's time until reading ends, and how much memory it needs beyond the
 * file, each in a process of its own, beside a bare parse of a valid file of as many bytes (midi-file, or saxes with
 * musicxml-interfaces). Of files over 4 MB the bare parse is that of 4 MB, multiplied.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import { CONTAINER, REFUSED, SCORE } from "../ingest/harmful-files.ts";
import { midiFile, trackChunk } from "../ingest/midi-bytes.ts";
import { attributes, bar, note, score } from "../ingest/score-text.ts";
import type { Bench } from "./types.ts";

const LARGEST_FLOOR = 4_000_000;

interface Reading {
  readonly ms: number;
  readonly megabytes: number;
  readonly ending: string;
}

/** One of the kinds of bad input, as the tests build it. */
function refused(what: string): Uint8Array {
  return REFUSED.find(([name]) => name === what)![2]();
}

const MIDI = midiFile(
  0,
  96,
  trackChunk(...Array.from({ length: 200 }, (_, i) => [i % 2, 0x90, 60, i % 2 === 0 ? 64 : 0])),
);

const CASES: readonly {
  readonly name: string;
  readonly floor: "midi" | "xml";
  readonly how?: "cuts";
  readonly file: () => Uint8Array;
}[] = [
  { name: "wrong type (a PDF)", floor: "xml", file: () => refused("a PDF") },
  { name: "MIDI cut at every byte", floor: "midi", how: "cuts", file: () => MIDI },
  { name: "MusicXML cut at every byte", floor: "xml", how: "cuts", file: () => SCORE },
  {
    name: "compressed MusicXML cut at every byte",
    floor: "xml",
    how: "cuts",
    file: () => zipSync({ "META-INF/container.xml": CONTAINER, "score.xml": SCORE }),
  },
  { name: "a billion laughs", floor: "xml", file: () => refused("a billion laughs") },
  { name: "an external entity", floor: "xml", file: () => refused("an external entity") },
  { name: "a zip bomb", floor: "xml", file: () => refused("a zip bomb") },
  {
    name: "a zip bomb that lies about its size",
    floor: "xml",
    file: () => refused("a zip bomb that lies about its size"),
  },
  {
    name: "a path leading out of the zip",
    floor: "xml",
    file: () => {
      const container =
        '<container><rootfiles><rootfile full-path="../../../score.xml"/></rootfiles></container>';
      return zipSync({
        "META-INF/container.xml": new TextEncoder().encode(container),
        "../../../score.xml": SCORE,
      });
    },
  },
  { name: "100 MB of MIDI", floor: "midi", file: () => refused("100 MB of MIDI") },
  { name: "100 MB of MusicXML", floor: "xml", file: () => refused("100 MB of XML") },
  { name: "a million MIDI notes", floor: "midi", file: () => refused("a million MIDI notes") },
  {
    name: "a million MusicXML notes",
    floor: "xml",
    file: () => score(bar(1, attributes(1) + "<note/>".repeat(1e6))),
  },
  { name: "900,000 elements", floor: "xml", file: () => refused("more elements than a score can have") },
  { name: "NUL bytes", floor: "xml", file: () => refused("NUL bytes") },
  { name: "nested 10,000 deep", floor: "xml", file: () => refused("elements nested 10,000 deep") },
  { name: "repeats of repeats", floor: "xml", file: () => refused("repeats of repeats") },
];

/** Valid music of about so many bytes. */
function valid(kind: "midi" | "xml", bytes: number): Uint8Array {
  if (kind === "midi") {
    const notes = new Uint8Array(Math.max(8, bytes - 22) & ~7);
    for (let i = 0; i < notes.length; i += 8) notes.set([0, 0x90, 60, 64, 1, 0x80, 60, 0], i);
    const file = new Uint8Array(22 + notes.length);
    file.set(midiFile(0, 96, trackChunk()));
    new DataView(file.buffer).setUint32(18, notes.length);
    file.set(notes, 22);
    return file;
  }
  const one = bar(1, attributes(1) + note("C4", 4));
  return score(one.repeat(Math.max(1, Math.round((bytes - SCORE.length) / one.length))));
}

function line({ name, floor, how, file }: (typeof CASES)[number], folder: string): string {
  const read = (bytes: Uint8Array, way: string): Reading => {
    const path = join(folder, "file");
    writeFileSync(path, bytes);
    const script = new URL("read-once.ts", import.meta.url).pathname;
    return JSON.parse(
      execFileSync(process.execPath, ["--import", "tsx", script, path, way], { encoding: "utf8" }),
    ) as Reading;
  };
  const bytes = file();
  const size = Math.min(LARGEST_FLOOR, bytes.length);
  const times = (bytes.length / size) * (how === "cuts" ? bytes.length : 1);
  const ours = read(bytes, how ?? "take");
  const bare = read(valid(floor, size), floor);
  const [ms, megabytes] = [bare.ms * times, bare.megabytes * (bytes.length / size)];
  return `${name}, ${bytes.length.toLocaleString("en")} bytes: ${ours.ms.toFixed(0)} ms (${(ours.ms / ms).toFixed(2)} times a bare parse of as many; bound 2000 ms), ${ours.megabytes.toFixed(0)} MB (bare parse ${megabytes.toFixed(0)}); ${ours.ending}`;
}

export const bench: Bench = {
  name: "files that are wrong or meant to harm",
  run() {
    const folder = mkdtempSync(join(tmpdir(), "ledgerline-bench-"));
    try {
      return CASES.map((one) => line(one, folder));
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
};
