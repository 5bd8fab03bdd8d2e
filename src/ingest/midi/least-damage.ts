/**
 * Reads a damaged track as the events that ask for the least damage.
 *
 * Bytes that are lost or too many shift all that follows, and a shifted track often still looks like events for a
 * while. So every way of cutting the track into events and damaged bytes is weighed, and the lightest is taken: a
 * shortest path over the bytes, found from the end (Bellman). What an oddity weighs is common sense, not measured: a
 * byte left out is heavier than an odd pitch, and lighter than two [practice].
 */
import { systemDataOf } from "./mend-bytes.ts";
import { metaLengthsOf } from "./meta-lengths.ts";

/** One step through the track: an event, or a byte that is none. */
export interface Step {
  readonly kind: "byte" | "channel" | "meta" | "system" | "end";
  /** Offset of the first byte behind it. */
  readonly to: number;
  /** Ticks since the event before. */
  readonly delta: number;
  /** Status byte of a channel message or a system byte, or the type of a meta event. */
  readonly status: number;
  readonly first: number;
  readonly second: number;
  /** Data bytes whose top bit was taken off, and real-time bytes between them. */
  readonly masked: number;
  readonly stray: number;
  /** Where the data of a meta event begin. */
  readonly from: number;
  readonly weight: number;
}

/** What oddities weigh. */
const WEIGHT = {
  byte: 2.5,
  cutOff: 0.4,
  realTime: 1,
  masked: 3.5,
  rareStatus: 3,
  /** A controller, where the track has few of them. */
  fewControls: 0.6,
  /** Programs, pressure and bends, where the track has few of them. */
  oddKind: 1.5,
  farPitch: 2.5,
  longMeta: 3,
  unknownMeta: 5,
  longWay: 8,
  noEnd: 6,
  restOfTrack: 8,
  paddedDelta: 2,
} as const;

/** Costs kept at most: longer tracks are read as they come. */
const ROOM = 1_500_000;
/** Status bytes that are followed as running ones. */
const MOST_RUNNING = 8;
/** Bytes of an event that the end may cut off. */
const LONGEST_PART = 3;
/** As many are no accident. */
const USUAL = 20;
/** The keys of a piano. */
const KEYS = { low: 21, high: 108 } as const;

/** The lightest way through a track; null when it is too long to be weighed. */
export function leastDamage(
  file: Uint8Array,
  from: number,
  end: number,
  ticksPerQuarter: number,
): readonly Step[] | null {
  const weighing = new Weighing(file, from, end, ticksPerQuarter);
  return weighing.fits ? weighing.steps() : null;
}

class Weighing {
  readonly fits: boolean;
  readonly #file: Uint8Array;
  readonly #from: number;
  readonly #end: number;
  readonly #quarter: number;
  /** Status bytes that the track has often; a state is the index of one of them, or their number for none. */
  readonly #running: readonly number[];
  readonly #runningWeight: number;
  /** Status bytes of programs, pressure and bends that the track has often. */
  readonly #usual: ReadonlySet<number>;
  readonly #states: number;
  readonly #costs: Float32Array;

  constructor(file: Uint8Array, from: number, end: number, ticksPerQuarter: number) {
    this.#file = file;
    this.#from = from;
    this.#end = end;
    this.#quarter = Math.max(1, ticksPerQuarter);
    const counts = new Map<number, number>();
    let statuses = 0;
    for (let at = from; at < end; at++) {
      const byte = file[at]!;
      if (byte < 0x80 || byte >= 0xf0) continue;
      counts.set(byte, (counts.get(byte) ?? 0) + 1);
      statuses++;
    }
    const often = [...counts].filter(([, count]) => count >= Math.max(1, statuses / 50));
    this.#running = often
      .sort((a, b) => b[1] - a[1])
      .slice(0, MOST_RUNNING)
      .map(([status]) => status);
    this.#usual = new Set(often.filter(([, count]) => count >= USUAL).map(([status]) => status));
    // A file that repeats its status bytes does not leave them out as well.
    this.#runningWeight = statuses * 6 > end - from ? 3 : 0.2;
    this.#states = this.#running.length + 1;
    this.fits = (end - from + 1) * this.#states <= ROOM;
    this.#costs = new Float32Array(this.fits ? (end - from + 1) * this.#states : 0);
  }

  steps(): readonly Step[] {
    const none = this.#states - 1;
    for (let state = 0; state < this.#states; state++) this.#setCost(this.#end, state, WEIGHT.noEnd);
    for (let at = this.#end - 1; at >= this.#from; at--) {
      for (let state = 0; state < this.#states; state++) {
        this.#setCost(at, state, this.#total(this.#lightest(at, state), state));
      }
    }
    const steps: Step[] = [];
    let state = none;
    for (let at = this.#from; at < this.#end; ) {
      const step = this.#lightest(at, state);
      steps.push(step);
      if (step.kind === "end") break;
      state = this.#stateAfter(step, state);
      at = step.to;
    }
    return steps;
  }

  #setCost(at: number, state: number, cost: number): void {
    this.#costs[(at - this.#from) * this.#states + state] = cost;
  }

