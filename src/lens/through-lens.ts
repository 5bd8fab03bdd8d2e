/** A take seen through a lens: what was asked, what is there, and whether chance would have done as well. */
import { median } from "d3-array";
import { beatIsDoubted, placeIsDoubted } from "../account/asked-place.ts";
import { chartIsAsked } from "../account/rests-on.ts";
import type { AccountNote, Finding, Lens, LensAsk, LensOutcome, LensState } from "../account.ts";
import { type Account, type Facts, factsOf, ids } from "../findings/facts.ts";
import type { Null } from "../findings/rule.ts";

import { READERS } from "./measures/index.ts";
import { lensMeasure, lensValue } from "./names.ts";
import type { Reading, Told } from "./reading.ts";

/** The account that a draw of a null would have given, with or without the hand worked out anew. */
export type Redraw = (kind: Null, draw: number, withHand: boolean) => Account;

/**
 * Draws of chance, and how many of them may do as well: two with the take itself among forty, a p of .05 (Monte Carlo,
 * Davison & Hinkley 1997, section 4.2 [memory]). A lens is one question, or several that must all be met, so that
 * nothing is added for asking more than one (intersection-union, Berger 1982 [memory]).
 */
const DRAWS = 39;
const MOST_AS_WELL = 1;

type AskOutcome = LensOutcome["asks"][number];

/**
 * What a take shows through a lens. The first of its asks is what the lens is about: while that is far off, the lens is
 * not reached, whatever goes with it. What a take does not tell (no swing in even eighths) is said and left out of it.
 *
 * @param redraw the account of a draw of chance; null weighs nothing, for accounts that have no notes behind them
 */
export function throughLens(account: Account, lens: Lens, redraw: Redraw | null): LensOutcome {
  const facts = factsOf(account);
  const asks = lens.asks.map((ask) => askOutcome(ask, facts, redraw));
  const state = stateOf(asks.map((one) => one.state));
  return {
    lens: lens.id,
    name: lens.name,
    state,
    text: textOf(lens, state, asks),
    asks,
    exercises: lens.exercises,
  };
}

function stateOf(states: readonly LensState[]): LensState {
  const [first, ...others] = states;
  if (first === undefined || first === "cannot be told" || first === "not yet") return first ?? "not yet";
  const short = [first, ...others].some((state) => state === "partly" || state === "not yet");
  return short ? "partly" : "reached";
}

function textOf({ said }: Lens, state: LensState, asks: readonly AskOutcome[]): string {
  switch (state) {
    case "reached":
      return said.reached;
    case "partly":
      return said.partly;
    case "not yet":
      return said.notYet;
    case "cannot be told":
      return `This take does not tell: ${asks[0]!.text}`;
  }
}

/** Why nothing can be told of the harmony; null where it can. */
function untoldOfHarmony({ account }: Facts): string | null {
  if (chartIsAsked(account))
    return "nothing of the harmony until it is known that the chart is the right one";
  return placeIsDoubted(account) ? "nothing of the harmony until it is known where the bars lie" : null;
}

/** Why nothing can be told of the placing of notes in their beats; null of other measures, and where it can. */
function untoldOfTime(measure: LensAsk["measure"], { account }: Facts): string | null {
  const timed = measure === "swing-spread" || measure === "placing-spread";
  return timed && beatIsDoubted(account) ? "nothing of the time until it is known where the beats lie" : null;
}

function askOutcome(ask: LensAsk, facts: Facts, redraw: Redraw | null): AskOutcome {
  const { measure, least, most } = ask;
  const { name, unit, chance, hand, harmony } = lensMeasure(measure);
  const head = { measure, least, most };
  const untold = harmony ? untoldOfHarmony(facts) : untoldOfTime(measure, facts);
  const reading: Reading = untold === null ? READERS[measure](facts) : { untold };
  if ("untold" in reading) {
    const text = `${name}: ${reading.untold}.`;
    return { ...head, value: null, state: "cannot be told", text, ...places([], []) };
  }
  const bounded = boundedState(ask, reading.value);
  const drawn =
    bounded === "not yet" || redraw === null || chance === "fact" || chance === "closed form"
      ? null
      : weigh(ask, reading, (draw) => redraw(chance, draw, hand));
  const asWell = drawn !== null && drawn.asWell > MOST_AS_WELL;
  const bound = least !== null ? `at least ${lensValue(least, unit)}` : `at most ${lensValue(most!, unit)}`;
  const doubt = asWell ? "; chance would often do as well" : "";
  return {
    ...head,
    value: reading.value,
    state: asWell && bounded === "reached" ? "partly" : bounded,
    text: `${name}: ${lensValue(reading.value, unit)}${countedOf(reading, ask)} (asked for: ${bound})${doubt}.`,
    ...(drawn === null || chance === "fact" || chance === "closed form"
      ? {}
      : { chance: { null: chance, draws: drawn.draws, median: drawn.median, p: drawn.p } }),
    ...places(reading.notes, reading.open),
  };
}

function countedOf({ counted }: Told, { measure }: LensAsk): string {
  const { among } = lensMeasure(measure);
  return counted === undefined || among === null ? "" : `, ${counted.of} of ${counted.among} ${among}`;
}

function boundedState({ least, most, partly }: LensAsk, value: number): LensState {
  if (least !== null) return value >= least ? "reached" : value >= partly ? "partly" : "not yet";
  return value <= most! ? "reached" : value <= partly ? "partly" : "not yet";
}

interface Drawn {
  readonly draws: number;
  readonly asWell: number;
  readonly p: number;
  readonly median: number | null;
}

/** Given up as soon as more draws did as well than may. A draw that does not tell has not done as well. */
function weigh({ measure, least }: LensAsk, take: Told, draw: (n: number) => Account): Drawn {
  const values: number[] = [];
  let asWell = 0;
  let draws = 0;
  while (draws < DRAWS && asWell <= MOST_AS_WELL) {
    const reading = READERS[measure](factsOf(draw(draws++)));
    if ("untold" in reading) continue;
    values.push(reading.value);
    if (least !== null ? reading.value >= take.value : reading.value <= take.value) asWell++;
  }
  const middle = values.length * 2 > draws ? median(values)! : null;
  return { draws, asWell, p: (1 + asWell) / (1 + draws), median: middle };
}

/** How many notes are shown as places at which more was open: a page of them is no help. [practice] */
const OPEN_SHOWN = 12;

function places(notes: readonly AccountNote[], open: readonly AccountNote[]) {
  const shown = open.slice(0, OPEN_SHOWN);
  return {
    evidence: [...new Set(ids(notes))],
    bars: barsOf(notes),
    open: ids(shown),
    openBars: barsOf(shown),
  };
}

function barsOf(notes: readonly AccountNote[]): Finding["bars"] {
  return [...new Map(notes.map(({ chorus, bar }) => [`${chorus}:${bar}`, { chorus, bar }])).values()];
}
