/** `/takes/:id/feedback`: what teacher and student add to the findings. Kept with the take, apart from its account. */
import type { z } from "zod";
import { feedbackSchema } from "../contract/feedback.ts";
import { idParams } from "../contract/fields.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";

export const feedbackRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/takes/:id/feedback",
    access: "take",
    summary: "What teacher and student have added to the findings",
    params: idParams,
    answers: { 200: { description: "the feedback", schema: feedbackSchema } },
    example: { params: { id: "tilda-week-1" } },
    handle: async ({ params, services }) => ({ status: 200, json: await feedbackOf(services, params.id) }),
  }),
  route({
    method: "put",
    path: "/takes/:id/feedback",
    access: "take",
    summary: "Keep what teacher and student have added",
    params: idParams,
    body: feedbackSchema,
    answers: { 200: { description: "the feedback", schema: feedbackSchema } },
    example: { params: { id: "tilda-week-1" }, body: { own: "I left more room than last week." } },
    handle: async ({ params, body, services }) => {
      const rows = await services.database.query(
        "update takes set feedback = $2::jsonb where id = $1 and deleted_at is null returning id",
        [params.id, JSON.stringify(body)],
      );
      if (rows.length === 0) throw notFound("take", params.id);
      return { status: 200, json: body };
    },
  }),
];

/** Empty where nobody has added anything. */
export async function feedbackOf(services: Services, take: string): Promise<z.infer<typeof feedbackSchema>> {
  const rows = await services.database.query<{ feedback: unknown }>(
    "select feedback from takes where id = $1 and deleted_at is null",
    [take],
  );
  if (rows[0] === undefined) throw notFound("take", take);
  return feedbackSchema.parse(rows[0].feedback);
}
