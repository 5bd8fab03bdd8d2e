/** The ordinary steps of a hypothesis: it starts at a place, meets an event at a place, or lets the event pass. */
import { mod } from "../pitch/index.ts";
import {
  type Beam,
  BROKEN,
  COVAR,
  FIELDS,
  PERIOD,
  SCORE,
  SKIPPING,
  STEP,
  SWING,
  TIME,
  VAR_PERIOD,
  VAR_TIME,
} from "./beam.ts";
import { type Events, harmonyAt } from "./events.ts";
import { CELLS, type Metre, PLACE, silence } from "./metre.ts";
import {
  COMPING_SPREAD,
  FASTEST,
  HARMONY,
  LINE_SPREAD,
  PRICE,
  playedPlace,
  SHORTEST,
  SLOWEST,
  type TrackerFreedom,
  type TrackerStart,
} from "./tracker-model.ts";

/** Offers every place and tempo at which the take may begin. */
export function seed(beam: Beam, events: Events, metre: Metre, start: TrackerStart): void {
  const who = events.comping[0]! * metre.bar;
  for (const { cell, cost } of start.places) {
    const inBar = mod(cell, metre.bar);
    const metrical = metre.struck[who + inBar]!;
    if (metrical === Number.NEGATIVE_INFINITY) continue;
    const harmony = HARMONY * harmonyAt(events, 0, cell);
    for (const { seconds, cost: slow } of start.periods) {
      const spread = seconds * start.periodSpread;
      for (const swing of metre.compound ? [0.5] : [0.52, 0.64]) {
        const variance = COMPING_SPREAD ** 2 + (0.02 * seconds) ** 2;
        beam.offer(
          cell,
          -1,
          STEP,
          metrical + harmony - cost - slow,
          events.time[0]!,
          seconds,
          variance,
          0,
          spread * spread,
          swing,
        );
      }
    }
  }
}

/** Offers every place near which the event falls, and that it falls on none. */
export function extend(
  from: Beam,
  h: number,
  to: Beam,
  events: Events,
  e: number,
  metre: Metre,
  freedom: TrackerFreedom,
): void {
  const row = h * FIELDS;
  const numbers = from.numbers;
  const cell = from.cells[h]!;
  const period = numbers[row + PERIOD]!;
  const swing = numbers[row + SWING]!;
  const elapsed = (events.time[e]! - numbers[row + TIME]!) / period;
  const spread =
    Math.sqrt(
      numbers[row + VAR_TIME]! +
        2 * elapsed * numbers[row + COVAR]! +
        elapsed * elapsed * numbers[row + VAR_PERIOD]! +
        (freedom.clock * period) ** 2 * elapsed +
        LINE_SPREAD ** 2,
    ) / period;
  const reach = Math.min(0.5, 0.06 + 2.6 * spread);
  const at = playedPlace(cell, metre, swing) + elapsed;
  const low = Math.max(cell, Math.ceil((at - reach - 0.16) * CELLS));
  const high = Math.floor((at + reach + 0.05) * CELLS);
  for (let c = low; c <= high; c++) {
    if (metre.place[mod(c, metre.bar)] === PLACE.none) continue;
    arrive(from, h, to, events, e, metre, freedom, c, 0, 0);
  }
  to.offer(
    cell,
    from.row(h),
    SKIPPING,
    numbers[row + SCORE]! + PRICE.skip,
    numbers[row + TIME]!,
    period,
    numbers[row + VAR_TIME]!,
    numbers[row + COVAR]!,
    numbers[row + VAR_PERIOD]!,
    swing,
  );
}

/** One hypothesis meets the event at one place: how likely, and what is then known of time and tempo. */
export function arrive(
  from: Beam,
  h: number,
  to: Beam,
  events: Events,
  e: number,
  metre: Metre,
  freedom: TrackerFreedom,
  cell: number,
  jump: number,
  price: number,
): void {
  const row = h * FIELDS;
  const numbers = from.numbers;
  const was = from.cells[h]! + jump;
  const period = numbers[row + PERIOD]!;
  const swing = numbers[row + SWING]!;
  const inBar = mod(cell, metre.bar);
  const place = metre.place[inBar]!;
  const here = playedPlace(cell, metre, swing);
  const step = here - playedPlace(was, metre, swing);
  const moved = Math.max(0.1, step);
  const varTime =
    numbers[row + VAR_TIME]! +
    2 * step * numbers[row + COVAR]! +
    step * step * numbers[row + VAR_PERIOD]! +
    (freedom.clock * period) ** 2 * moved;
  const covar = numbers[row + COVAR]! + step * numbers[row + VAR_PERIOD]!;
  const varPeriod = numbers[row + VAR_PERIOD]! + (freedom.tempo * period) ** 2 * moved;
  const stroke = events.comping[e] === 1 ? COMPING_SPREAD : LINE_SPREAD;
  const loose = place === PLACE.offBeat ? 0.05 : place === PLACE.beat ? 0 : 0.02;
  const noise = stroke * stroke + (loose * period) ** 2;
  const total = varTime + noise;
  const error = events.time[e]! - (numbers[row + TIME]! + period * step);
  let score =
    numbers[row + SCORE]! +
    price -
    (error * error) / (2 * total) -
    0.5 * Math.log(2 * Math.PI * total) +
    HARMONY * harmonyAt(events, e, cell);
  if (cell === was) score += PRICE.twice;
  else score += metre.struck[events.comping[e]! * metre.bar + inBar]! + silence(metre, was, cell);
  if (!to.wants(score)) return;
  const gain = varTime / total;
  const gainPeriod = covar / total;
  const nextPeriod = period + gainPeriod * error;
  if (nextPeriod < 60 / FASTEST || nextPeriod > 60 / SLOWEST) return;
  let nextSwing = swing;
  if (place === PLACE.offBeat)
    nextSwing = Math.min(
      Math.min(0.77, 1 - SHORTEST / period),
      Math.max(0.47, swing + (0.05 * error) / period),
    );
  to.offer(
    cell,
    from.row(h),
    price === 0 ? STEP : BROKEN,
    score,
    numbers[row + TIME]! + period * step + gain * error,
    nextPeriod,
    varTime * (1 - gain),
    covar * (1 - gain),
    varPeriod - gainPeriod * covar,
    nextSwing,
  );
}
