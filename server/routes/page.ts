/** `/takes/:id/page.html`: everything on a take in one file that opens without a server or a network. */
import { idParams } from "../contract/fields.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import { lessonHtml } from "../standalone/lesson-html.ts";
import { findTake } from "../store/takes.ts";
import { feedbackOf } from "./feedback.ts";
import { materialOf } from "./practice.ts";

export const pageRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/takes/:id/page.html",
    access: "take",
    summary: "The take as one file: words, pictures and exercises, for reading without a network",
    params: idParams,
    answers: { 200: { description: "HTML with everything inside", type: "text/html" } },
    example: { params: { id: "tilda-week-1" } },
    handle: async ({ params, services }) => {
      const take = await findTake(services.database, params.id);
      if (take === null) throw notFound("take", params.id);
      const [{ analysis, shapes }, feedback] = await Promise.all([
        materialOf(services, params.id),
        feedbackOf(services, params.id),
      ]);
      const { title, player, date } = take;
      const head = { title, player, date, chartName: analysis.chart.name, key: analysis.chart.key };
      return {
        status: 200,
        type: "text/html",
        fileName: `${params.id}.html`,
        body: await lessonHtml({ take: head, analysis, feedback }, shapes),
      };
    },
  }),
];
