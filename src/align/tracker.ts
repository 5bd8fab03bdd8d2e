/**
 * The bar pointer: follows the beat and the place in the chart together, event by event.
 *
 * The hidden state is a place on the chart and a tempo (Whiteley, Cemgil & Godsill 2006; Krebs, Böck & Widmer 2015);
 * the tempo and the time of the beat are kept as a Gaussian for each hypothesis and followed by a Kalman filter
 * (Cemgil & Kappen 2003), so that onsets keep their exact times. Evidence is where in the metre events fall, where
 * none falls, and what the pitches say of the chord. Hypotheses that meet at one place with one tempo are merged
 * (the better is kept), and only the best are followed on.
 */
import { Beam, FIELDS, History, SCORE, type TrackedPath } from "./beam.ts";
import type { Events } from "./events.ts";
import type { Metre } from "./metre.ts";
import type { Pin, TrackerOptions } from "./tracker-model.ts";
import { passPin, slip } from "./tracker-slips.ts";
import { extend, seed } from "./tracker-steps.ts";

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
