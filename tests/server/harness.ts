/** A server of its own for a test: a free port, a store of its own, no demo corpus unless asked for. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pino from "pino";
import { type RunningServer, type StartOptions, startServer } from "../../server/start.ts";
import { checkAnswersOf } from "../contract/checked-answers.ts";
import { copyDemoStore } from "../demo-store.ts";
import { holdStore } from "./held-store.ts";

/** Where servers of tests keep their store: a new database for each, or in memory while this is null. */
export const store: { database: (() => Promise<string>) | null } = { database: null };

/** With the demo corpus: on a copy of the embedded store that has it, unless the tests run on a database server. */
export async function serveDemo(): Promise<RunningServer> {
  if (store.database !== null) return serve({ demo: true });
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-demo-"));
  await holdStore();
  await copyDemoStore(folder);
  const server = await serve({ dataDir: folder });
  return {
    ...server,
    close: async () => {
      await server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export async function serve(options: Partial<StartOptions> = {}): Promise<RunningServer> {
  const databaseUrl = await store.database?.();
  if (databaseUrl === undefined) await holdStore();
  const server = await startServer({
    port: 0,
    dataDir: null,
    databaseUrl,
    demo: false,
    log: pino({ level: "silent" }),
    ...options,
  });
  checkAnswersOf(server.url);
  return server;
}

/** The meta event of a meter of 4/4, at the start: beat 1 is stated then. */
const FOUR_FOUR = [0x00, 0xff, 0x58, 0x04, 0x04, 0x02, 0x18, 0x08];

/** A format 0 MIDI file of quarter notes at 120 a minute, in the Standard MIDI File layout, written by hand. */
export function smallMidi(pitches: readonly number[], { inFour = false } = {}): Uint8Array {
  const events = pitches.flatMap((pitch) => [0x00, 0x90, pitch, 0x50, 0x60, 0x80, pitch, 0x00]);
  const track = [
    0x00,
    0xff,
    0x51,
    0x03,
    0x07,
    0xa1,
    0x20,
    ...(inFour ? FOUR_FOUR : []),
    ...events,
    0x00,
    0xff,
    0x2f,
    0x00,
  ];
  const length = [24, 16, 8, 0].map((shift) => (track.length >> shift) & 0xff);
  return Uint8Array.from([
    ...[0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0, 0x60],
    ...[0x4d, 0x54, 0x72, 0x6b, ...length],
    ...track,
  ]);
}

/** Four bars in F, a quarter note a beat: arpeggios of the chords of `FOUR_BARS`. */
export const FOUR_BARS = "key: F\nidiom: blues\n| F7 | Bb7 | C7 | F7 |";
export const ARPEGGIOS = [65, 69, 72, 75, 70, 74, 77, 80, 72, 76, 79, 82, 77, 75, 72, 69];

export function takeForm(
  fields: Readonly<Record<string, string>>,
  bytes: Uint8Array,
  name = "march.mid",
): FormData {
  const form = new FormData();
  form.append("file", new Blob([bytes as BlobPart]), name);
  for (const [field, value] of Object.entries(fields)) form.append(field, value);
  return form;
}
