/** Read-only links to a take: which are in force, the one that was just made, and what the next one will be. */
import type { ShareRow } from "../../server/contract/access.ts";
import { day } from "../shell/words.ts";

export interface ShareState {
  /** Links in force; null until they were read. */
  readonly shares: readonly ShareRow[] | null;
  /** The address of the link that was just made: it is shown this once. */
  readonly fresh: string | null;
  readonly name: string;
  /** Days in force, from `LENGTHS`; null for until it is ended. */
  readonly days: number | null;
  readonly refused: unknown;
}

const MONTH = 31;

/** How long a link may be in force, in days; a month for a start, which holds until a few lessons on. */
export const LENGTHS: readonly (readonly [days: number | null, words: string])[] = [
  [7, "for a week"],
  [MONTH, "for a month"],
  [120, "for a term"],
  [null, "until I end it"],
];

export const UNSHARED: ShareState = { shares: null, fresh: null, name: "", days: MONTH, refused: null };

export function sharesRead(state: ShareState, shares: readonly ShareRow[]): ShareState {
  return { ...state, shares, refused: null };
}

export function shareMade(state: ShareState, address: string): ShareState {
  return { ...state, fresh: address, name: "" };
}

/** Whatever was shown of the link that was made may be of the one that was ended. */
export function shareEnded(state: ShareState): ShareState {
  return { ...state, fresh: null };
}

/** What is sent for a new link; one without a name is named by the service. */
export function shareRequest({ name, days }: ShareState): { name?: string; days: number | null } {
  return { ...(name.trim() === "" ? {} : { name: name.trim() }), days };
}

/** " since 1 March 2026, until 1 April 2026" */
export function inForce({ createdAt, expiresAt }: ShareRow): string {
  return ` since ${day(createdAt)}${expiresAt === null ? "" : `, until ${day(expiresAt)}`} `;
}

/** What is said of a fresh address; on this machine alone it is of no use to others. */
export function freshWords(address: string): string {
  return ["127.0.0.1", "localhost", "[::1]"].includes(new URL(address).hostname)
    ? "The address is shown this once. This service answers on this machine only, so the link opens here; for somebody elsewhere, save the take as one file."
    : "The address is shown this once: copy it now.";
}