  #total(step: Step, state: number): number {
    if (step.kind === "end") return step.weight;
    const next = this.#stateAfter(step, state);
    return step.weight + this.#costs[(step.to - this.#from) * this.#states + next]!;
  }

  #stateAfter({ kind, status }: Step, state: number): number {
    if (kind !== "channel") return state;
    const index = this.#running.indexOf(status);
    return index < 0 ? this.#states - 1 : index;
  }

  /** The best of what may stand at a place: a byte that is nothing, or an event with its delta time. */
  #lightest(at: number, state: number): Step {
    const byte = this.#file[at]!;
    const realTime = byte >= 0xf8 && byte < 0xff;
    const left = stepOf("byte", at + 1, byte, realTime ? WEIGHT.realTime : this.#weightOfByte(at));
    const event = this.#event(at, state);
    return event !== null && this.#total(event, state) <= this.#total(left, state) ? event : left;
  }

  /** What is left of an event that the end cuts off is no damage of its own. */
  #weightOfByte(at: number): number {
    return at + LONGEST_PART >= this.#end ? WEIGHT.cutOff : WEIGHT.byte;
  }

  #event(at: number, state: number): Step | null {
    let delta = 0;
    let size = 0;
    for (; size < 4 && at + size < this.#end; size++) {
      const byte = this.#file[at + size]!;
      delta = (delta << 7) | (byte & 0x7f);
      if (byte < 0x80) break;
    }
    const behind = at + size + 1;
    if (size === 4 || behind >= this.#end) return null;
    const padded = size > 0 && delta < 1 << (7 * size) ? WEIGHT.paddedDelta : 0;
    const way = padded + this.#weightOfDelta(delta);
    const status = this.#file[behind]!;
    if (status === 0xff) return this.#meta(behind, delta, way);
    if (status >= 0xf0) return this.#system(behind, status, delta, way);
    if (status >= 0x80) {
      const rare = this.#running.includes(status) ? 0 : WEIGHT.rareStatus;
      return this.#channel(behind + 1, status, delta, way + rare);
    }
    const running = this.#running[state];
    return running === undefined ? null : this.#channel(behind, running, delta, way + this.#runningWeight);
  }

  #weightOfDelta(delta: number): number {
    const quarters = delta / this.#quarter;
    return quarters <= 16 ? 0 : quarters <= 64 ? 1 : quarters <= 256 ? 3 : WEIGHT.longWay;
  }

  #channel(at: number, status: number, delta: number, way: number): Step | null {
    const kind = status >> 4;
    const wanted = kind === 0xc || kind === 0xd ? 1 : 2;
    const data = [0, 0];
    let [masked, stray, read, to] = [0, 0, 0, at];
    for (; read < wanted && to < this.#end; to++) {
      const byte = this.#file[to]!;
      if (byte >= 0xf8 && byte < 0xff) {
        stray++;
        continue;
      }
      if (byte >= 0x80) masked++;
      // A loudness of nothing would make the note's beginning its end.
      data[read++] = byte === 0x80 ? 1 : byte & 0x7f;
    }
    if (read < wanted) return null;
    const [first, second] = data as [number, number];
    const isNote = kind === 0x8 || kind === 0x9;
    const far = isNote && (first < KEYS.low || first > KEYS.high) ? WEIGHT.farPitch : 0;
    const usual = isNote || this.#usual.has(status);
    const odd = usual ? 0 : kind === 0xb ? WEIGHT.fewControls : WEIGHT.oddKind;
    const weight = way + far + odd + masked * WEIGHT.masked + stray * WEIGHT.realTime;
    return { ...stepOf("channel", to, status, weight), delta, first, second, masked, stray };
  }

  #meta(at: number, delta: number, way: number): Step | null {
    const type = this.#file[at + 1] ?? 0x80;
    if (type >= 0x80) return null;
    const [length, from] = this.#lengthAt(at + 2);
    const to = from + length;
    if (length < 0 || to > this.#end) return null;
    const known = metaLengthsOf(type);
    const fits = known === undefined ? length > 0 && (type <= 0x09 || type === 0x7f) : known.includes(length);
    const weight = way + (fits ? 0 : WEIGHT.unknownMeta) + (length > 128 ? WEIGHT.longMeta : 0);
    if (type === 0x2f) {
      if (length > 0) return null;
      const rest = this.#file.subarray(to, this.#end).some((byte) => byte !== 0) ? this.#end - to : 0;
      return { ...stepOf("end", to, type, way + Math.min(WEIGHT.restOfTrack, rest)), delta };
    }
    return { ...stepOf("meta", to, type, weight), delta, from };
  }

  #system(at: number, status: number, delta: number, way: number): Step | null {
    if (status !== 0xf0 && status !== 0xf7) {
      const to = at + 1 + systemDataOf(status);
      return to > this.#end ? null : { ...stepOf("system", to, status, way + WEIGHT.realTime), delta };
    }
    const [length, from] = this.#lengthAt(at + 1);
    const to = from + length;
    if (length < 0 || to > this.#end) return null;
    const closed = length > 0 && this.#file[to - 1] === 0xf7;
    return { ...stepOf("system", to, status, way + (closed ? 0 : WEIGHT.unknownMeta)), delta };
  }

  /** The length that stands at a place, -1 where none does, and where what it counts begins. */
  #lengthAt(at: number): readonly [length: number, from: number] {
    let length = 0;
    for (let size = 0; size < 4 && at + size < this.#end; size++) {
      const byte = this.#file[at + size]!;
      length = (length << 7) | (byte & 0x7f);
      if (byte < 0x80) return [length, at + size + 1];
    }
    return [-1, at];
  }
}

function stepOf(kind: Step["kind"], to: number, status: number, weight: number): Step {
  return { kind, to, status, weight, delta: 0, first: 0, second: 0, masked: 0, stray: 0, from: to };
}
