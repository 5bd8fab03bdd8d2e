import { z } from "zod";

/** How the notes fit the chart: asked about before anything is said of the harmony, unless it fits or is confirmed. */
export const chartFitSchema = z
  .object({
    verdict: z
      .enum(["fits", "doubtful", "does not fit", "cannot be told"])
      .describe(
        "what may be said of the chart: cannot be told where it does not fit a line alone of which the bars are as likely wrong as right; harmony is not judged unless it fits or is confirmed",
      ),
    score: z
      .number()
      .min(0)
      .max(1)
      .describe(
        "how likely it is the chart that was played, 0 to 1, if wrong charts were as frequent as right ones",
      ),
    better: z
      .array(
        z.object({
          chart: z.string().nullable().describe("id of a built-in form; null for the same chart"),
          key: z.string().describe('key in which it fits better: "F", "Gm"'),
          score: z.number().min(0).max(1).describe("how likely that one is, 0 to 1, as `score` above"),
        }),
      )
      .describe("what fits better, the best first"),
  })
  .meta({ id: "ChartFit", description: "how the notes fit the chart" });
