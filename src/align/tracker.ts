/**
 * The bar pointer: follows the beat and the place in the chart together, event by event.
 *
 * The hidden state is a place on the chart and a tempo (Whiteley, Cemgil & Godsill 2006; Krebs, Böck & Widmer 2015);
 * the tempo and the time of the beat are kept as a Gaussian for each hypothesis and followed by a Kalman filter
 * (Cemgil & Kappen 2003), so that onsets keep their exact times. Evidence is where in the metre events fall, where
 * none falls, and what the pitches say of the chord. Hypotheses that meet at one place with one tempo are merged
 * (the better is kept), and only the best are followed on.
 */
import {
  Beam,
  BROKEN,
  COVAR,
  FIELDS,
  History,
  PERIOD,
  PINNED,
  SCORE,
  SKIPPING,
  STEP,
  SWING,
  TIME,
  type TrackedPath,
  VAR_PERIOD,
  VAR_TIME,
} from "./beam.ts";
import { type Events, harmonyAt } from "./events.ts";
import { CELLS, type Metre, PLACE, silence } from "./metre.ts";

export interface TrackerStart {
  /** Places on the chart, in cells, of the first event, and what each costs (nats). */
  readonly places: readonly { readonly cell: number; readonly cost: number }[];
  /** Seconds of a quarter note, and what each costs (nats). */
  readonly periods: readonly { readonly seconds: number; readonly cost: number }[];
  /** Spread of each starting period as a share of it. */
  readonly periodSpread: number;
}

/** How freely time may move; shares of a quarter note unless said otherwise. */
export interface TrackerFreedom {
  /** Standard deviation of the clock for each quarter note. */
  readonly clock: number;
  /** Change of tempo for each quarter note. */
  readonly tempo: number;
  /** Whether pauses and lost or added beats may happen. */
  readonly slips: boolean;
}

/** A moment at which the place on the chart is known. */
export interface Pin {
  readonly seconds: number;
  /** In cells. */
  readonly cell: number;
}

export interface TrackerOptions {
  readonly start: TrackerStart;
  readonly freedom: TrackerFreedom;
  /** Pins in order of time; hypotheses that do not go through them fall behind. */
  readonly pins: readonly Pin[];
  /** Hypotheses that are followed on, once the take is under way. */
  readonly beam: number;
}

/** Nats; each is the price of one happening [practice; set on simulated takes]. */
const PRICE = {
  /** An event on no place of the metre: a wrong note, a grace. */
  skip: -5.5,
  slip: -9.5,
  barSlip: -13,
  pause: -8,
  /** Two events on one place. */
  twice: -3.5,
} as const;

/** Standard deviation of an event around its place, seconds: the comping hand and the line. */
const COMPING_SPREAD = 0.013;
const LINE_SPREAD = 0.024;
/** Weight of pitch against time, since the notes of a passage tell less together than one by one. */
const HARMONY = 0.95;

/** Seconds of the short note of a swung pair, which gets hardly shorter at any tempo (Friberg & Sundstrom 2002). */
const SHORTEST = 0.08;
/** Quarter notes a minute beyond which nobody is followed. */
const SLOWEST = 36;
const FASTEST = 340;

/**
 * Follows a take from its first event to its last.
 *
 * @returns the best path, and the best score of a path that ends elsewhere on the chart
 */
export function follow(events: Events, metre: Metre, options: TrackerOptions): TrackedPath {
  const history = new History(events.count + options.pins.length);
  let from = new Beam(CAPACITY);
  let to = new Beam(CAPACITY);
  let pin = 0;
  const { pins, freedom } = options;
  seed(from, events, metre, options.start);
  from.prune(BEAM_AT_START);
  history.record(from);
  for (let e = 1; e < events.count; e++) {
    while (pin < pins.length && pins[pin]!.seconds < events.time[e]!) {
      to.clear();
      for (let h = 0; h < from.size; h++) passPin(from, h, to, pins[pin]!, metre, freedom);
      pin++;
      to.prune(options.beam);
      history.record(to);
      [from, to] = [to, from];
    }
    to.clear();
    const best = from.best();
    for (let h = 0; h < from.size; h++) {
      extend(from, h, to, events, e, metre, freedom);
      const score = from.numbers[h * FIELDS + SCORE]!;
      if (freedom.slips && score > best - 6) slip(from, h, to, events, e, metre, freedom);
    }
    to.prune(Math.min(beamAt(e, options.beam), options.beam * 10));
    history.record(to);
    [from, to] = [to, from];
  }
  return history.readBack(from, pinsBefore(pins, events), events.count);
}

const CAPACITY = 20_000;
const BEAM_AT_START = 2200;

/** Hypotheses that are followed on after an event: many while nothing is known yet. */
function beamAt(event: number, usual: number): number {
  if (event < 8) return BEAM_AT_START;
  if (event < 24) return 900;
  return event < 60 ? Math.max(450, usual) : usual;
}

/** For each row of the history whether it is an event (its index) or a pin (-1). */
function pinsBefore(pins: readonly Pin[], events: Events): number[] {
  const rows: number[] = [];
  let pin = 0;
  for (let e = 0; e < events.count; e++) {
    while (e > 0 && pin < pins.length && pins[pin]!.seconds < events.time[e]!) {
      rows.push(-1);
      pin++;
    }
    rows.push(e);
  }
  return rows;
}

function seed(beam: Beam, events: Events, metre: Metre, start: TrackerStart): void {
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
function extend(
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

/** Lost and added beats, bars left out or played twice, and pauses. */
function slip(
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

/** One hypothesis meets the event at one place: how likely, and what is then known of time and tempo. */
function arrive(
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

function passPin(from: Beam, h: number, to: Beam, pin: Pin, metre: Metre, freedom: TrackerFreedom): void {
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

/** Where a place falls in time, in quarter notes: off-beats where this hypothesis swings them. */
function playedPlace(cell: number, metre: Metre, swing: number): number {
  if (metre.place[mod(cell, metre.bar)] !== PLACE.offBeat) return cell / CELLS;
  return (cell - CELLS / 2) / CELLS + swing;
}

function mod(value: number, by: number): number {
  const rest = value % by;
  return rest < 0 ? rest + by : rest;
}
