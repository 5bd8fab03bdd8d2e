/** What the server holds on a player's page, and the ways to change it. */
import type { LensRow } from "../../server/contract/library.ts";
import type { PlayerPage } from "../../server/contract/player-page.ts";
import { fetchJson } from "../shell/api.ts";

export type HandSize = NonNullable<PlayerPage["usual"]["handSize"]>;

/** A change to send: where, how, with what; the server answers the page as it stands then, or nothing. */
export interface PlayerCall {
  readonly method: "PATCH" | "PUT" | "POST" | "DELETE";
  /** Below `/players/ID`. */
  readonly path: string;
  readonly body?: unknown;
}

export const readPlayerPage = (id: string): Promise<PlayerPage> =>
  fetchJson<PlayerPage>(`/players/${encodeURIComponent(id)}/page`);

export const sendPlayerCall = (id: string, { method, path, body }: PlayerCall): Promise<PlayerPage | null> =>
  fetchJson<PlayerPage | null>(`/players/${encodeURIComponent(id)}${path}`, {
    method,
    ...(body === undefined
      ? {}
      : { headers: { "content-type": "application/json" }, body: JSON.stringify(body) }),
  });

export const readLenses = (): Promise<readonly LensRow[]> =>
  fetchJson<{ lenses: LensRow[] }>("/lenses").then(({ lenses }) => lenses);
