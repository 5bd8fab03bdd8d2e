/**
 * `npm run report -- listening-others [TAKES] [upright=FOLDER]`: how often a piano is refused that is one, and how often
 * something else is taken for one. Pianos, instruments, voices and rooms are none of the training's.
 */
import { fileURLToPath } from "node:url";
import { openNetwork } from "../../server/listen/network.ts";
import { readTake } from "../../src/ingest/index.ts";
import { COMPANY_WIDTH, companyOf, PIANO_SHARE } from "../../src/listen/company.ts";
import type { Company, Network } from "../../src/listen/index.ts";
import { LEAD_IN, piecesOf } from "../../src/listen/pieces.ts";
import { createSpectrum, framesOf } from "../../src/listen/spectrum.ts";
import type { Note } from "../../src/take/index.ts";
import { demoBytes, demoClass } from "../demo-class.ts";
import { clicks, PROGRAMS, playedBy, playedByBand, spoken, together } from "../listen/rendered/others.ts";
import {
  RENDERING_MISSING,
  renderGrand,
  SURROUNDINGS,
  type Surroundings,
} from "../listen/rendered/render.ts";
import { openUpright, playUpright } from "../listen/rendered/upright.ts";

const NETWORK = fileURLToPath(new URL("../../src/listen/network/piano.onnx", import.meta.url));
/** Seconds of each recording. */
const SECONDS = 20;
const RATE = 16_000;
/** Louder (+) or softer (-) than the piano. */
const LEVELS = [0, -12, -24] as const;
const TALK =
  "Play that bridge again, please, and this time a little slower, with the left hand alone. Listen to the bass.";

type Made = readonly [what: string, sound: Float32Array];

export async function report(args: string[]): Promise<void> {
  if (RENDERING_MISSING !== null) return console.log(RENDERING_MISSING);
  const network = await openNetwork(NETWORK);
  const count = Number(args.find((arg) => /^\d+$/.test(arg)) ?? 6);
  const folder = args.find((arg) => arg.startsWith("upright="))?.slice("upright=".length);
  const tally = new Map<string, Company[]>();
  for await (const [what, sound] of recordings(count, folder)) {
    for (const room of ["direct", "phone"] as const satisfies Surroundings[]) {
      const company = await companyIn(SURROUNDINGS[room](sound), network);
      tally.set(`${what}, ${room}`, [...(tally.get(`${what}, ${room}`) ?? []), company]);
    }
  }
  for (const [what, companies] of tally) tell(what, companies);
}

async function* recordings(count: number, folder: string | undefined): AsyncGenerator<Made> {
  const upright = folder === undefined ? null : await openUpright(folder);
  const voices = [await spoken(TALK), await spoken(TALK, "en-us+f3")].filter((voice) => voice !== null);
  const band = await playedByBand(SECONDS);
  yield ["band", band];
  for (const voice of voices)
    yield [
      "talking",
      together(
        new Float32Array(SECONDS * RATE).fill(0).map((_, i) => 1e-6 * (i % 2)),
        voice,
        100,
      ),
    ];
  const takes = demoClass.takes.filter(({ file }) => file.endsWith(".mid")).slice(0, count);
  for (const [i, take] of takes.entries()) {
    const bytes = demoBytes(take);
    const notes = opening(readTake(bytes, { name: take.file }).notes);
    const grand = (await renderGrand(bytes)).subarray(0, SECONDS * RATE);
    yield ["piano: grand", grand];
    if (upright !== null) yield ["piano: upright", playUpright(upright, notes).subarray(0, SECONDS * RATE)];
    yield ["piano with a metronome", together(grand, clicks(SECONDS), -3)];
    for (const level of LEVELS) {
      yield [`piano with a band, ${level} dB`, together(grand, band, level)];
      const voice = voices[i % Math.max(1, voices.length)];
      if (voice !== undefined) yield [`piano with talking, ${level} dB`, together(grand, voice, level)];
    }
    const instruments = Object.keys(PROGRAMS).filter(
      (_, k) => k % Math.max(1, Math.ceil(takes.length / 2)) === i % Math.max(1, Math.ceil(takes.length / 2)),
    );
    for (const instrument of instruments)
      yield [instrument, (await playedBy(instrument, notes)).subarray(0, SECONDS * RATE)];
  }
}

const opening = (notes: readonly Note[]) => notes.filter(({ onset }) => onset < SECONDS);

/** Whose sound it is, as `listen` hears it. */
async function companyIn(sound: Float32Array, network: Network): Promise<Company> {
  const spectrum = createSpectrum();
  const peak = sound.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-9);
  const said = new Float32Array((LEAD_IN + framesOf(sound.length)) * COMPANY_WIDTH);
  for (const { from, to, heardFrom, heardTo } of piecesOf(sound.length)) {
    const { company } = await network(
      spectrum.frames(sound, heardFrom, heardTo, 0.5 / peak),
      heardTo - heardFrom,
    );
    said.set(
      company.subarray((from - heardFrom) * COMPANY_WIDTH, (to - heardFrom) * COMPANY_WIDTH),
      (from + LEAD_IN) * COMPANY_WIDTH,
    );
  }
  return companyOf(said) ?? { piano: 0, instruments: 0, voice: 0, drums: 0 };
}

function tell(what: string, companies: readonly Company[]): void {
  const shares = companies.map(({ piano }) => piano).sort((a, b) => a - b);
  const refused = shares.filter((share) => share < PIANO_SHARE.refused).length;
  const warned = shares.filter((share) => share < PIANO_SHARE.warned).length - refused;
  const means = (["piano", "instruments", "voice", "drums"] as const)
    .map(
      (who) => `${who} ${(companies.reduce((sum, one) => sum + one[who], 0) / companies.length).toFixed(2)}`,
    )
    .join(", ");
  console.log(
    `${what}: ${companies.length} recordings, ${refused} refused, ${warned} with a warning; the piano's share ${shares[0]!.toFixed(2)} to ${shares.at(-1)!.toFixed(2)}; mean ${means}`,
  );
}
