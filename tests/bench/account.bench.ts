import { Session } from "node:inspector/promises";
import { writeMidi } from "midi-file";
import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { STEADY_TIME, type TakeSpec } from "../../corpus/generator/spec.ts";
import type { AnalyseOptionsInput } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText, formChart } from "../../src/chart/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { checkOptions } from "../../src/options.ts";
import type { Bench } from "./types.ts";

/** Milliseconds of one core for the account of a minute of music, with a click and without. */
const WITH_CLICK = 15;
const WITHOUT = 40;
/** An hour may cost so many times ten minutes, and hold so many megabytes. */
const HOUR = 6;
const MEGABYTES = 300;

const TAKES = 10;
/** Rounds over the same takes before what the machine has learned of the code by itself is taken for all that it learns. */
const WARM = 3;

interface Job {
  readonly bytes: Uint8Array;
  readonly chart: string;
  readonly options: AnalyseOptionsInput;
}

/** Takes by chance, changed; `told` gives each its tempo. */
function takes(change: (spec: TakeSpec) => TakeSpec, free: boolean, told = false): Job[] {
  return Array.from({ length: TAKES }, (_, i) => {
    const spec = change(randomSpec(i + 1, { free }));
    return {
      bytes: generateTake(i + 1, spec).bytes,
      chart: chartText(spec.chart),
      options: told ? { tempo: spec.time.tempo } : {},
    };
  });
}

const alone = (spec: TakeSpec): TakeSpec => ({
  ...spec,
  comping: { style: "none", layout: "one track" },
});

export const bench: Bench = {
  name: "account: a whole analysis, one core",
  async run() {
    const cases: readonly [string, number, Job[]][] = [
      ["two hands to the file's click", WITH_CLICK, takes((spec) => spec, false)],
      ["a line alone to the file's click", WITH_CLICK, takes(alone, false)],
      ["two hands without a click", WITHOUT, takes((spec) => spec, true)],
      ["a line alone, its tempo told", WITHOUT, takes(alone, true, true)],
      ["a line alone, its chart only", WITHOUT, takes(alone, true)],
    ];
    const lines: string[] = [];
    for (const [name, bound, jobs] of cases) {
      const run = () => jobs.map(({ bytes, chart, options }) => analyse(bytes, chart, options));
      let minutes = 0;
      const cold = processorTime(() => {
        minutes = run().reduce((sum, { source }) => sum + source.seconds, 0) / 60;
      });
      for (let round = 1; round < WARM; round++) run();
      const warm = processorTime(run);
      const floor = processorTime(() =>
        jobs.map(({ bytes, options }) => readTake(bytes, checkOptions(options))),
      );
      const rooms = await profiled(run);
      const shares = rooms.map(([room, share]) => `${room} ${Math.round(100 * share)} %`).join(", ");
      const [first, later] = [cold, warm].map((time) => (time / minutes).toFixed(1));
      lines.push(
        `${name}: ${first} ms a minute of music at first, ${later} after ${WARM} rounds (at most ${bound}), ${(warm / floor).toFixed(0)} times the reading of the files: ${shares}`,
      );
    }
    return [...lines, ...long(), repeated()];
  },
};

/** The share of each room of src in some work, the largest first. */
async function profiled(work: () => unknown): Promise<[string, number][]> {
  const session = new Session();
  session.connect();
  await session.post("Profiler.enable");
  await session.post("Profiler.start");
  work();
  const { profile } = await session.post("Profiler.stop");
  session.disconnect();
  const parent = new Map<number, number>();
  const room = new Map<number, string>();
  for (const { id, children, callFrame } of profile.nodes) {
    for (const child of children ?? []) parent.set(child, id);
    const named = /\/src\/(?:([a-z]+)\/|[a-z-]+\.ts)/.exec(callFrame.url);
    if (named !== null) room.set(id, named[1] ?? "the flow");
  }
  const times = new Map<string, number>();
  (profile.samples ?? []).forEach((sample, i) => {
    // Work of a library counts for the room that asked for it.
    let at: number | undefined = sample;
    while (at !== undefined && !room.has(at)) at = parent.get(at);
    const name = at === undefined ? "the machine" : room.get(at)!;
    times.set(name, (times.get(name) ?? 0) + profile.timeDeltas![i]!);
  });
  const sum = [...times.values()].reduce((a, b) => a + b, 0);
  const rooms = [...times].map(([name, time]): [string, number] => [name, time / sum]);
  return rooms.filter(([, share]) => share >= 0.02).sort((a, b) => b[1] - a[1]);
}

function processorTime(work: () => unknown): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

/** Ten minutes and an hour of one blues to a click. */
function long(): string[] {
  const chart = formChart("blues-basic", "F");
  const [short, hour] = [25, 150].map((choruses) => {
    const spec: TakeSpec = {
      ...randomSpec(3),
      chart,
      choruses,
      time: { ...STEADY_TIME, kind: "click", tempo: 120 },
    };
    const { bytes } = generateTake(3, spec);
    const before = process.memoryUsage().rss;
    const milliseconds = processorTime(() => analyse(bytes, chartText(chart)));
    return { milliseconds, megabytes: (process.memoryUsage().rss - before) / 2 ** 20 };
  }) as [Cost, Cost];
  return [
    `an hour costs ${(hour.milliseconds / short.milliseconds).toFixed(1)} times ten minutes (at most ${HOUR}): ${Math.round(hour.milliseconds)} ms`,
    `and adds ${Math.round(hour.megabytes)} MB to the process (at most ${MEGABYTES})`,
  ];
}

interface Cost {
  readonly milliseconds: number;
  readonly megabytes: number;
}

/** 5,000 times one key: where all is alike, nothing may be tried over and over. */
function repeated(): string {
  const strike = [
    { deltaTime: 0, type: "noteOn", channel: 0, noteNumber: 60, velocity: 80 },
    { deltaTime: 240, type: "noteOff", channel: 0, noteNumber: 60, velocity: 0 },
  ] as const;
  const bytes = writeMidi({
    header: { format: 0, numTracks: 1, ticksPerBeat: 480 },
    tracks: [
      [
        ...Array.from({ length: 5000 }, () => strike).flat(),
        { deltaTime: 0, type: "endOfTrack" as const, meta: true as const },
      ],
    ],
  });
  const milliseconds = processorTime(() =>
    analyse(Uint8Array.from(bytes), chartText(formChart("blues-basic", "F"))),
  );
  const minutes = (5000 * 0.25) / 60;
  return `5,000 times one key, eighths at 120: ${(milliseconds / minutes).toFixed(1)} ms a minute of music (at most ${WITHOUT})`;
}
