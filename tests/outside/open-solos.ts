/**
 * Improvised solos by many players with what people annotated of them: beats, bars, phrases and chords. The files lie
 * beside the checkout where they are present at all (`../shared/data/solos`) and are never part of the project; what
 * uses them says so and is skipped by name where they are missing.
 */
import { existsSync, readFileSync } from "node:fs";

const FOLDER = new URL("../../../shared/data/solos/", import.meta.url);

export const OPEN_SOLOS_MISSING = existsSync(new URL("MANIFEST.tsv", FOLDER))
  ? null
  : "the open solos are not beside this checkout";

export interface OpenNote {
  /** Seconds. */
  readonly onset: number;
  readonly duration: number;
  readonly pitch: number;
  /** As annotated: bar from 1 on, beat of the bar. */
  readonly bar: number;
  readonly beat: number;
  /** Place within the beat, from 1 to the number of parts that the beat is cut into. */
  readonly tatum: number;
  readonly division: number;
  /** Number of the annotated phrase. */
  readonly phrase: string;
  /** The chord as annotated. */
  readonly chord: string;
}

export interface OpenBeat {
  readonly seconds: number;
  readonly bar: number;
  readonly beat: number;
}

export interface OpenSolo {
  readonly id: string;
  readonly facts: Readonly<Record<string, string>>;
  readonly notes: readonly OpenNote[];
  readonly beats: readonly OpenBeat[];
  readonly chart: string;
  readonly midi: Uint8Array;
  /**
   * Which half it belongs to, by a hash of its number: what is learned from half 0 is tested on half 1. The set names
   * no players here, so the same player may stand in both.
   */
  readonly half: 0 | 1;
  /**
   * Kin of its instrument (0 to 3). Players are not named, and hardly anybody plays instruments of two kins: what was
   * learned from the other three has not heard the player.
   */
  readonly kin: number;
}

/** Instruments (as the manifest has them) of each kin; those of no other are the last. */
const KIN = [["tp", "cor"], ["as"], ["ts", "ss", "bs"]] as const;

function kinOf(instrument: string): number {
  const at = KIN.findIndex((kin) => (kin as readonly string[]).includes(instrument));
  return at < 0 ? KIN.length : at;
}

/** The half that a solo falls into: by a hash (FNV-1a) of its name, since players are not named. */
function halfOf(id: string): 0 | 1 {
  return ((fnv1a(id, 0x811c9dc5) >>> 16) & 1) as 0 | 1;
}

/** Solos of one half or of both, in the order of their names' hashes, so that the first `most` are a fair draw. */
export function drawnSolos(half: 0 | 1 | "all", most: number): OpenSolo[] {
  return manifest()
    .filter(({ id }) => half === "all" || halfOf(id!) === half)
    .sort((a, b) => fnv1a(a.id!, 0x9747b28c) - fnv1a(b.id!, 0x9747b28c))
    .slice(0, most)
    .map(readSolo);
}

/** All open solos, or none where they are missing. */
export function openSolos(): OpenSolo[] {
  return manifest().map(readSolo);
}

function fnv1a(text: string, seed: number): number {
  return [...text].reduce((hash, letter) => Math.imul(hash ^ letter.charCodeAt(0), 0x01000193) >>> 0, seed);
}

function manifest(): Record<string, string>[] {
  return OPEN_SOLOS_MISSING === null ? rows("MANIFEST.tsv") : [];
}

function readSolo(facts: Readonly<Record<string, string>>): OpenSolo {
  const id = facts.id!;
  return {
    id,
    facts,
    notes: rows(`${id}.notes.tsv`).map((row) => ({
      onset: Number(row.onset),
      duration: Number(row.duration),
      pitch: Number(row.pitch),
      bar: Number(row.bar),
      beat: Number(row.beat),
      tatum: Number(row.tatum),
      division: Number(row.division),
      phrase: row.phrase!,
      chord: row.chord!,
    })),
    beats: rows(`${id}.beats.tsv`).map((row) => ({
      seconds: Number(row.seconds),
      bar: Number(row.bar),
      beat: Number(row.beat),
    })),
    chart: text(`${id}.chart.txt`),
    midi: new Uint8Array(readFileSync(new URL(`${id}.mid`, FOLDER))),
    half: halfOf(id),
    kin: kinOf(facts.instrument!),
  };
}

function text(file: string): string {
  return readFileSync(new URL(file, FOLDER), "utf8");
}

function rows(file: string): Record<string, string>[] {
  const [head, ...lines] = text(file).trim().split("\n");
  const names = head!.split("\t");
  return lines.map((line) => {
    const cells = line.split("\t");
    return Object.fromEntries(names.map((name, i) => [name, cells[i] ?? ""]));
  });
}

/** Beats since the first annotated beat at a moment in seconds, by straight lines between the beats. */
export function beatClock(beats: readonly OpenBeat[]): (seconds: number) => number {
  return (seconds) => {
    let low = 0;
    let high = beats.length - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (beats[middle]!.seconds <= seconds) low = middle;
      else high = middle;
    }
    const [from, to] = [beats[low]!.seconds, beats[low + 1]!.seconds];
    return low + (seconds - from) / (to - from);
  };
}
