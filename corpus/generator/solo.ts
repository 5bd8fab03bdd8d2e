import type { Finger } from "../../src/take/index.ts";
import type { Harmony } from "./harmony.ts";
import { composePhrase, type LineNote, type PhrasePlan, playFingers } from "./line.ts";
import { type Place, placesOn, scalePlacesOn } from "./places.ts";
import type { Random } from "./random.ts";
import { type Cell, LONG_CELLS, MIDDLE_CELLS, SHORT_CELLS, streamCell } from "./rhythms.ts";
import type { TakeSpec } from "./spec.ts";

/** The idea that a solo keeps coming back to: fingers and a rhythm. */
export interface PlantedMotif {
  readonly id: string;
  readonly fingers: readonly Finger[];
  readonly cell: Cell;
}

/** Fingerings that sing in every shape of four or five fingers, each with a skip to know it by. */
const MOTIF_FINGERS: readonly (readonly Finger[])[] = [
  [2, 4, 3, 1, 2, 4],
  [4, 2, 3, 1, 2, 1],
  [1, 2, 4, 2, 3, 1],
  [3, 4, 2, 3, 1, 2],
  [2, 1, 4, 3, 2, 4],
];

/** Rhythms of six notes with a face of their own. */
const MOTIF_CELLS: readonly Cell[] = [
  { onsets: [0, 0.5, 1, 1.5, 2.5, 3.5], hold: 1 },
  { onsets: [0.5, 1, 1.5, 2, 2.5, 3.5], hold: 1 },
  { onsets: [0, 1, 1.5, 2, 2.5, 3.5], hold: 1 },
  { onsets: [1, 1.5, 2, 2.5, 3, 4], hold: 1 },
];

/** The whole line of a take. */
export function composeSolo(
  spec: TakeSpec,
  harmony: Harmony,
  random: Random,
): { notes: LineNote[]; motif: PlantedMotif } {
  const fingers = random.pick(MOTIF_FINGERS);
  const motif: PlantedMotif = { id: "m1", fingers, cell: random.pick(MOTIF_CELLS) };
  const notes: LineNote[] = [];
  const composer = new Composer(spec, harmony, random, motif, notes);
  if (spec.pickup > 0) composer.pickup(spec.pickup);
  switch (spec.manner.plan) {
    case "talk":
      composer.talk();
      break;
    case "stream":
      composer.stream();
      break;
    case "scales":
      composer.scales();
      break;
  }
  return { notes, motif };
}

class Composer {
  readonly #spec: TakeSpec;
  readonly #harmony: Harmony;
  readonly #random: Random;
  readonly #motif: PlantedMotif;
  readonly #notes: LineNote[];
  readonly #fixed: Place | null;
  readonly #end: number;
  #phrase = 0;

  constructor(spec: TakeSpec, harmony: Harmony, random: Random, motif: PlantedMotif, notes: LineNote[]) {
    this.#spec = spec;
    this.#harmony = harmony;
    this.#random = random;
    this.#motif = motif;
    this.#notes = notes;
    this.#end = harmony.chorusBeats * spec.choruses;
    const home = placesOn(harmony.stretches[0]!.chord, "root");
    this.#fixed = spec.manner.places === "one" ? nearest(home, spec.manner.centre) : null;
  }

  /** A few eighths that lead into the first bar. */
  pickup(beats: number): void {
    const onsets = Array.from({ length: Math.round(beats * 2) }, (_, i) => i / 2 - beats);
    onsets.push(0, 1, 1.5);
    this.#add(this.#compose(onsets, 1));
  }

