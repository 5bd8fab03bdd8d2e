import { z } from "zod";

/** How the notes fit the chart: asked about before anything is said of the harmony, unless it fits or is confirmed. */
export const chartFitSchema = z.object({
  verdict: z.enum(["fits", "doubtful", "does not fit"]),
  /** How likely it is the chart that was played, if wrong charts were as frequent as right ones, 0 to 1. */
  score: z.number().min(0).max(1),
  /** What fits better, the best first: a form's name, or null for the same chart, in a key. */
  better: z.array(
    z.object({ chart: z.string().nullable(), key: z.string(), score: z.number().min(0).max(1) }),
  ),
});
