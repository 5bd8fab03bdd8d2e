import { type Chart, FORMS, formChart } from "../../src/chart/index.ts";
import { randomFrom } from "./random.ts";
import { STEADY_TIME, STRONG, type TakeSpec } from "./spec.ts";

const MAJOR_KEYS = ["C", "F", "Bb", "Eb", "Ab", "G", "D", "A"] as const;
const MINOR_KEYS = ["Cm", "Fm", "Gm", "Dm", "Am", "Em"] as const;

/**
 * A player and a take by chance, for those who need thousands: any of the built-in forms in a usual key, any manner
 * from streams of scales to call and answer. Always MIDI to a click unless `free`. The same seed gives the same spec.
 *
 * @example generateTake(seed, randomSpec(seed))
 */
export function randomSpec(seed: number, options: { readonly free?: boolean } = {}): TakeSpec {
  const random = randomFrom(seed ^ 0x5eed);
  const chart = randomChart(random);
  const skill = random.next();
  const share = (low: number, high: number) => low + (high - low) * random.next();
  const plan = random.chance(0.1) ? "scales" : random.chance(0.3 * (1 - skill)) ? "stream" : "talk";
  return {
    title: `Take ${seed}`,
    chart,
    choruses: chart.bars.length <= 8 ? 3 : 2,
    format: "midi",
    manner: {
      ...STRONG,
      plan,
      places: random.chance(0.1) ? "one" : random.chance(0.2) ? "root" : "all",
      silence: share(0, 0.2),
      answers: skill * share(0.4, 1),
      motif: skill * share(0.4, 1),
      slides: skill * share(0, 0.7),
      guide: skill * share(0, 1),
      enclosures: skill * share(0, 0.4),
      entries: skill > 0.4 ? [0, 0.5, 1, -0.5] : [0],
      centre: 65 + Math.floor(8 * random.next()),
      climb: skill > 0.5 ? Math.floor(5 * random.next()) : 0,
      grows: skill > 0.5,
    },
    time: {
      ...STEADY_TIME,
      kind: options.free ? "free" : "click",
      drift: options.free ? 12 * (random.next() - 0.5) : 0,
      wander: options.free ? 0.006 : 0,
      tempo: 80 + 2 * Math.floor(50 * random.next()),
      swing: share(1.1, 2.2),
      swingSpread: share(0.08, 0.5) * (1.2 - skill),
      jitter: share(0.005, 0.02),
      behind: 0.03 * (random.next() - 0.4),
    },
    comping: {
      style: random.pick(["shells", "guide tones", "walking"]),
      layout: random.chance(0.5) ? "two tracks" : "one track",
    },
    pickup: random.chance(0.1) ? 1.5 : 0,
    annotated: false,
  };
}

function randomChart(random: ReturnType<typeof randomFrom>): Chart {
  const forms = FORMS.filter((form) => form.bars >= 8);
  for (;;) {
    const form = random.pick(forms);
    const key = random.pick(form.mode === "minor" ? MINOR_KEYS : MAJOR_KEYS);
    const chart = formChart(form.id, key);
    if (chart.meter.beats === 4 && chart.meter.unit === 4) return chart;
  }
}
