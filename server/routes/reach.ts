/** `GET /players/:id/access`: who may see what of a player. */
import { reachesSchema } from "../contract/access.ts";
import { idParams } from "../contract/fields.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import { findRow } from "../store/library.ts";
import { takesOfPlayer } from "../store/players.ts";
import { reachOfPlayer } from "../store/tokens.ts";

export const reachRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/players/:id/access",
    access: "player",
    summary: "Who may see what of a player: the tokens and links in force, and how many takes each opens",
    params: idParams,
    answers: { 200: { description: "tokens and links", schema: reachesSchema } },
    example: { params: { id: "tilda" } },
    handle: async ({ params, services: { database } }) => {
      if ((await findRow(database, "players", params.id)) === null) throw notFound("player", params.id);
      const [takes, tokens] = await Promise.all([
        takesOfPlayer(database, params.id),
        reachOfPlayer(database, params.id),
      ]);
      return { status: 200, json: { takes: takes.length, tokens } };
    },
  }),
];
