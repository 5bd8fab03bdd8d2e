import { type AnalyseOptions, type AnalyseOptionsInput, optionsSchema } from "./account.ts";
import { checkLens } from "./lens/index.ts";
import { Problem } from "./take/index.ts";

/** Options with their defaults. Throws a `Problem` that names the first option that is not as expected, or of a lens. */
export function checkOptions(options: AnalyseOptionsInput): AnalyseOptions {
  const result = optionsSchema.safeParse(options);
  if (result.success) {
    if (result.data.lens !== undefined) checkLens(result.data.lens);
    return result.data;
  }
  const issue = result.error.issues[0];
  throw new Problem(
    "bad-option",
    `An option is not as expected: ${issue?.message ?? "unknown"}`,
    `options.${issue?.path.map(String).join(".") ?? ""}`,
    "Correct it or leave it out.",
  );
}
