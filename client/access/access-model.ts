/** Who may see what: tokens and links as they stand, the one in the making, the one that is being changed. */
import type { Reaches, TokenRow } from "../../server/contract/access.ts";
import { count } from "../../src/words/index.ts";
import { day } from "../shell/words.ts";

type Role = TokenRow["role"];

/** What each kind opens, in the order in which they are told. */
export const KINDS: readonly { readonly role: Role; readonly name: string; readonly opens: string }[] = [
  {
    role: "owner",
    name: "Owner",
    opens: "Everything: all takes and players, this page, the audit, backups.",
  },
  {
    role: "teacher",
    name: "Teacher",
    opens: "The players that are named, their takes and pages, and changes of them; no other player.",
  },
  {
    role: "researcher",
    name: "Researcher",
    opens: "The corpora that are named: their tables, searches and takes, and sending files to them.",
  },
  { role: "monitor", name: "Monitor", opens: "Figures of the service, and nothing of anybody." },
  {
    role: "student",
    name: "Player's link",
    opens: "One player's own takes and lessons, and writing the own view.",
  },
  { role: "reader", name: "Link to a take", opens: "One take, to read." },
];

export const kindName = (role: Role): string => KINDS.find((kind) => kind.role === role)!.name;

/** Kinds that are made on the page; links are made where what they open stands. */
export const MADE_HERE = ["teacher", "researcher", "owner", "monitor"] as const satisfies readonly Role[];

export interface Named {
  readonly id: string;
  readonly name: string;
}

interface TokenDraft {
  readonly name: string;
  readonly role: (typeof MADE_HERE)[number];
  readonly scope: readonly string[];
  /** Days in force; null for until it is ended. */
  readonly days: number | null;
  /** As written; empty for what the settings say. */
  readonly mostTakes: string;
  readonly mostMb: string;
}

/** A token whose reach and bounds are being changed. */
type ReachDraft = Pick<TokenDraft, "scope" | "mostTakes" | "mostMb"> & { readonly id: string };

export interface AccessState {
  readonly tokens: readonly TokenRow[];
  readonly players: readonly Named[];
  readonly corpora: readonly Named[];
  readonly draft: TokenDraft;
  readonly changing: ReachDraft | null;
  /** The token that was just made: it is shown this once. */
  readonly fresh: { readonly name: string; readonly token: string } | null;
  /** Id of the token that is about to be ended, until that is confirmed. */
  readonly asks: string | null;
  /** A player, and who may see what of them. */
  readonly seen: { readonly player: string; readonly reaches: Reaches } | null;
  readonly refused: unknown;
}

/** A year, after which a teacher is asked for again. */
const YEAR = 365;

export const LENGTHS: readonly (readonly [days: number | null, words: string])[] = [
  [31, "for a month"],
  [120, "for a term"],
  [YEAR, "for a year"],
  [null, "until I end it"],
];

const NEW_TOKEN: TokenDraft = {
  ...{ name: "", role: "teacher", scope: [], days: YEAR },
  ...{ mostTakes: "", mostMb: "" },
};

export function opened(read: Pick<AccessState, "tokens" | "players" | "corpora">): AccessState {
  return { ...read, draft: NEW_TOKEN, changing: null, fresh: null, asks: null, seen: null, refused: null };
}

export function drafted(state: AccessState, part: Partial<TokenDraft>): AccessState {
  // Another kind reaches other things.
  const scope = part.role !== undefined && part.role !== state.draft.role ? { scope: [] } : {};
  return { ...state, draft: { ...state.draft, ...part, ...scope } };
}

/** Takes an id into a scope or out of it; the order of choice is kept. */
export function chosen(scope: readonly string[], id: string, taken: boolean): readonly string[] {
  const others = scope.filter((one) => one !== id);
  return taken ? [...others, id] : others;
}

/** What a token of a role may be made to reach. */
export function choicesOf({ players, corpora }: AccessState, role: Role): readonly Named[] {
  return role === "teacher" ? players : role === "researcher" ? corpora : [];
}

export function changing(state: AccessState, token: TokenRow): AccessState {
  const text = (bound: number | null) => (bound === null ? "" : String(bound));
  const { id, scope, mostTakes, mostMb } = token;
  return {
    ...state,
    asks: null,
    changing: { id, scope, mostTakes: text(mostTakes), mostMb: text(mostMb) },
  };
}

export function rechanged(state: AccessState, part: Partial<ReachDraft>): AccessState {
  return state.changing === null ? state : { ...state, changing: { ...state.changing, ...part } };
}

