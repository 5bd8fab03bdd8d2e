/** The tests that mutants are put to: those named in MUTANT_TESTS, so that each mutant takes a second or two. */
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: (process.env.MUTANT_TESTS ?? "tests/{chart,harmony}/*.test.ts").split(" "),
    testTimeout: 60_000,
    isolate: false,
    pool: "threads",
  },
});
