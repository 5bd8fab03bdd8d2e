/** `/takes/:id/feedback`: what teacher and student add to the findings. Kept with the take, apart from its account. */
import type { z } from "zod";
import { feedbackSchema } from "../contract/feedback.ts";
import { idParams } from "../contract/fields.ts";
import { HttpProblem, notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";

/** How often a row's feedback was kept; 0 for what was never kept, or before versions were. */
export const VERSION = "coalesce((feedback ->> 'version')::int, 0)";

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
    summary: "Keep what teacher and student have added; with an older version than what stands it is refused",
    params: idParams,
    body: feedbackSchema,
    answers: { 200: { description: "the feedback", schema: feedbackSchema } },
    example: { params: { id: "tilda-week-1" }, body: { own: "I left more room than last week." } },
    handle: async ({ params, body, services }) => {
      // One statement, so that of two who send at once the second one finds the first one's version.
      const rows = await services.database.query<{ feedback: unknown }>(
        `update takes set feedback = $2::jsonb || jsonb_build_object('version', ${VERSION} + 1)
         where id = $1 and deleted_at is null and ($3::int is null or ${VERSION} = $3)
         returning feedback`,
        [params.id, JSON.stringify(body), body.version ?? null],
      );
      if (rows[0] === undefined) throw changedMeanwhile(await feedbackOf(services, params.id));
      return { status: 200, json: feedbackSchema.parse(rows[0].feedback) };
    },
  }),
];

/** What stands is told with the refusal, so that both can be joined. */
export function changedMeanwhile(stands: z.infer<typeof feedbackSchema>): HttpProblem {
  return new HttpProblem(
    409,
    "changed-meanwhile",
    "Somebody kept other feedback on this take meanwhile; nothing of it was overwritten",
    "body.version",
    "Join your changes with what stands, and send them with its version.",
    stands,
  );
}

/** Empty, of version 0, where nobody has added anything. */
export async function feedbackOf(services: Services, take: string): Promise<z.infer<typeof feedbackSchema>> {
  const rows = await services.database.query<{ feedback: unknown }>(
    "select feedback from takes where id = $1 and deleted_at is null",
    [take],
  );
  if (rows[0] === undefined) throw notFound("take", take);
  return { version: 0, ...feedbackSchema.parse(rows[0].feedback) };
}
