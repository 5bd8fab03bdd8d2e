/** `/players/:id/...`: progress over time, and everything that is held on one player. */
import { zipSync } from "fflate";
import { type DatedTake, progressOf } from "../../src/compare/index.ts";
import { soundEnding } from "../../src/listen/index.ts";
import { accountText, openAccount } from "../analysis/analyst.ts";
import { idParams } from "../contract/fields.ts";
import { playerProgressSchema } from "../contract/player-page.ts";
import { notFound } from "../errors.ts";
import { sourceName } from "../listen/source-name.ts";
import { type Route, route } from "../route.ts";
import { lessonsOf } from "../store/lessons.ts";
import { findRow } from "../store/library.ts";
import { findPlayerPage } from "../store/player-page.ts";
import { itemsOfPlayer, linksOfPlayer, takesOfPlayer } from "../store/players.ts";
import { findSound, findSource } from "../store/sources.ts";
import { listTakes } from "../store/take-list.ts";
import { findAccount, findTake } from "../store/takes.ts";
import { feedbackOf } from "./feedback.ts";
import { takeRow } from "./takes.ts";

const example = { params: { id: "tilda" } };

export const playerRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/players/:id/progress",
    access: "player",
    summary: "A player's takes over time: the numbers that a teacher follows, goals, findings, best moments",
    params: idParams,
    answers: { 200: { description: "progress", schema: playerProgressSchema } },
    example,
    handle: async ({ params, services }) => {
      const player = await findRow(services.database, "players", params.id);
      if (player === null) throw notFound("player", params.id);
      const takes = await listTakes(services.database, { playerId: params.id });
      const dated: DatedTake[] = [];
      for (const { id, title, date, createdAt } of takes.toReversed()) {
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
    summary:
      "Everything that is held on one player: page, lessons, recordings, accounts, feedback, links, and files of jobs",
    params: idParams,
    answers: { 200: { description: "a zip", type: "application/zip" } },
    example,
    handle: async ({ params, services }) => {
      const player = await findRow(services.database, "players", params.id);
      if (player === null) throw notFound("player", params.id);
      const page = await findPlayerPage(services.database, params.id);
      const files: Record<string, Uint8Array> = { "player.json": json({ ...player, ...page }) };
      for (const { id } of await takesOfPlayer(services.database, params.id)) {
        const [take, source, account, feedback, sound] = await Promise.all([
          findTake(services.database, id),
          findSource(services.database, id),
          findAccount(services.database, id),
          feedbackOf(services, id),
          findSound(services.database, id),
        ]);
        if (take === null) continue;
        if (source !== null) files[`${id}/source${endingOf(sourceName(take.fileName, source))}`] = source;
        if (sound !== null) files[`${id}/sound.${soundEnding(sound.bytes) ?? "bin"}`] = sound.bytes;
        if (account !== null) files[`${id}/account.json`] = new TextEncoder().encode(accountText(account));
        files[`${id}/take.json`] = json({
          ...takeRow(take),
          chartText: take.chartText,
          options: take.options,
        });
        files[`${id}/feedback.json`] = json(feedback);
      }
      files["lessons.json"] = json(await lessonsOf(services.database, params.id));
      files["links.json"] = json(await linksOfPlayer(services.database, params.id));
      for (const { source, ...item } of await itemsOfPlayer(services.database, player.name)) {
        files[`jobs/${item.id}.json`] = json(item);
        if (source !== null) files[`jobs/${item.id}${endingOf(sourceName(item.fileName, source))}`] = source;
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

/** Names of files come from outside; only their ending is taken over. */
function endingOf(fileName: string): string {
  return /\.(mid|midi|kar|xml|musicxml|mxl)$/i.exec(fileName)?.[0].toLowerCase() ?? ".bin";
}

function json(value: unknown): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(value, null, 2));
}
