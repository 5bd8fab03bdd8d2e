/** The tracker's hypotheses, in typed arrays: offered, merged where they meet, pruned, and read back along the best path. */

/** Columns of `Beam.numbers`. */
export const FIELDS = 7;
export const SCORE = 0;
/** Seconds at which the hypothesis has its last place. */
export const TIME = 1;
/** Seconds of a quarter note. */
export const PERIOD = 2;
export const VAR_TIME = 3;
export const COVAR = 4;
export const VAR_PERIOD = 5;
/** Place of the off-beat as a share of the beat. */
export const SWING = 6;

export interface TrackedPath {
  /** Nats of the best path, all events and pins. */
  readonly score: number;
  /** Place of each event in cells; `SKIPPED` for events that fit no place. */
  readonly cells: Int32Array;
  /** 1 for events before which the place or the time was broken by a slip or a pause. */
  readonly broken: Uint8Array;
  /** Place of the off-beat at the end, as a share of the beat. */
  readonly swing: number;
}

/** What a step of a hypothesis was. */
export const STEP = 0;
export const SKIPPING = 1;
export const BROKEN = 2;
export const PINNED = 3;

export const SKIPPED = -2_147_483_648;

/** Hypotheses worse than the best by more than this (nats) are dropped. */
const WIDTH = 28;
/** The best of a place is kept beside the crowd only when it is no further behind than this (nats). */
const RESERVED_WIDTH = 13;
/** The best of a tempo likewise: a cross-rhythm sounds like another tempo until the chords have changed. */
const TEMPO_WIDTH = 26;
const TEMPOS = 64;
const BUCKETS = 128;
/** Two hypotheses at one place are one when their tempos differ by less than this (log), and their swing by less. */
const SAME_TEMPO = 0.035;
const SAME_SWING = 0.09;
const TABLE = 1 << 16;
/** Cells over which the best of every place is kept. */
const PLACES = 4096;

export class Beam {
  readonly numbers: Float64Array;
  readonly cells: Int32Array;
  readonly backs: Int32Array;
  readonly marks: Uint8Array;
  size = 0;
  /** Row of the history in which hypothesis 0 stands; the others follow. */
  firstRow = 0;
  private readonly capacity: number;
  private top = Number.NEGATIVE_INFINITY;
  private readonly table = new Int32Array(TABLE);
  private readonly stamps = new Int32Array(TABLE);
  private readonly keys: Int32Array;
  private stamp = 1;
  private readonly reserved = new Int32Array(PLACES);
  private readonly byTempo = new Int32Array(TEMPOS);

  constructor(capacity: number) {
    this.capacity = capacity;
    this.numbers = new Float64Array(capacity * FIELDS);
    this.cells = new Int32Array(capacity);
    this.backs = new Int32Array(capacity);
    this.marks = new Uint8Array(capacity);
    this.keys = new Int32Array(capacity);
  }

  clear(): void {
    this.size = 0;
    this.top = Number.NEGATIVE_INFINITY;
    this.stamp++;
  }

  best(): number {
    return this.top;
  }

  row(h: number): number {
    return this.firstRow + h;
  }

  wants(score: number): boolean {
    return score > this.top - WIDTH;
  }

  offer(
    cell: number,
    back: number,
    mark: number,
    score: number,
    time: number,
    period: number,
    varTime: number,
    covar: number,
    varPeriod: number,
    swing: number,
  ): void {
    if (!(score > this.top - WIDTH)) return;
    // One that has skipped the event stands at its place with an older time, and is no double of one that is there.
    const stale = mark === SKIPPING ? 4096 : 0;
    const key =
      (cell * 8192 +
        stale +
        Math.round(Math.log(period) / SAME_TEMPO + 200) * 8 +
        Math.round((swing - 0.4) / SAME_SWING)) |
      0;
    let slot = (Math.imul(key, 0x9e3779b1) >>> 16) & (TABLE - 1);
    let at = -1;
    while (this.stamps[slot] === this.stamp) {
      const found = this.table[slot]!;
      if (this.keys[found] === key) {
        at = found;
        break;
      }
      slot = (slot + 1) & (TABLE - 1);
    }
    if (at >= 0) {
      if (this.numbers[at * FIELDS + SCORE]! >= score) return;
    } else {
      if (this.size >= this.capacity) return;
      at = this.size++;
      this.stamps[slot] = this.stamp;
      this.table[slot] = at;
      this.keys[at] = key;
    }
    const row = at * FIELDS;
    this.numbers[row + SCORE] = score;
    this.numbers[row + TIME] = time;
    this.numbers[row + PERIOD] = period;
    this.numbers[row + VAR_TIME] = varTime;
    this.numbers[row + COVAR] = covar;
    this.numbers[row + VAR_PERIOD] = varPeriod;
    this.numbers[row + SWING] = swing;
    this.cells[at] = cell;
    this.backs[at] = back;
    this.marks[at] = mark;
    if (score > this.top) this.top = score;
  }

