/**
 * `npm run report -- listening [TAKES] [direct|phone]`: demo takes played by a grand that the network was not trained
 * on, heard again, and held against their MIDI: notes, certainty, accounts, findings, speed.
 */
import { fileURLToPath } from "node:url";
import type { ManifestTake } from "../../corpus/corpus-files.ts";
import { openNetwork } from "../../server/listen/network.ts";
import type { AccountNote, Analysis } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { readTake } from "../../src/ingest/index.ts";
import { type Heard, type HeardNote, listen, type Network, writeHeard } from "../../src/listen/index.ts";
import { demoBytes, demoChart, demoClass } from "../demo-class.ts";
import { endIsRight, f, matchNotes, type Played } from "../listen/rendered/match.ts";
import { RENDERING_MISSING, renderGrand, throughPhone } from "../listen/rendered/render.ts";

const NETWORK = fileURLToPath(new URL("../../src/listen/network/piano.onnx", import.meta.url));
/** Notes more likely than this are taken, as `src/ingest/heard` does. */
const TAKEN = 0.5;
const CORRECTIONS = 10;

interface Outcome {
  readonly played: readonly (Played & { readonly velocity: number })[];
  readonly heard: readonly HeardNote[];
  readonly match: readonly number[];
}

export async function report([takes = "4", ...rooms]: string[]): Promise<void> {
  if (RENDERING_MISSING !== null) {
    console.log(`skipped: ${RENDERING_MISSING}`);
    return;
  }
  const network = await openNetwork(NETWORK);
  const chosen = demoClass.takes.filter((take) => take.file.endsWith(".mid")).slice(0, Number(takes));
  for (const room of rooms.length > 0 ? rooms : ["direct", "phone"]) {
    const outcomes: Outcome[] = [];
    console.log(`\n== grand, ${room}: ${chosen.length} takes`);
    for (const take of chosen) {
      const dry = await renderGrand(demoBytes(take));
      outcomes.push(await oneTake(take, room === "phone" ? throughPhone(dry) : dry, network));
    }
    tellNotes(outcomes);
    tellCertainty(outcomes);
  }
  console.log(`\nmemory at its most ${Math.round(process.resourceUsage().maxRSS / 1024)} MB`);
}

async function oneTake(take: ManifestTake, sound: Float32Array, network: Network): Promise<Outcome> {
  const before = process.cpuUsage();
  const heard = await listen(sound, network);
  const { user, system } = process.cpuUsage(before);
  const [bytes, chart] = [demoBytes(take), demoChart(take)];
  const midi = readTake(bytes, { name: "a.mid" });
  const played = midi.notes.map((note) => ({ ...note, end: note.onset + note.sounding }));
  const match = matchNotes(played, heard.notes.filter(taken));
  const options = { name: take.file, shapes: [...take.shapes] };
  const truth = analyse(bytes, chart, options);
  const account = (of: Heard) => analyse(writeHeard(of), chart, options);
  const corrected = { ...heard, notes: correct(heard.notes, played) };
  console.log(
    `${take.id}: of the solo ${compared(truth, account(heard))}; after ${CORRECTIONS} corrections ${compared(truth, account(corrected))}; ${((user + system) / 1e6 / heard.seconds).toFixed(2)} s of processor a second`,
  );
  return { played, heard: heard.notes, match };
}

const taken = (note: HeardNote) => note.certainty >= TAKEN;

/** What a teacher would do with the ten notes that the program is least sure of: take or leave them rightly. */
function correct(heard: readonly HeardNote[], played: readonly Played[]): HeardNote[] {
  const right = new Set(matchNotes(played, heard));
  const doubtful = heard
    .map((note, i) => ({ i, doubt: Math.abs(note.certainty - TAKEN) }))
    .sort((a, b) => a.doubt - b.doubt)
    .slice(0, CORRECTIONS);
  const asked = new Set(doubtful.map(({ i }) => i));
  return heard.map((note, i) =>
    asked.has(i) ? { ...note, certainty: right.has(i) ? 1 : 0, doubt: null } : note,
  );
}

/** Solo notes found, notes too many, whole accounts equal, findings the same. */
function compared(truth: Analysis, heard: Analysis): string {
  const asPlayed = (note: AccountNote) => ({ ...note, end: note.onset + note.duration });
  const solo = truth.notes.filter((note) => note.solo).map(asPlayed);
  const others = heard.notes.map(asPlayed);
  const match = matchNotes(solo, others);
  const inAll = matchNotes(truth.notes.map(asPlayed), others);
  const found = match.filter((j) => j >= 0).length;
  const extra = others.length - inAll.filter((j) => j >= 0).length;
  const placed = (account: Analysis, note: AccountNote) => {
    const place = account.placements.find(({ id }) => id === note.placement);
    return JSON.stringify([note.chorus, note.bar, note.beat, note.role, place?.shape, place?.anchorPitch]);
  };
  const equal = match.filter(
    (j, i) => j >= 0 && placed(truth, solo[i]!) === placed(heard, heard.notes[j]!),
  ).length;
  const ids = new Set(heard.findings.map((finding) => finding.id));
  const same = truth.findings.filter((finding) => ids.has(finding.id)).length;
  return `${percent(found, solo.length)} found, ${percent(extra, others.length)} too many, ${percent(equal, found)} with their whole account, ${same} of ${truth.findings.length} findings the same`;
}

function tellNotes(outcomes: readonly Outcome[]): void {
  const classes: readonly (readonly [string, (note: Played & { velocity: number }) => boolean])[] = [
    ["all", () => true],
    ["below C3", ({ pitch }) => pitch < 48],
    ["C3 to B4", ({ pitch }) => pitch >= 48 && pitch < 72],
    ["C5 and above", ({ pitch }) => pitch >= 72],
    ["soft (below 50)", ({ velocity }) => velocity < 50],
    ["middling", ({ velocity }) => velocity >= 50 && velocity < 80],
    ["loud (80 on)", ({ velocity }) => velocity >= 80],
  ];
  for (const [name, belongs] of classes) {
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
      // Notes too many have a pitch and a loudness of their own.
      counts.heard += likely.filter((note, j) => !used.has(j) && belongs({ ...note })).length;
    }
    const heard = counts.heard + counts.right;
    if (counts.played === 0) continue;
    const mean = errors.reduce((sum, e) => sum + e, 0) / Math.max(1, errors.length);
    const sd = Math.sqrt(errors.reduce((sum, e) => sum + (e - mean) ** 2, 0) / Math.max(1, errors.length));
    console.log(
      `${name}: ${counts.played} played, F ${f(counts.right, counts.played, heard).toFixed(3)} (precision ${(counts.right / Math.max(1, heard)).toFixed(3)}, recall ${(counts.right / counts.played).toFixed(3)}), with ends ${f(counts.ends, counts.played, heard).toFixed(3)}, onset off by ${(mean * 1000).toFixed(1)} ms, sd ${(sd * 1000).toFixed(1)} ms`,
    );
  }
}

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