  /** Four-bar lines: a call in the first two bars, its answer in the next two, rests between. */
  talk(): void {
    const { manner, choruses } = this.#spec;
    const random = this.#random;
    for (let bar = this.#spec.pickup > 0 ? 2 : 0; bar < this.#harmony.bars * choruses; bar += 4) {
      const callAt = bar * 4;
      const answerAt = callAt + 8;
      if (random.chance(manner.silence)) {
        if (answerAt < this.#end && !random.chance(manner.silence)) this.#add(this.#free(answerAt));
        continue;
      }
      const call = random.chance(manner.motif) ? this.#statement(callAt) : this.#free(callAt);
      this.#add(call);
      if (answerAt >= this.#end || random.chance(manner.silence)) continue;
      // A motif is sometimes answered by itself in another place, as one makes sure of an idea.
      if (call[0]?.motif != null && random.chance(manner.motif / 2)) {
        this.#add(this.#statement(answerAt));
        continue;
      }
      this.#add(random.chance(manner.answers) ? this.#answer(call, 8) : this.#free(answerAt));
    }
  }

  /** Eighths in long lines with a beat or two to breathe. */
  stream(): void {
    const { manner } = this.#spec;
    let at = this.#spec.pickup > 0 ? 4 : 0;
    while (at < this.#end - 4) {
      const notes = 12 + 2 * Math.floor(this.#random.next() * 7);
      const cell = streamCell(notes);
      const start = at + this.#random.pick(manner.entries);
      const onsets = cell.onsets.map((onset) => onset + start).filter((onset) => onset < this.#end - 0.5);
      this.#add(this.#compose(onsets, cell.hold));
      at = 4 * Math.ceil((at + notes / 2 + 0.5) / 4);
    }
  }

  /** The five-finger position on each root, up and down, an octave higher every other time. */
  scales(): void {
    const up: readonly number[] = [0, 1, 2, 3, 4];
    let at = 0;
    while (at < this.#end - 4) {
      const long = this.#random.chance(0.7);
      const order = long ? [...up, 3, 2, 1] : this.#random.chance(0.5) ? [...up, 2] : [4, 3, 2, 1, 0, 2];
      this.#phrase++;
      const places = scalePlacesOn(this.#harmony.at(at).chord);
      const place = nearest(places, this.#spec.manner.centre + (this.#random.chance(0.35) ? 12 : 0));
      this.#notes.push(
        ...order.map((key, i): LineNote => {
          const last = i === order.length - 1;
          return {
            at: at + i / 2,
            length: last && !long ? 1 : 0.5,
            pitch: place.keys[key]!,
            finger: place.fingers[key]!,
            place,
            grace: false,
            motif: null,
            phrase: this.#phrase,
          };
        }),
      );
      at += 4;
      if (this.#random.chance(this.#spec.manner.silence)) at += 4;
    }
  }

  #free(slot: number): LineNote[] {
    const cells = this.#cells(slot);
    const cell = this.#random.pick(cells);
    const start = slot + this.#shift(cell, slot);
    const onsets = cell.onsets.map((onset) => onset + start).filter((onset) => onset < this.#end - 0.5);
    return onsets.length === 0 ? [] : this.#compose(onsets, cell.hold);
  }

  #statement(slot: number): LineNote[] {
    const { cell, fingers, id } = this.#motif;
    const start = slot + this.#shift(cell, slot);
    const plan = this.#plan(
      cell.onsets.map((onset) => onset + start),
      cell.hold,
    );
    return playFingers(plan, fingers, this.#placeFor(plan), id) ?? this.#compose(plan.onsets, cell.hold);
  }

  /** The call's rhythm again, its first fingers in the place that now serves, and an end of its own. */
  #answer(call: readonly LineNote[], later: number): LineNote[] {
    const struck = call.filter((note) => !note.grace);
    if (struck.length < 4) return this.#free(4 * Math.round((struck[0]?.at ?? 0) / 4) + later);
    const onsets = struck.map((note) => note.at + later).filter((onset) => onset < this.#end - 0.5);
    const hold = struck[struck.length - 1]!.length;
    const keep = Math.min(onsets.length, struck.length) - 2;
    if (keep < 2) return this.#compose(onsets, hold);
    const plan = this.#plan(onsets, hold);
    const place = this.#placeFor(plan);
    const fingers = struck.slice(0, keep).map((note) => note.finger);
    const opening = playFingers(
      { ...plan, onsets: onsets.slice(0, keep), hold: onsets[keep]! - onsets[keep - 1]! },
      fingers,
      place,
      null,
    );
    if (opening === null || this.#harmony.at(onsets[0]!) !== this.#harmony.at(onsets[keep - 1]!)) {
      return this.#compose(onsets, hold);
    }
    const from = { place, pitch: opening[opening.length - 1]!.pitch };
    const ending = composePhrase(
      { ...plan, onsets: onsets.slice(keep), from },
      this.#harmony,
      { ...this.#spec.manner, enclosures: 0 },
      this.#random,
    );
    return [...opening, ...ending];
  }

  #compose(onsets: readonly number[], hold: number): LineNote[] {
    return composePhrase(this.#plan(onsets, hold), this.#harmony, this.#spec.manner, this.#random);
  }

  #plan(onsets: readonly number[], hold: number): PhrasePlan {
    const before = this.#notes[this.#notes.length - 1];
    const chorus = Math.max(0, Math.floor(onsets[0]! / this.#harmony.chorusBeats));
    const { manner } = this.#spec;
    return {
      phrase: this.#phrase + 1,
      onsets,
      hold,
      centre: manner.centre + chorus * manner.climb + this.#random.normal(2),
      from:
        before === undefined || before.place === null ? null : { place: before.place, pitch: before.pitch },
      fixed: this.#fixed,
    };
  }

  /** Another place than the last one where there is a choice, near the centre of the chorus. */
  #placeFor(plan: PhrasePlan): Place {
    if (this.#fixed !== null) return this.#fixed;
    const { chord } = this.#harmony.at(plan.onsets[0]!);
    const places = placesOn(chord, this.#spec.manner.places === "root" ? "root" : "all");
    const weights = places.map((place) => {
      const distance = (place.keys[0]! + place.keys[place.keys.length - 1]!) / 2 - plan.centre;
      const again = plan.from !== null && place.anchorPitch === plan.from.place.anchorPitch;
      return Math.max(0.01, 1 - (distance / 14) ** 2) * (again ? 0.5 : 1);
    });
    return places[Math.max(0, this.#random.weighted(weights))]!;
  }

  #cells(slot: number): readonly Cell[] {
    const chorus = Math.floor(slot / this.#harmony.chorusBeats);
    const level = this.#spec.manner.grows ? chorus + (this.#random.chance(0.3) ? 1 : 0) : 1;
    if (level <= 0) return this.#random.chance(0.65) ? SHORT_CELLS : MIDDLE_CELLS;
    if (level === 1) return this.#random.chance(0.7) ? MIDDLE_CELLS : SHORT_CELLS;
    return this.#random.chance(0.5) ? LONG_CELLS : MIDDLE_CELLS;
  }

  /** Triplets move by whole beats only; nothing starts before the first bar line or runs into the next slot. */
  #shift(cell: Cell, slot: number): number {
    const shift = this.#random.pick(this.#spec.manner.entries);
    const triplets = cell.onsets.some((onset) => Math.abs((onset * 2) % 1) > 0.01);
    const moved = triplets ? Math.round(shift) : shift;
    const last = cell.onsets[cell.onsets.length - 1]! + moved;
    const before = this.#notes[this.#notes.length - 1];
    const free = before === undefined ? 0 : before.at + before.length + 0.5;
    return last > 6.5 || slot + cell.onsets[0]! + moved < free ? 0 : moved;
  }

  #add(notes: readonly LineNote[]): void {
    if (notes.length === 0) return;
    this.#phrase++;
    const before = this.#notes[this.#notes.length - 1];
    const late = before === undefined ? notes : notes.filter((note) => note.at > before.at + 0.4);
    this.#notes.push(...late.map((note) => ({ ...note, phrase: this.#phrase })));
  }
}

function nearest(places: readonly Place[], centre: number): Place {
  const middle = (place: Place) => (place.keys[0]! + place.keys[place.keys.length - 1]!) / 2;
  return [...places].sort((a, b) => Math.abs(middle(a) - centre) - Math.abs(middle(b) - centre))[0]!;
}