/** The tokens as they are now. */
export function readAgain(state: AccessState, tokens: readonly TokenRow[]): AccessState {
  return { ...state, tokens, refused: null };
}

/** After a token was changed or ended: nothing is half done, and none is fresh. */
export function settled(state: AccessState): AccessState {
  return { ...state, changing: null, asks: null, fresh: null };
}

export function made(state: AccessState, token: string): AccessState {
  return { ...state, fresh: { name: state.draft.name.trim(), token }, draft: NEW_TOKEN };
}

export interface ReachRequest {
  readonly scope: readonly string[];
  readonly mostTakes: number | null;
  readonly mostMb: number | null;
}

export interface TokenRequest extends ReachRequest {
  readonly name: string;
  readonly role: Role;
  readonly days: number | null;
}

const bound = (text: string) => (text.trim() === "" ? null : Number(text));

export function reachRequest({ scope, mostTakes, mostMb }: Omit<ReachDraft, "id">): ReachRequest {
  return { scope, mostTakes: bound(mostTakes), mostMb: bound(mostMb) };
}

export function tokenRequest({ draft }: AccessState): TokenRequest {
  return { ...reachRequest(draft), name: draft.name.trim(), role: draft.role, days: draft.days };
}

/** What is missing before the token can be made, in words; null when nothing is. */
export function missing({ draft }: AccessState): string | null {
  if (draft.name.trim() === "") return "Say for whom the token is.";
  if (draft.role === "teacher" && draft.scope.length === 0) return "Choose the players of this teacher.";
  if (draft.role === "researcher" && draft.scope.length === 0)
    return "Choose the corpora of this researcher.";
  return boundMissing(draft);
}

export function boundMissing({ mostTakes, mostMb }: Pick<ReachDraft, "mostTakes" | "mostMb">): string | null {
  const takes = bound(mostTakes);
  if (takes !== null && !(Number.isInteger(takes) && takes >= 0)) return "“Most takes” is a whole number.";
  const mb = bound(mostMb);
  return mb !== null && !(mb >= 0) ? "“Most megabytes” is a number." : null;
}

export interface Grouped {
  readonly people: readonly TokenRow[];
  readonly links: readonly TokenRow[];
  readonly over: readonly TokenRow[];
}

/** Tokens of people, links, and what opens nothing any more. @param now time as the service writes it */
export function grouped(tokens: readonly TokenRow[], now: string): Grouped {
  const over = (token: TokenRow) =>
    token.endedAt !== null || (token.expiresAt !== null && token.expiresAt <= now);
  const isLink = ({ role }: TokenRow) => role === "reader" || role === "student";
  return {
    people: tokens.filter((token) => !over(token) && !isLink(token)),
    links: tokens.filter((token) => !over(token) && isLink(token)),
    over: tokens.filter(over),
  };
}

/** "since 1 March 2026, until 1 April 2026"; of what has ended, until when it was in force. */
export function inForce({ createdAt, endedAt, expiresAt }: TokenRow): string {
  const end = [endedAt, expiresAt].filter((at) => at !== null).sort()[0];
  return `since ${day(createdAt)}${end === undefined ? "" : `, until ${day(end)}`}`;
}

/** "keeps 3 of at most 100 takes, 0.4 MB" */
export function keepsWords({ takes, megabytes, mostTakes, mostMb }: TokenRow): string {
  const mb = (value: number) => (value >= 10 ? Math.round(value) : Math.round(value * 10) / 10);
  return `keeps ${mostTakes === null ? count(takes, "take") : `${takes} of at most ${mostTakes} takes`}, ${mb(megabytes)} MB${
    mostMb === null ? "" : ` of at most ${mb(mostMb)}`
  }`;
}

/** Where what a token reaches is seen; null where it is gone, or where an own page is a part of another. */
export function wayTo(role: Role, { id, name }: TokenRow["reaches"][number]): string | null {
  if (name === null) return null;
  const at = encodeURIComponent(id);
  return role === "reader" ? `#/takes/${at}` : role === "researcher" ? `#/corpora/${at}` : `#/players/${at}`;
}

/** What a token opens of one player. */
export function reachWords({ role, takes }: Reaches["tokens"][number], all: number): string {
  const some = takes === all ? (all === 1 ? "the take" : `all ${takes} takes`) : `${takes} of ${all} takes`;
  const of: Record<Role, string> = {
    owner: "everything, to change and to delete",
    teacher: `the player's page, lessons and ${some}, to change`,
    student: `the player's own page: lessons and ${some}; the own view can be written`,
    reader: `${some}, to read`,
    researcher: `${some}, as part of corpora`,
    monitor: "nothing",
  };
  return of[role];
}
