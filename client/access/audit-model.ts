/** Who read and wrote what of persons, a page at a time: what is asked for, and what came. */
import type { AuditEntry } from "../../server/contract/audit.ts";
import { day } from "../shell/words.ts";
import { kindName, type Named } from "./access-model.ts";

/** Empty where nothing is chosen. */
export interface AuditChoice {
  /** Id of a player, take, corpus, job or token. */
  readonly about: string;
  /** Id of a token. */
  readonly token: string;
  /** "read" or "write". */
  readonly action: string;
}

export interface AuditState {
  readonly choice: AuditChoice;
  readonly players: readonly Named[];
  readonly tokens: readonly Named[];
  /** The newest first. */
  readonly entries: readonly AuditEntry[];
  /** What the next page is asked for with; null when all was read. */
  readonly next: string | null;
  readonly reading: boolean;
  readonly refused: unknown;
}

const NAMES = ["about", "token", "action"] as const;

export function openedAt(query: URLSearchParams, named: Pick<AuditState, "players" | "tokens">): AuditState {
  const [about, token, action] = NAMES.map((name) => query.get(name) ?? "");
  const choice = { about: about!, token: token!, action: action! };
  return { ...named, choice, entries: [], next: null, reading: true, refused: null };
}

/** The address that opens the page as it stands, which is also what the service is asked for. */
export function auditQuery({ choice }: Pick<AuditState, "choice">): string {
  return new URLSearchParams(
    NAMES.flatMap((name) => (choice[name] === "" ? [] : [[name, choice[name]]])),
  ).toString();
}

/** Another choice is read from its beginning. */
export function choose(state: AuditState, part: Partial<AuditChoice>): AuditState {
  return { ...state, choice: { ...state.choice, ...part }, entries: [], next: null, reading: true };
}

export function pageRead(
  state: AuditState,
  page: { readonly entries: readonly AuditEntry[]; readonly next: string | null },
): AuditState {
  return {
    ...state,
    ...{ entries: [...state.entries, ...page.entries], next: page.next, reading: false, refused: null },
  };
}

/** What may be chosen as "about": the players, and whatever an address or a line named beside them. */
export function aboutChoices({ players, choice, entries }: AuditState): readonly Named[] {
  if (choice.about === "" || players.some(({ id }) => id === choice.about)) return players;
  const known = entries.find(({ about }) => about === choice.about);
  return [...players, { id: choice.about, name: known?.aboutName ?? "what is gone" }];
}

export function whoWords({ token, tokenName, role }: AuditEntry): string {
  if (token === null) return "The owner, at the machine";
  return `${tokenName ?? "A token that is gone"} (${kindName(role as Parameters<typeof kindName>[0]).toLowerCase()})`;
}

/** "Read: …" with the words of the route; of a refusal, that it was one. */
export function whatWords({ action, what, route, status }: AuditEntry): string {
  const done = status < 400 ? (action === "read" ? "Read" : "Wrote") : "Was refused";
  return `${done}: ${what ?? route}`;
}

/** "29 November 2026, 06:40:12", as it is where the browser is. */
export function timeWords(at: string, zone?: string): string {
  const time = new Date(at).toLocaleTimeString("en-GB", { timeZone: zone });
  return `${day(new Date(at).toLocaleDateString("en-CA", { timeZone: zone }))}, ${time}`;
}

/** Where what an entry was about is seen; null where it is gone, or has no page. */
export function wayTo({ route, about, aboutName }: AuditEntry): string | null {
  const room = /^\/(takes|players|corpora)\//.exec(route)?.[1];
  return room === undefined || about === null || aboutName === null
    ? null
    : `#/${room}/${encodeURIComponent(about)}`;
}
