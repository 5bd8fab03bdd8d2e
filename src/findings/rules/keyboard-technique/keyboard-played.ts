import type { Facts } from "../../facts.ts";

/** True where shapes of the hand were chosen for the take. */
function shapesChosen({ account }: Facts): boolean {
  return account.options.shapes !== null && account.options.shapes.length > 0;
}

/** Programs of General MIDI that are played on keys: pianos and organs, first and last, counted from 0. */
const KEYBOARDS = [
  [0, 7],
  [16, 20],
] as const;

function isKeyboard(program: number | null): boolean {
  return program !== null && KEYBOARDS.some(([first, last]) => program >= first && program <= last);
}

/**
 * True where a keyboard was surely played: the file says so, both hands are there, fingers are printed, or shapes were
 * chosen. Of a line alone nobody knows the instrument, and a wind player has no fingers to speak of.
 */
export function keyboardPlayed(facts: Facts): boolean {
  const { notes, source } = facts.account;
  return (
    shapesChosen(facts) ||
    source.parts.some(({ program }) => isKeyboard(program)) ||
    notes.some((note) => !note.solo || note.fingerSource === "printed")
  );
}
