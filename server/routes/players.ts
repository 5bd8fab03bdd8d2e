/** `/players/:id/...`: progress over time, and everything that is held on one player. */
import { zipSync } from "fflate";
import { z } from "zod";
import { type DatedTake, progressOf } from "../../src/compare/index.ts";
import { accountText, openAccount } from "../analysis/analyst.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import { findRow } from "../store/named.ts";
import { findAccount, findSource, listTakes } from "../store/takes.ts";
import { feedbackSchema } from "./feedback.ts";
import { idParams } from "./fields.ts";
import { shown } from "./takes.ts";

const example = { params: { id: "tilda" } };

export const playerRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/players/:id/progress",
    access: "player",
    summary: "A player's takes over time: the numbers that a teacher follows, goals, findings, best moments",
    params: idParams,
    answers: { 200: { description: "progress", schema: z.looseObject({}) } },
    example,
    handle: async ({ params, services }) => {
      const player = await findRow(services.database, "players", params.id);
      if (player === null) throw notFound("player", params.id);
      const takes = await listTakes(services.database, { playerId: params.id });
      const dated: DatedTake[] = [];
      for (const { id, title, date, createdAt } of takes.reverse()) {
        const account = await findAccount(services.database, id);
        if (account === null) continue;
        dated.push({ id, title, date: date ?? createdAt.slice(0, 10), analysis: openAccount(account) });
      }
      return { status: 200, json: { player, ...progressOf(dated) } };
    },
  }),
  route({
    method: "get",
    path: "/players/:id/export.zip",
    access: "player",
    summary: "Everything that is held on one player: recordings, accounts, feedback",
    params: idParams,
    answers: { 200: { description: "a zip", type: "application/zip" } },
    example,
    handle: async ({ params, services }) => {
      const player = await findRow(services.database, "players", params.id);
      if (player === null) throw notFound("player", params.id);
      const takes = await services.database.query<{ id: string; feedback: unknown }>(
        "select id, feedback from takes where player_id = $1 and deleted_at is null order by played_on, id",
        [params.id],
      );
      const stored = new Map(
        (await listTakes(services.database, { playerId: params.id })).map((take) => [take.id, take]),
      );
      const files: Record<string, Uint8Array> = { "player.json": json(player) };
      for (const { id, feedback } of takes) {
        const [source, account] = await Promise.all([
          findSource(services.database, id),
          findAccount(services.database, id),
        ]);
        const take = stored.get(id);
        // Names of files come from outside; only their ending is taken over.
        const ending =
          /\.(mid|midi|kar|xml|musicxml|mxl)$/i.exec(take?.fileName ?? "")?.[0].toLowerCase() ?? ".bin";
        if (source !== null) files[`${id}/source${ending}`] = source;
        if (account !== null) files[`${id}/account.json`] = new TextEncoder().encode(accountText(account));
        if (take !== undefined) files[`${id}/take.json`] = json(shown(take));
        files[`${id}/feedback.json`] = json(feedbackSchema.parse(feedback));
      }
      return {
        status: 200,
        type: "application/zip",
        fileName: "player.zip",
        body: zipSync(files),
      };
    },
  }),
];

function json(value: unknown): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(value, null, 2));
}
