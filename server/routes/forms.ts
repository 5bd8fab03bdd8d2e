/** `GET /forms`: the built-in forms. `POST /chart`: reads chart text without keeping it. */
import { z } from "zod";
import { barText, chartText, FORMS, keyName, readChart } from "../../src/chart/index.ts";
import { type Route, route } from "../route.ts";
import { chartFields, requiredChartText } from "./fields.ts";

const formSchema = z.object({
  id: z.string(),
  name: z.string(),
  bars: z.int(),
  mode: z.enum(["major", "minor"]),
});

export const formRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/forms",
    access: "member",
    summary: "Built-in forms",
    answers: { 200: { description: "forms", schema: z.object({ forms: z.array(formSchema) }) } },
    example: {},
    handle: async () => ({
      status: 200,
      json: { forms: FORMS.map(({ id, name, bars, mode }) => ({ id, name, bars, mode })) },
    }),
  }),
  route({
    method: "post",
    path: "/chart",
    access: "member",
    summary: "Read a chart, and print it back in the house style",
    body: chartFields,
    answers: {
      200: {
        description: "the chart",
        schema: z.object({
          text: z.string(),
          key: z.string(),
          bars: z.int(),
          name: z.string().nullable(),
          meter: z.object({ beats: z.int(), unit: z.int() }),
          played: z
            .array(z.object({ bar: z.int(), chords: z.string().describe("as in chart text") }))
            .describe("the bars of one chorus in the order of playing"),
          warnings: z
            .array(z.object({ code: z.string(), message: z.string(), where: z.string().nullable() }))
            .describe("what was understood rather than read; each asks for what would make it plain"),
        }),
      },
    },
    example: { body: { form: "blues-basic", key: "F" } },
    handle: async ({ body, services }) => {
      const { chart, warnings } = readChart(await requiredChartText(body, services.database));
      return {
        status: 200,
        json: {
          text: chartText(chart),
          key: keyName(chart.key),
          bars: chart.bars.length,
          name: chart.name,
          meter: chart.meter,
          played: chart.bars.map((bar) => ({ bar: bar.number, chords: barText(bar, chart.meter) })),
          warnings: [...warnings],
        },
      };
    },
  }),
];
