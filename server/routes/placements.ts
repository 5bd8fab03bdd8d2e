/** `GET /placements`: where the hand may stand on every chord of a chart. */
import { z } from "zod";
import { chordSpans, parseChart } from "../../src/chart/index.ts";
import { BUILT_IN_SHAPES, placementMap, placementMapSchema, shapesNamed } from "../../src/hands/index.ts";
import { chartFields } from "../contract/fields.ts";
import { builtInShapesSchema } from "../contract/library.ts";
import { type Route, route } from "../route.ts";
import { listRows } from "../store/library.ts";
import { requiredChartText } from "./fields.ts";

export const placementRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/placements",
    access: "member",
    summary: "The placement map of a chart",
    query: chartFields.extend({
      shape: z
        .union([z.string().max(60), z.array(z.string().max(60)).max(200)])
        .optional()
        .describe("one or more names; all shapes when left out"),
      hand: z.enum(["right", "left"]).default("right").describe("the hand that plays"),
    }),
    answers: { 200: { description: "the map", schema: placementMapSchema } },
    example: { query: { form: "blues-basic", key: "F", shape: "third-and-steps" } },
    handle: async ({ query, services }) => {
      const chart = parseChart(await requiredChartText(query, services.database));
      const own = (await listRows(services.database, "shapes")).map((row) => row.shape);
      const names = query.shape === undefined ? null : [query.shape].flat();
      const map = placementMap(chart, chordSpans(chart), shapesNamed(names, own), { hand: query.hand });
      return { status: 200, json: map };
    },
  }),
  route({
    method: "get",
    path: "/shapes/built-in",
    access: "member",
    summary: "The shapes that are built in",
    answers: { 200: { description: "shapes", schema: builtInShapesSchema } },
    example: {},
    handle: async () => ({ status: 200, json: { shapes: BUILT_IN_SHAPES } }),
  }),
];
