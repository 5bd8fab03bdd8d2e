/** What single steps of a hand's path cost, under the table of `costs.ts`; keys as the right hand sees them. */
import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { PLACEMENT_COSTS as COST, SLIDE_SECONDS } from "./costs.ts";
import { canHold } from "./grips.ts";
import type { HandEvent } from "./hand-event.ts";
import { IDIOMATIC, type IdiomTable, indexOn, type ShapeStates, shapeOf } from "./shape-states.ts";

export class StepCosts {
  readonly view: ShapeStates;
  readonly #idiom: IdiomTable;
  readonly #held: readonly number[];
  readonly #widths: readonly number[];

  constructor(view: ShapeStates, idiom: IdiomTable) {
    this.view = view;
    this.#idiom = idiom;
    this.#held = view.fingers.map((fingers) => COST.held * Math.log(fingers.length));
    this.#widths = view.semitones.map((semitones) => semitones[semitones.length - 1]!);
  }

  /** A note under a finger of the shape. */
  held(shape: number): number {
    return this.#held[shape]!;
  }

  /**
   * The event's notes in a state that holds some of them; null where it holds none, where printed fingering says that
   * other fingers play them, or where the free fingers cannot reach what is struck with them.
   */
  emission(event: HandEvent, state: number): number | null {
    const shape = shapeOf(state);
    const known: (Finger | null)[] = [];
    let cost = 0;
    let held = 0;
    for (let n = 0; n < event.keys.length; n++) {
      const index = indexOn(this.view, state, event.keys[n]!);
      const printed = event.printed[n];
      if (index < 0 || (printed && !printed.includes(this.view.fingers[shape]![index]!))) {
        cost += COST.outside;
        known.push(printed?.[0] ?? null);
      } else {
        cost += this.#held[shape]!;
        known.push(this.view.fingers[shape]![index]!);
        held++;
      }
    }
    if (held === 0) return null;
    return held === event.keys.length || canHold(event.keys, known) ? cost : null;
  }

  /** The finger of a state on the event's highest key; 0 where it has none there. */
  topFinger(event: HandEvent, state: number): number {
    const index = indexOn(this.view, state, event.keys[event.keys.length - 1]!);
    return index < 0 ? 0 : this.view.fingers[shapeOf(state)]![index]!;
  }

  /** The event's notes while the hand stands in a state that holds none of them. */
  outside(event: HandEvent, state: number): number {
    const { keys } = event;
    const low = this.view.lows[state]!;
    const high = low + this.#widths[this.view.shapes[state]!]!;
    const reached = keys[0]! >= low - 3 && keys[keys.length - 1]! <= high + 5;
    return COST.outside * keys.length + (reached ? 0 : COST.outOfReach);
  }

  /** Entering a state: dearer where its place is not idiomatic on the chord, now or within half a beat. */
  arrival(event: HandEvent, state: number): number {
    return this.#arrivalAt(this.view.anchorClasses[state]!, event);
  }

  /** The same by shape and pitch class under the anchor finger, as the view counts them; into `out`. */
  arrivals(event: HandEvent, out: Float64Array): void {
    for (let k = 0; k < out.length; k++) out[k] = this.#arrivalAt(k, event);
  }

  #arrivalAt(anchorClass: number, event: HandEvent): number {
    const now = this.#idiom.at(anchorClass, event.span);
    if (now === IDIOMATIC || event.span === event.comingSpan) return COST.unidiomatic[now];
    const coming = this.#idiom.at(anchorClass, event.comingSpan);
    return Math.min(COST.unidiomatic[coming], COST.unidiomatic[now]);
  }

  /** True where no chord says where a shape may stand. */
  isAnywhere(event: HandEvent): boolean {
    return this.#idiom.isOpen(event.span);
  }

  /** Staying in a state: dearer where the chord has just changed to one on which its place is not idiomatic. */
  staying(state: number, event: HandEvent, before: HandEvent): number {
    return isChange(event, before) ? this.#stayingAt(this.view.anchorClasses[state]!, event) : 0;
  }

  /** The same by shape and pitch class under the anchor finger, as the view counts them; into `out`. */
  stayings(event: HandEvent, before: HandEvent, out: Float64Array): void {
    if (isChange(event, before)) for (let k = 0; k < out.length; k++) out[k] = this.#stayingAt(k, event);
    else out.fill(0);
  }

  #stayingAt(anchorClass: number, event: HandEvent): number {
    return this.#idiom.at(anchorClass, event.span) === IDIOMATIC ? 0 : COST.lateStay;
  }
}

/** True where another chord sounds, or the same of another chorus. */
function isChange(event: HandEvent, before: HandEvent): boolean {
  return event.span !== before.span || event.chorus !== before.chorus;
}

/** From finger a of a placement to finger b, at 6 a + b; 0 (unknown) costs nothing. */
export const FINGER_STEPS = Float64Array.from({ length: 36 }, (_, k) => {
  const [from, to] = [Math.floor(k / 6), k % 6];
  return from === 0 || to === 0 ? 0 : COST.fingerStep[Math.abs(to - from)]!;
});

/** Cost of moving the hand by so many semitones with an ease of 0 (at once) to 1 (in a rest). */
export function shiftCost(semitones: number, ease: number): number {
  const distance = Math.abs(semitones);
  const bound = COST.shift.base + COST.shift.perSemitone * Math.min(COST.shift.most, distance);
  const free = COST.freeShift.base + COST.freeShift.perSemitone * Math.min(COST.freeShift.most, distance);
  return (1 - ease) * bound + ease * free;
}

/**
 * Cost of the finger sliding off its black key onto the white key beside it, beside the cost of the note itself;
 * null where that is no slide.
 */
export function slideCost(event: HandEvent, before: HandEvent, finger: Finger): number | null {
  if (event.keys.length !== 1 || before.keys.length !== 1) return null;
  const [from, to] = [before.keys[0]!, event.keys[0]!];
  if (Math.abs(to - from) !== 1 || !isBlackKey(from) || isBlackKey(to)) return null;
  const printed = event.printed[0];
  if (printed && !printed.includes(finger)) return null;
  return event.slides[0] === 0 || event.interval <= SLIDE_SECONDS ? COST.slide.short : COST.slide.long;
}
