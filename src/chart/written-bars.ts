/** Bars of a chart as written, with their road signs, built token by token. */
import { fillBar, goOn, type Slot } from "./bar-slots.ts";
import { MAX_CHART_BARS, readTimes, tooManyBars } from "./chart-limits.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import type { ChartToken } from "./chart-tokens.ts";
import type { ChartWarnings } from "./chart-warnings.ts";
import { emptyRoad, endingPasses, type RoadDraft } from "./road.ts";
import type { ChartChord, Meter } from "./types.ts";
import type { TokenLine } from "./unbarred.ts";

const MAX_CHORDS_IN_BAR = 16;

export interface WrittenBar {
  readonly chords: readonly ChartChord[];
  readonly road: RoadDraft;
  readonly place: Place;
}

/** A passage between repeat signs while it is open. */
interface Passage {
  readonly start: number;
  readonly times: number | null;
  readonly place: Place;
}

export class BarWriter {
  readonly bars: WrittenBar[] = [];
  private readonly meter: Meter;
  private readonly warnings: ChartWarnings;
  private slots: Slot[] = [];
  /** Signs that the bar now written ends with, and those that the next bar begins with. */
  private closing: RoadDraft = emptyRoad();
  private opening: RoadDraft = emptyRoad();
  private passage: Passage | null = null;
  private afterLastRepeat = 0;
  private inEndings = false;
  private line = 0;

  constructor(meter: Meter, warnings: ChartWarnings) {
    this.meter = meter;
    this.warnings = warnings;
  }

  writeLine({ number, tokens }: TokenLine): void {
    this.line = number;
    const first = this.bars.length;
    tokens.forEach((token, index) => {
      this.write(token, tokens[index - 1] ?? null, { first, last: index + 1 === tokens.length });
    });
    this.endBar();
  }

  finish(): readonly WrittenBar[] {
    if (this.passage !== null) {
      throw chartProblem(
        "repeat-sign",
        'A repeat is opened by "|:" and not closed',
        this.passage.place,
        'Close it with ":|".',
      );
    }
    return this.bars;
  }

  private place(): Place {
    return { line: this.line, bar: this.bars.length + 1 };
  }

  private write(
    token: ChartToken,
    before: ChartToken | null,
    at: { readonly first: number; readonly last: boolean },
  ): void {
    switch (token.kind) {
      case "chord":
        if (this.slots.length >= MAX_CHORDS_IN_BAR) {
          throw chartProblem(
            "beats-do-not-fit",
            `A bar has more than ${MAX_CHORDS_IN_BAR} chords`,
            this.place(),
            'Part the bars with "|".',
          );
        }
        this.slots.push(token);
        return;
      case "hold":
      case "again":
        if (this.slots.length < MAX_CHORDS_IN_BAR) this.slots.push(token);
        return;
      case "line":
        if (this.slots.length === 0 && before?.kind === "line" && !(token.double && at.last)) this.emptyBar();
        this.endBar();
        if (token.double && this.inEndings && this.bars.length > 0) this.bars.at(-1)!.road.endingStop = true;
        return;
      case "open":
        this.endBar();
        this.open(token.times);
        return;
      case "close":
        this.endBar();
        this.close(token);
        return;
      case "ending":
        this.endBar();
        this.ending(token.passes);
        return;
      case "number":
        this.number(token, before);
        return;
      case "road":
        this.road(token);
        return;
      case "times":
        this.timesOfLine(token.times, at);
        return;
      case "meter":
        this.sameMeter(token.meter);
        return;
      case "section":
        this.endBar();
        return;
      case "gap":
        return;
    }
  }

  private endBar(): void {
    if (this.slots.length === 0) return;
    const place = this.place();
    const before = this.bars.map(({ chords }) => chords);
    const { bars, asks } = fillBar(this.slots, before.slice(-2), this.meter, place);
    if (asks) {
      this.warnings.add(
        "held-chord",
        place,
        "A bar says that a chord goes on after a bar with several; the last of them was taken. Write % where the whole bar before returns.",
      );
    }
    bars.forEach((chords, index) => {
      this.push(chords, index + 1 === bars.length ? this.closing : emptyRoad(), place);
    });
    this.slots = [];
    this.closing = emptyRoad();
  }

  private push(chords: readonly ChartChord[], closing: RoadDraft, place: Place): void {
    if (this.bars.length >= MAX_CHART_BARS) throw tooManyBars(place);
    const road = this.opening;
    road.written.push(...closing.written);
    road.toEnding ??= closing.toEnding;
    this.opening = emptyRoad();
    this.bars.push({ chords, road, place });
  }

