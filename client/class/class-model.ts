/** The class as rows: whose, the lens, the last take, and what is due. */
import type { ClassPlayer } from "../../server/contract/class.ts";
import { count } from "../../src/words/index.ts";
import { LENS_STATE_WORDS } from "../findings/lens-words.ts";

export interface ClassState {
  readonly players: readonly ClassPlayer[];
  /** Whether the demo class is shown. */
  readonly demo: boolean;
  /** ISO date. */
  readonly today: string;
}

/** Days without a take after which it is said: two weekly lessons [practice]. */
const LONG = 14;

export const shownPlayers = ({ players, demo }: ClassState): readonly ClassPlayer[] =>
  players.filter((one) => demo || !one.demo);

export const hasDemo = ({ players }: ClassState): boolean => players.some((one) => one.demo);

/** What a teacher would ask for next; empty where nothing is. */
export function dueWords({ lens, last, today }: ClassPlayer & { readonly today: string }): string {
  if (last === null) return "a first take";
  if (lens !== null && lens.takes === 0) return "a take with the lens";
  const days = Math.floor((Date.parse(today) - Date.parse(last.date)) / 86_400_000);
  return days > LONG ? `a take, the last was ${count(Math.floor(days / 7), "week")} ago` : "";
}

/** How far the lens is reached, and what moved since the take before; empty where no take tells. */
export function movedWords({ lens }: Pick<ClassPlayer, "lens">): string {
  if (lens === null || lens.now === null) return "";
  const now = LENS_STATE_WORDS[lens.now].toLowerCase();
  if (lens.before === null) return `${now} in the newest take`;
  return lens.now === lens.before
    ? `${now}, as in the take before`
    : `${now} now, ${LENS_STATE_WORDS[lens.before].toLowerCase()} in the take before`;
}
