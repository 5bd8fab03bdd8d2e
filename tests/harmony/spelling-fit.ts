/**
 * How the weights of the tonal spelling are found, so that anybody can find them again: from weights that favour
 * nothing, each in turn is made larger or smaller while more printed notes get their name, in ever smaller strides.
 * The lines of the primers (`primer-lines.ts`) count as well, so that no score is bought with a broken scale.
 *
 * A figure that is fitted to the scores it is measured on flatters. `heldOut` leaves each score out in turn, fits to
 * the others, and measures on the one left out. (Which terms are weighed at all was chosen with these scores in view.)
 */
import { spellTake } from "../../src/harmony/index.ts";
import { type SpellingWeights, spellTonally } from "../../src/harmony/tonal-spelling.ts";
import { pitchNameAt } from "../../src/pitch/index.ts";
import { notesOf, PRIMER_LINES } from "./primer-lines.ts";
import { met, type PrintedTake } from "./printed-takes.ts";

/** Every penalty alike, the rest round numbers. */
const NEUTRAL: SpellingWeights = {
  centre: 0.1,
  fading: 10,
  renaming: 1,
  raisedStep: 1,
  brokenStep: 1,
  clash: 1,
};

const STRIDES = [2, 1.5, 1.25, 1.1];
const ROUNDS = 4;
/** A line of a primer that is not met counts as so many notes. */
const BROKEN_PRIMER = 5;

export interface Fitter {
  /** The weights that miss the fewest notes of all takes but the one left out (null: of all). */
  fit(leftOut: number | null): SpellingWeights;
  /** Notes missed by these weights, take by take. */
  missed(weights: SpellingWeights): readonly number[];
}

/** Takes without chord symbols, on which the tonal spelling is at work. What is once counted is kept. */
export function fitterOf(takes: readonly PrintedTake[]): Fitter {
  const counted = new Map<string, { readonly missed: readonly number[]; readonly primers: number }>();
  const count = (weights: SpellingWeights) => {
    const id = Object.values(weights)
      .map((weight) => (weight as number).toPrecision(6))
      .join();
    const known = counted.get(id);
    if (known !== undefined) return known;
    const found = {
      missed: takes.map(({ take }) => met(take, spellTake(take, weights)).missed.length),
      primers: brokenPrimers(weights),
    };
    counted.set(id, found);
    return found;
  };
  return {
    missed: (weights) => count(weights).missed,
    fit(leftOut) {
      const costOf = (weights: SpellingWeights) => {
        const { missed, primers } = count(weights);
        const others = missed.reduce((sum, each, i) => (i === leftOut ? sum : sum + each), 0);
        return others + BROKEN_PRIMER * primers;
      };
      return descend(costOf);
    },
  };
}

/** For each take, how many of its notes are missed by weights that never saw it. */
export function heldOut(takes: readonly PrintedTake[]): readonly number[] {
  const fitter = fitterOf(takes);
  return takes.map((_, i) => fitter.missed(fitter.fit(i))[i]!);
}

function brokenPrimers(weights: SpellingWeights): number {
  return PRIMER_LINES.filter(([, signature, text]) => {
    const notes = notesOf(text, signature);
    const places = spellTonally(notes, weights);
    return (
      notes.map((note, i) => pitchNameAt(note.pitch, places[i]!)).join(" ") !== text.replaceAll("+", " ")
    );
  }).length;
}

function descend(costOf: (weights: SpellingWeights) => number): SpellingWeights {
  let best = NEUTRAL;
  let cost = costOf(best);
  for (const stride of STRIDES) {
    let improved = true;
    for (let round = 0; improved && round < ROUNDS; round++) {
      improved = false;
      for (const name of Object.keys(best) as (keyof SpellingWeights)[]) {
        for (const factor of [stride, 1 / stride]) {
          const tried = { ...best, [name]: best[name] * factor };
          const triedCost = costOf(tried);
          if (triedCost >= cost) continue;
          best = tried;
          cost = triedCost;
          improved = true;
          break;
        }
      }
    }
  }
  return best;
}
