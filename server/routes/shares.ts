/** `/takes/:id/shares`: read-only links to a take, which can be ended and end by themselves after a time. A share is a reader's token of its own. */
import { z } from "zod";
import { maySee } from "../access.ts";
import { madeShareSchema, newShare, sharesSchema } from "../contract/access.ts";
import { idParams } from "../contract/fields.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import { findTake } from "../store/takes.ts";
import { createToken, endToken, sharesOf } from "../store/tokens.ts";

export const shareRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/takes/:id/shares",
    access: "teaching",
    summary: "Links to a take that are in force",
    params: idParams,
    answers: { 200: { description: "shares", schema: sharesSchema } },
    example: { params: { id: "tilda-week-1" } },
    handle: async ({ params, services, actor }) => {
      const take = await findTake(services.database, params.id);
      if (take === null || !maySee(actor, take)) throw notFound("take", params.id);
      const shares = await sharesOf(services.database, params.id);
      return {
        status: 200,
        json: {
          shares: shares.map(({ id, name, createdAt, expiresAt }) => ({ id, name, createdAt, expiresAt })),
        },
      };
    },
  }),
  route({
    method: "post",
    path: "/takes/:id/shares",
    access: "take",
    summary: "Make a read-only link to a take; its address is told this once",
    params: idParams,
    body: newShare,
    answers: { 201: { description: "the link", schema: madeShareSchema } },
    example: { params: { id: "tilda-week-1" }, body: { name: "For Tilda", days: 30 } },
    handle: async ({ params, body, services }) => {
      const known = await services.database.query(
        "select 1 from takes where id = $1 and deleted_at is null",
        [params.id],
      );
      if (known.length === 0) throw notFound("take", params.id);
      const { id, token } = await createToken(services.database, {
        name: body.name,
        role: "reader",
        scope: [params.id],
        days: body.days,
      });
      return { status: 201, json: { id, path: `/shared/${token}` } };
    },
  }),
  route({
    method: "delete",
    path: "/takes/:id/shares/:share",
    access: "take",
    summary: "End a link",
    params: idParams.extend({ share: z.string().max(100).describe("id of the link") }),
    answers: { 204: { description: "ended" } },
    handle: async ({ params, services }) => {
      const shares = await sharesOf(services.database, params.id);
      if (!shares.some((share) => share.id === params.share)) throw notFound("link", params.share);
      await endToken(services.database, params.share);
      return { status: 204 };
    },
  }),
];
