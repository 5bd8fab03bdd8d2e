/** What breaks a take's course: lost and added beats, bars left out or played twice, pauses, and the user's pins. */
import { mod } from "../pitch/index.ts";
import {
  type Beam,
  BROKEN,
  COVAR,
  FIELDS,
  PERIOD,
  PINNED,
  SCORE,
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
  type Pin,
  PRICE,
  playedPlace,
  SLOWEST,
  type TrackerFreedom,
} from "./tracker-model.ts";
import { arrive } from "./tracker-steps.ts";

/** Lost and added beats, bars left out or played twice, and pauses. */
export function slip(
  from: Beam,
  h: number,
  to: Beam,
  events: Events,
  e: number,
  metre: Metre,
  freedom: TrackerFreedom,
): void {
  const row = h * FIELDS;
  const cell = from.cells[h]!;
  const period = from.numbers[row + PERIOD]!;
  const at = playedPlace(cell, metre, from.numbers[row + SWING]!);
  const elapsed = (events.time[e]! - from.numbers[row + TIME]!) / period;
  const nearest = Math.round(((at + elapsed) * CELLS) / metre.beat) * metre.beat;
  // The player finds back on a beat.
  if (Math.abs(at + elapsed - nearest / CELLS) < 0.2 && events.comping[e] === 1) {
    for (const jump of [-metre.beat, metre.beat]) {
      arrive(from, h, to, events, e, metre, freedom, nearest + jump, jump, PRICE.slip);
    }
    for (const jump of [-metre.bar, metre.bar]) {
      arrive(from, h, to, events, e, metre, freedom, nearest + jump, jump, PRICE.barSlip);
    }
  }
  // After a pause the music goes on where it stopped, or at the next beats.
  if (elapsed * period > 0.35 && elapsed > 0.7) {
    const last = Math.floor((at + elapsed - 0.25) * CELLS);
    for (let c = cell + 3; c <= Math.min(last, cell + 2 * metre.beat); c++) {
      const place = metre.place[mod(c, metre.bar)];
      if (place !== PLACE.beat && place !== PLACE.offBeat && place !== PLACE.eighth) continue;
      const score =
        from.numbers[row + SCORE]! +
        PRICE.pause +
        metre.struck[events.comping[e]! * metre.bar + mod(c, metre.bar)]! +
        silence(metre, cell, c) +
        HARMONY * harmonyAt(events, e, c);
      to.offer(
        c,
        from.row(h),
        BROKEN,
        score,
        events.time[e]!,
        period,
        COMPING_SPREAD ** 2 + (0.03 * period) ** 2,
        0,
        from.numbers[row + VAR_PERIOD]! + (0.02 * period) ** 2,
        from.numbers[row + SWING]!,
      );
    }
  }
}

/** Moves a hypothesis to a place that the user has pinned. */
export function passPin(
  from: Beam,
  h: number,
  to: Beam,
  pin: Pin,
  metre: Metre,
  freedom: TrackerFreedom,
): void {
  const row = h * FIELDS;
  const numbers = from.numbers;
  const period = numbers[row + PERIOD]!;
  const swing = numbers[row + SWING]!;
  const step = playedPlace(pin.cell, metre, swing) - playedPlace(from.cells[h]!, metre, swing);
  const varTime =
    numbers[row + VAR_TIME]! +
    2 * step * numbers[row + COVAR]! +
    step * step * numbers[row + VAR_PERIOD]! +
    (freedom.clock * period) ** 2 * Math.abs(step);
  const total = varTime + COMPING_SPREAD ** 2;
  const error = pin.seconds - (numbers[row + TIME]! + period * step);
  // However far off, the best of what is left goes on: the pin is the user's word.
  const far = step < -1e-9 ? 200 : Math.min(100, (error * error) / (2 * total));
  to.offer(
    pin.cell,
    from.row(h),
    PINNED,
    numbers[row + SCORE]! - far - 0.5 * Math.log(total) + silence(metre, from.cells[h]!, pin.cell),
    pin.seconds,
    step > 0 && far >= 100
      ? period
      : Math.min(
          60 / SLOWEST,
          Math.max(
            60 / FASTEST,
            period + ((numbers[row + COVAR]! + step * numbers[row + VAR_PERIOD]!) / total) * error,
          ),
        ),
    1e-6,
    0,
    Math.max((0.01 * period) ** 2, numbers[row + VAR_PERIOD]! * 0.5),
    swing,
  );
}
