/** `POST /chart/proposal`: the charts that a file may be played on, to be corrected and confirmed; nothing is kept. */
import type { ProposeResult, ProposeTask } from "../analysis/propose-worker.ts";
import { proposalSchema } from "../contract/charts.ts";
import { formFields } from "../contract/fields.ts";
import { type Route, route } from "../route.ts";
import { problemFrom } from "../serialise-problem.ts";
import { oneFile, optionsOf } from "./fields.ts";

export const proposalRoutes: readonly Route[] = [
  route({
    method: "post",
    path: "/chart/proposal",
    keeps: false,
    access: "working",
    summary:
      "Propose charts for a solo, from its chord symbols or its comping, with a confidence for each bar; nothing is stored",
    accepts: "form",
    body: formFields.pick({ options: true }),
    answers: { 200: { description: "charts to choose from and to correct", schema: proposalSchema } },
    handle: async ({ body, files, services }) => {
      const file = oneFile(files);
      const options = { ...optionsOf(body.options), name: file.name };
      const result = await services.analyst.run<ProposeTask, ProposeResult>("proposal", {
        bytes: await services.listener.sourceOf(file.bytes, file.name, { given: true }),
        options,
      });
      if (result.ok) return { status: 200, json: result.proposal };
      throw problemFrom(result.problem);
    },
  }),
];
