import { align, placeNotes } from "../../src/align/index.ts";
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { drawSpec, type PerformanceClass, perform } from "../align/simulator/index.ts";
import type { Bench } from "./types.ts";

/** Seconds of the simulated takes. */
const LENGTH = 180;

function milliseconds(work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 5; round++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

/** The floor: a plain pass of the same size as one Fourier transform over the take at 100 frames a second. */
function floorWork(): number {
  const frames = LENGTH * 100;
  const row = new Float64Array(frames);
  let sum = 0;
  for (let pass = 0; pass < Math.ceil(Math.log2(frames)) * 4; pass++) {
    for (let i = 0; i < frames; i++) {
      row[i] = row[i]! * 0.5 + Math.sin(i * pass);
      sum += row[i]!;
    }
  }
  return sum;
}

export const bench: Bench = {
  name: `align: two-hand takes of ${LENGTH} s`,
  run() {
    const lines: string[] = [];
    const floor = milliseconds(floorWork);
    const chart = formChart("blues-basic", "F");
    const cases: [PerformanceClass, number][] = [
      ["click", 120],
      ["steady", 120],
      ["steady", 240],
      ["rubato", 70],
    ];
    for (const [kind, tempo] of cases) {
      const choruses = Math.max(1, Math.round((LENGTH * tempo) / 60 / 48));
      const spec = {
        ...drawSpec(kind, 1),
        chart,
        tempo,
        choruses,
        comping: "shells",
        fileKnows: false,
      } as const;
      const { take } = perform({ ...spec, pauses: 0, slips: 0 });
      const options = { method: "auto", tempo: null, anchors: [] } as const;
      const open = { soloPart: null, soloStaff: null, soloHand: null };
      const { hands } = partHands(take, open);
      const alignment = align(take, chart, hands, options);
      const spans = chordSpans(chart);
      const laid = milliseconds(() => align(take, chart, hands, options));
      const parted = milliseconds(() => partHands(take, open));
      const placed = milliseconds(() => placeNotes(take, chart, spans, hands, alignment));
      const ratio = (ms: number) => `${(ms / floor).toFixed(1)} x floor, ${ms.toFixed(0)} ms`;
      lines.push(
        `${kind} at ${tempo}, ${take.notes.length} notes (${alignment.method}): laid over the chart ${ratio(laid)};` +
          ` hands ${ratio(parted)}; placed ${ratio(placed)}`,
      );
    }
    return lines;
  },
};