  private emptyBar(): void {
    const place = this.place();
    if (this.bars.length === 0) {
      throw chartProblem(
        "empty-bar",
        "The first bar is empty",
        place,
        "Write a chord, % or N.C. between its bar lines.",
      );
    }
    this.warnings.add(
      "empty-bar",
      place,
      "A bar is empty; the chord before goes on in it. Write a chord, % or N.C. if something else is meant.",
    );
    this.push(goOn([this.bars.at(-1)!.chords], this.meter, place), emptyRoad(), place);
  }

  private open(times: string | null): void {
    const place = this.place();
    if (this.passage !== null) {
      throw chartProblem(
        "repeat-sign",
        "A repeat is opened inside a repeat",
        place,
        'Close the first one with ":|".',
      );
    }
    this.passage = { start: this.bars.length, times: readTimes(times, place), place };
    this.opening.repeatStart = true;
    this.inEndings = false;
  }

  private close({ times: stated, glued }: Extract<ChartToken, { kind: "close" }>): void {
    const place = this.place();
    const reopens = stated === "|:";
    const ending = glued !== null && this.inEndings ? glued : null;
    const times = readTimes(ending === null ? (glued ?? (reopens ? null : stated)) : null, place);
    const passage = this.passage ?? { start: this.afterLastRepeat, times: null, place };
    if (times !== null && passage.times !== null && times !== passage.times) {
      throw chartProblem(
        "repeat-sign",
        `A repeat is opened for ${passage.times} times and closed for ${times}`,
        place,
        "Write the number once.",
      );
    }
    if (this.bars.length <= passage.start) {
      throw chartProblem("repeat-sign", "A repeat has no bars", place, 'Write bars between "|:" and ":|".');
    }
    this.bars.at(-1)!.road.repeatEnd = times ?? passage.times ?? 2;
    this.passage = null;
    this.afterLastRepeat = this.bars.length;
    if (ending !== null) this.ending(ending);
    if (reopens) this.open(null);
  }

  private ending(passes: string): void {
    this.opening.endingStart = endingPasses(passes);
    this.inEndings = true;
  }

  /** A number before a bar is the bar's own where it is the next one, else an ending's. */
  private number(token: Extract<ChartToken, { kind: "number" }>, before: ChartToken | null): void {
    const value = Number(token.value);
    const behindRepeat =
      before?.kind === "close" || (before === null && this.afterLastRepeat === this.bars.length);
    const own =
      token.beforeLine ||
      (value === this.bars.length + 1 && !(this.inEndings && behindRepeat && this.bars.length > 0));
    if (own) return;
    if (value > 9 || (behindRepeat && !this.inEndings && value !== 2)) {
      throw chartProblem(
        "repeat-sign",
        `The number ${token.value} is neither this bar's nor an ending's`,
        this.place(),
        `Write "${token.value}." behind a bar line for an ending, ":|${token.value}" for a number of times, or take it out.`,
      );
    }
    this.ending(token.value);
  }

  private road({ sign, ending }: Extract<ChartToken, { kind: "road" }>): void {
    const begins = sign === "segno" || sign === "coda";
    const bar =
      this.slots.length > 0 ? this.closing : begins ? this.opening : (this.bars.at(-1)?.road ?? null);
    if (bar !== null) {
      bar.written.push(sign);
      bar.toEnding ??= ending;
    } else {
      throw chartProblem(
        "repeat-sign",
        "A sign that ends a passage stands before the first bar",
        this.place(),
        "Write it behind the bar that it ends.",
      );
    }
  }

  /** "x2" at the end of a line plays the line twice. */
  private timesOfLine(
    text: string,
    { first, last }: { readonly first: number; readonly last: boolean },
  ): void {
    const place = this.place();
    const times = readTimes(text, place)!;
    const line = this.bars.slice(first);
    const signs = line.some(
      ({ road }) =>
        road.repeatStart || road.repeatEnd > 0 || road.endingStart.length > 0 || road.written.length > 0,
    );
    if (this.slots.length > 0 || !last || line.length === 0 || signs) {
      throw chartProblem(
        "repeat-sign",
        `"x${text}" stands where it is not clear what it repeats`,
        place,
        'Write it behind the last bar line of a line to play the line so often, or write "|: ... :|".',
      );
    }
    for (let time = 1; time < times; time++) {
      for (const bar of line) this.push(bar.chords, emptyRoad(), bar.place);
    }
  }

  private sameMeter({ beats, unit }: Meter): void {
    if (beats === this.meter.beats && unit === this.meter.unit) return;
    throw chartProblem(
      "not-a-meter",
      `The meter changes to ${beats}/${unit}`,
      this.place(),
      "A chart has one meter: write all bars in it, or a chart for each part.",
    );
  }
}