  /**
   * Keeps about the best `limit` hypotheses (a bucket of equals is kept or dropped together), and beside them the
   * best one of every place and of every tempo, so that a reading of the form that starts slowly is not crowded out by variants of one
   * that starts well.
   */
  prune(limit: number): void {
    let floor = this.top - WIDTH;
    let firstCell = 0;
    const reserved = this.reserved;
    const crowded = this.size > limit;
    if (crowded) {
      let lastCell = this.cells[0]!;
      firstCell = lastCell;
      for (let h = 1; h < this.size; h++) {
        firstCell = Math.min(firstCell, this.cells[h]!);
        lastCell = Math.max(lastCell, this.cells[h]!);
      }
      reserved.fill(-1, 0, Math.min(PLACES, lastCell - firstCell + 1));
      this.byTempo.fill(-1);
      for (let h = 0; h < this.size; h++) {
        if (this.marks[h] === SKIPPING) continue;
        const behind = this.top - this.numbers[h * FIELDS + SCORE]!;
        const place = this.cells[h]! - firstCell;
        if (place < PLACES && behind <= RESERVED_WIDTH) this.reserve(reserved, place, h);
        if (behind <= TEMPO_WIDTH) this.reserve(this.byTempo, this.tempoClass(h), h);
      }
      const counts = new Int32Array(BUCKETS + 1);
      const scale = BUCKETS / WIDTH;
      for (let h = 0; h < this.size; h++) {
        const behind = this.top - this.numbers[h * FIELDS + SCORE]!;
        if (behind < WIDTH) counts[Math.floor(behind * scale)]!++;
      }
      let kept = counts[0]!;
      let bucket = 1;
      while (bucket < BUCKETS && kept + counts[bucket]! <= limit) kept += counts[bucket++]!;
      floor = this.top - bucket / scale;
    }
    let n = 0;
    for (let h = 0; h < this.size; h++) {
      if (this.numbers[h * FIELDS + SCORE]! < floor) {
        const place = this.cells[h]! - firstCell;
        const kept =
          crowded && ((place < PLACES && reserved[place] === h) || this.byTempo[this.tempoClass(h)] === h);
        if (!kept) continue;
      }
      if (n !== h) {
        this.numbers.copyWithin(n * FIELDS, h * FIELDS, (h + 1) * FIELDS);
        this.cells[n] = this.cells[h]!;
        this.backs[n] = this.backs[h]!;
        this.marks[n] = this.marks[h]!;
      }
      n++;
    }
    this.size = n;
  }

  /** Coarse class of a hypothesis's tempo, about eight to the octave. */
  private tempoClass(h: number): number {
    const period = this.numbers[h * FIELDS + PERIOD]!;
    return Math.max(0, Math.min(TEMPOS - 1, Math.round(Math.log2(period) * 8) + 32));
  }

  private reserve(best: Int32Array, key: number, h: number): void {
    const rival = best[key]!;
    if (rival < 0 || this.numbers[rival * FIELDS + SCORE]! < this.numbers[h * FIELDS + SCORE]!) best[key] = h;
  }
}

/** The way back from every hypothesis that was followed on. */
export class History {
  private cells: Int32Array;
  private backs: Int32Array;
  private marks: Uint8Array;
  private used = 0;

  constructor(rows: number) {
    const size = 60_000 + rows * 300;
    this.cells = new Int32Array(size);
    this.backs = new Int32Array(size);
    this.marks = new Uint8Array(size);
  }

  record(beam: Beam): void {
    while (this.used + beam.size > this.cells.length) this.grow();
    this.cells.set(beam.cells.subarray(0, beam.size), this.used);
    this.backs.set(beam.backs.subarray(0, beam.size), this.used);
    this.marks.set(beam.marks.subarray(0, beam.size), this.used);
    beam.firstRow = this.used;
    this.used += beam.size;
  }

  /** @param rows what each recorded step was, in order: the index of an event, or -1 for a pin */
  readBack(beam: Beam, rows: readonly number[], events: number): TrackedPath {
    const cells = new Int32Array(events).fill(SKIPPED);
    const broken = new Uint8Array(events);
    let best = 0;
    for (let h = 1; h < beam.size; h++) {
      if (beam.numbers[h * FIELDS + SCORE]! > beam.numbers[best * FIELDS + SCORE]!) best = h;
    }
    let at = beam.row(best);
    for (let r = rows.length - 1; r >= 0; r--) {
      const event = rows[r]!;
      const mark = this.marks[at]!;
      if (event >= 0 && mark !== SKIPPING) cells[event] = this.cells[at]!;
      if (event >= 0 && mark === BROKEN) broken[event] = 1;
      at = this.backs[at]!;
    }
    return {
      score: beam.numbers[best * FIELDS + SCORE]!,
      cells,
      broken,
      swing: beam.numbers[best * FIELDS + SWING]!,
    };
  }

  private grow(): void {
    const size = this.cells.length * 2;
    const cells = new Int32Array(size);
    cells.set(this.cells);
    const backs = new Int32Array(size);
    backs.set(this.backs);
    const marks = new Uint8Array(size);
    marks.set(this.marks);
    this.cells = cells;
    this.backs = backs;
    this.marks = marks;
  }
}
