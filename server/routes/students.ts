/** `/players/:id/view`: a player's own page behind a link; `/players/:id/shares`: those links; `/takes/:id/own-view`. */
import { z } from "zod";
import { madeShareSchema, newShare, sharesSchema } from "../contract/access.ts";
import { feedbackSchema } from "../contract/feedback.ts";
import { idParams } from "../contract/fields.ts";
import { ownView, studentViewSchema } from "../contract/students.ts";
import { notFound } from "../errors.ts";
import { handedLessons } from "../handed-lessons.ts";
import { today } from "../player-defaults.ts";
import { type Route, route } from "../route.ts";
import type { Queryable } from "../store/database.ts";
import { findRow } from "../store/library.ts";
import { lensesOf, lensOn } from "../store/player-page.ts";
import { listTakes } from "../store/take-list.ts";
import { createToken, endToken, linksOfStudent } from "../store/tokens.ts";
import { changedMeanwhile, feedbackOf, VERSION } from "./feedback.ts";
import { takeRow } from "./takes.ts";

const example = { params: { id: "tilda" } };

export const studentRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/players/:id/view",
    access: "own",
    summary: "What a player sees of themselves: own takes, lens and lessons",
    params: idParams,
    answers: { 200: { description: "the player's own page", schema: studentViewSchema } },
    example,
    handle: async ({ params, services: { database } }) => {
      const { id, name } = await required(database, params.id);
      const lens = lensOn(await lensesOf(database, id), today());
      const takes = await listTakes(database, { playerId: id });
      return {
        status: 200,
        json: {
          player: { id, name },
          lens: lens === null ? null : { id: lens.id, name: lens.name, about: lens.about },
          takes: takes.map(takeRow),
          lessons: await handedLessons(database, id),
        },
      };
    },
  }),
  route({
    method: "put",
    path: "/takes/:id/own-view",
    access: "own-take",
    summary:
      "Keep the player's own evaluation of a take; the rest of the feedback stays, and an older version is refused",
    params: idParams,
    body: ownView,
    answers: { 200: { description: "the feedback", schema: feedbackSchema } },
    example: { params: { id: "tilda-week-1" }, body: { own: "I left more room than last week." } },
    handle: async ({ params, body, services }) => {
      const rows = await services.database.query(
        `update takes set feedback = feedback || $2::jsonb || jsonb_build_object('version', ${VERSION} + 1)
         where id = $1 and deleted_at is null and ($3::int is null or ${VERSION} = $3) returning id`,
        [params.id, JSON.stringify({ own: body.own, asked: true }), body.version ?? null],
      );
      const stands = await feedbackOf(services, params.id);
      if (rows.length === 0) throw changedMeanwhile(stands);
      return { status: 200, json: stands };
    },
  }),
  route({
    method: "get",
    path: "/players/:id/shares",
    access: "player",
    summary: "Links by which a player opens their own page, that are in force",
    params: idParams,
    answers: { 200: { description: "links", schema: sharesSchema } },
    example,
    handle: async ({ params, services: { database } }) => {
      await required(database, params.id);
      const links = await linksOfStudent(database, params.id);
      const shares = links.map(({ id, name, createdAt, expiresAt }) => ({ id, name, createdAt, expiresAt }));
      return { status: 200, json: { shares } };
    },
  }),
  route({
    method: "post",
    path: "/players/:id/shares",
    access: "player",
    summary: "Make a link to a player's own page; its address is told this once",
    params: idParams,
    body: newShare,
    answers: { 201: { description: "the link", schema: madeShareSchema } },
    example: { ...example, body: { name: "For Tilda", days: 90 } },
    handle: async ({ params, body, services: { database } }) => {
      await required(database, params.id);
      const { id, token } = await createToken(database, {
        ...{ name: body.name, role: "student", scope: [params.id], days: body.days },
      });
      return { status: 201, json: { id, path: `/shared/${token}` } };
    },
  }),
  route({
    method: "delete",
    path: "/players/:id/shares/:share",
    access: "player",
    summary: "End a link to a player's own page",
    params: idParams.extend({ share: z.string().max(100).describe("id of the link") }),
    answers: { 204: { description: "ended" } },
    handle: async ({ params, services: { database } }) => {
      const links = await linksOfStudent(database, params.id);
      if (!links.some(({ id }) => id === params.share)) throw notFound("link", params.share);
      await endToken(database, params.share);
      return { status: 204 };
    },
  }),
];

async function required(database: Queryable, id: string) {
  const player = await findRow(database, "players", id);
  if (player === null) throw notFound("player", id);
  return player;
}
