/** `POST /analyse`: an account of a file that is not kept. */
import { analysisSchema } from "../../src/account.ts";
import { formFields } from "../contract/fields.ts";
import { type Route, route } from "../route.ts";
import { keptAccount } from "../store/accounts.ts";
import { chartTextOf, oneFile, optionsOf } from "./fields.ts";

export const analyseRoutes: readonly Route[] = [
  route({
    method: "post",
    path: "/analyse",
    keeps: false,
    access: "working",
    summary: "Analyse a solo over a chart; nothing is stored",
    accepts: "form",
    body: formFields,
    answers: { 200: { description: "the account", schema: analysisSchema } },
    handle: async ({ body, files, services }) => {
      const file = oneFile(files);
      const { account } = await services.analyst.analyse({
        bytes: await services.listener.sourceOf(file.bytes, file.name, { given: true }),
        chart: await chartTextOf(body, services.database),
        options: { ...optionsOf(body.options), name: file.name },
      });
      return { status: 200, kept: keptAccount(null, account) };
    },
  }),
];
