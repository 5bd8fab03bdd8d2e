/** `GET /forms`: the built-in forms. `POST /chart`: reads chart text without keeping it. */
import { barText, chartText, FORMS, keyInBar, keyName, readChart } from "../../src/chart/index.ts";
import { formsSchema, readChartSchema } from "../contract/charts.ts";
import { chartFields } from "../contract/fields.ts";
import { type Route, route } from "../route.ts";
import { requiredChartText } from "./fields.ts";

export const formRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/forms",
    access: "member",
    summary: "Built-in forms",
    answers: { 200: { description: "forms", schema: formsSchema } },
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
    answers: { 200: { description: "the chart", schema: readChartSchema } },
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
          played: chart.bars.map((bar) => ({
            bar: bar.number,
            chords: barText(bar, chart.meter),
            key: keyName(keyInBar(chart, bar)),
          })),
          warnings: [...warnings],
        },
      };
    },
  }),
];
