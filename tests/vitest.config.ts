import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

/** Files that take longest: servers, threads and whole classes of takes. They come after all that answers at once. */
const SLOW = [
  "tests/server/**",
  "tests/corpus/**",
  "tests/outside/foreign-*.test.ts",
  "tests/chart/propose-*.test.ts",
  "tests/compare/**",
  "tests/contract/**",
  "tests/ingest/choosing.test.ts",
  "tests/export/round-trip-account.test.ts",
  "tests/house/**",
];
/** Alone, one after the other: each has a browser or a machine that fails, and measures time. */
const ALONE = ["tests/browser/**", "tests/server/killing.test.ts", "tests/server/built.test.ts"];

const project = (
  name: string,
  groupOrder: number,
  include: readonly string[],
  exclude: readonly string[],
) => ({
  extends: true as const,
  test: {
    name,
    include: include.map((path) => (path.endsWith(".test.ts") ? path : `${path}/*.test.ts`)),
    exclude: exclude.map((path) => (path.endsWith(".test.ts") ? path : `${path}/*.test.ts`)),
    sequence: { groupOrder },
    maxWorkers: name === "alone" ? 1 : 2,
  },
});

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    globalSetup: ["tests/before-all.ts"],
    reporters: ["default", "tests/reporter.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // A page on a busy machine needs longer than the usual second.
    expect: { poll: { timeout: 10_000 } },
    projects: [
      project("quick", 0, ["tests/**"], [...SLOW, ...ALONE]),
      project("slow", 1, SLOW, ALONE),
      project("alone", 2, ALONE, []),
    ],
    coverage: {
      provider: "v8",
      include: ["src/**/*.ts", "server/**/*.ts", "client/**/*.ts"],
      exclude: ["**/*.d.ts"],
      reporter: ["json-summary"],
      reportsDirectory: "coverage",
    },
  },
});
