/** Where the hand stands: shapes in their places, fingerings that move, slides. */
import { between, type Facts, ids } from "../../findings/facts.ts";
import { isScale } from "../../findings/rules/keyboard-technique/fingering-moved.ts";
import { keyboardPlayed } from "../../findings/rules/keyboard-technique/keyboard-played.ts";
import { type Reading, shareOf } from "../reading.ts";

/** A place is played, not touched, from as many notes on as the smallest shape has fingers. [practice] */
const PLAYED = 4;

/**
 * Notes in a shape that is played at two places of the chord which sounds. Chords alone do not tell: the same notes in
 * another order fill both places of as many chords, with fewer of the notes.
 */
export function bothPlaces(facts: Facts): Reading {
  const { handFit, placements } = facts.account;
  if (placements.length === 0) return { untold: "no placement of a known shape" };
  const both = handFit.byChord.flatMap(({ chord, used }) => {
    const played = used.filter(({ notes }) => notes >= PLAYED);
    const twice = played.filter((one) =>
      played.some((other) => other.shape === one.shape && other.anchorDegree !== one.anchorDegree),
    );
    return twice.length === 0 ? [] : [{ chord, shapes: new Set(twice.map(({ shape }) => shape)) }];
  });
  const shapesOn = new Map(both.map(({ chord, shapes }) => [chord, shapes]));
  const inside = new Set(
    placements
      .filter(({ chord, shape }) => shapesOn.get(chord ?? "")?.has(shape))
      .flatMap((one) => ids(between(facts.solo, facts.place, one))),
  );
  return shareOf(facts.solo, ({ id }) => inside.has(id), { notes: 24, named: "notes" });
}

/** Shorter fingerings return by chance in most takes; five and more are the hand's own idea. [practice] */
const FINGERING = 5;

/** The fingering that is played at the most places of the keyboard; neighbouring fingers in a row are practice, no idea. */
export function fingeringMoved(facts: Facts): Reading {
  const { account, byId, solo, place } = facts;
  // A wind player has no fingers of this kind, and a line alone does not tell who played it.
  if (!keyboardPlayed(facts)) return { untold: "nothing tells that it was played on a keyboard" };
  const moved = account.handFit.moved
    .filter(({ fingers }) => fingers.length >= FINGERING && !isScale(fingers))
    .map(({ firstNotes, fingers }) => {
      const starts = firstNotes.flatMap((id) => byId.get(id) ?? []);
      return { starts, length: fingers.length, places: new Set(starts.map(({ pitch }) => pitch)).size };
    })
    .sort((a, b) => b.places - a.places || b.length - a.length);
  const [best] = moved;
  if (best === undefined) return { value: 0, notes: [], open: [] };
  const from = (id: string) => place.get(id) ?? solo.length;
  return {
    value: best.places,
    notes: best.starts.flatMap(({ id }) => solo.slice(from(id), from(id) + best.length)),
    open: [],
  };
}

export function slides({ account, byId }: Facts): Reading {
  const { taken, ideas = [] } = account.handFit.slides;
  const named = (ids: readonly string[]) => ids.flatMap((id) => byId.get(id) ?? []);
  return {
    value: taken.length,
    notes: named(taken.flatMap(({ from, to }) => [from, to])),
    open: named(ideas),
  };
}
