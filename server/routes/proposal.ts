/** `POST /chart/proposal`: the charts that a file may be played on, to be corrected and confirmed; nothing is kept. */
import { z } from "zod";
import type { ProposeResult, ProposeTask } from "../analysis/propose-worker.ts";
import { type Route, route } from "../route.ts";
import { problemFrom } from "../serialise-problem.ts";
import { formFields, oneFile, optionsOf } from "./fields.ts";

const share = z.number().min(0).max(1);

const proposalSchema = z.object({
  source: z.enum(["source harmony", "source text", "comping"]),
  charts: z
    .array(
      z.object({
        description: z.string().describe('"12-bar blues in F"'),
        text: z.string().describe("chart text, to be sent as `chart`"),
        key: z.string(),
        meter: z.object({ beats: z.int(), unit: z.int() }),
        idiom: z.enum(["blues", "standard"]),
        form: z.string().nullable().describe("a built-in form, see GET /forms"),
        confidence: share.describe("1 for what the file prints"),
        bars: z.array(
          z.object({ bar: z.int(), chords: z.string().describe("as in chart text"), confidence: share }),
        ),
      }),
    )
    .min(1)
    .describe("the likeliest first"),
});

export const proposalRoutes: readonly Route[] = [
  route({
    method: "post",
    path: "/chart/proposal",
    access: "member",
    summary:
      "Propose charts for a solo, from its chord symbols or its comping, with a confidence for each bar; nothing is stored",
    accepts: "form",
    body: formFields.pick({ options: true }),
    answers: { 200: { description: "charts to choose from and to correct", schema: proposalSchema } },
    handle: async ({ body, files, services }) => {
      const file = oneFile(files);
      const options = { ...optionsOf(body.options), name: file.name };
      const result = await services.analyst.run<ProposeTask, ProposeResult>("proposal", {
        bytes: await services.listener.sourceOf(file.bytes, file.name),
        options,
      });
      if (result.ok) return { status: 200, json: result.proposal };
      throw problemFrom(result.problem);
    },
  }),
];
