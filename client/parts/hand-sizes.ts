/** How the size of a player's hand is worded, wherever it is asked for. */
import type { AnalyseOptionsInput } from "../../src/account.ts";

export type HandSize = NonNullable<AnalyseOptionsInput["handSize"]>;

/** What a hand reaches from thumb to little finger without being stretched. [practice] */
export const HAND_SIZES: readonly (readonly [HandSize, string])[] = [
  ["small", "small: reaches an octave"],
  ["middle", "middle: reaches a ninth"],
  ["large", "large: reaches a tenth or more"],
];
