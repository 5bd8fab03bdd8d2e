/** Tokens and who reaches what, as far as the pages need them. */
import type { MadeToken, Reaches, TokenRow } from "../../server/contract/access.ts";
import { fetchJson } from "../shell/api.ts";
import type { ReachRequest, TokenRequest } from "./access-model.ts";

const at = (id: string) => `/tokens/${encodeURIComponent(id)}`;

const sent = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

export const tokens = {
  list: () => fetchJson<{ tokens: readonly TokenRow[] }>("/tokens").then((body) => body.tokens),
  make: (request: TokenRequest) => fetchJson<MadeToken>("/tokens", sent("POST", request)),
  change: (id: string, request: ReachRequest) => fetchJson<TokenRow>(at(id), sent("PATCH", request)),
  end: (id: string) => fetchJson<unknown>(at(id), { method: "DELETE" }),
  forget: (id: string) => fetchJson<unknown>(`${at(id)}?forget=true`, { method: "DELETE" }),
};

export const reachesOf = (player: string) =>
  fetchJson<Reaches>(`/players/${encodeURIComponent(player)}/access`);
