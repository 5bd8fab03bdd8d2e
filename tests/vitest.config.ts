import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Files that take longest: servers, threads and whole classes of takes. They come after all that answers at once. */
const SLOW = [
  "tests/server/**",
  "tests/corpus/**",
  "tests/outside/foreign-*.test.ts",
  "tests/chart/propose-*.test.ts",
  "tests/compare/**",
  "tests/contract/**",
  "tests/findings/contradictions.test.ts",
  "tests/findings/steadiness.test.ts",
  "tests/ingest/choosing.test.ts",
  "tests/export/round-trip-account.test.ts",
  "tests/house/**",
];
/** Each with a server and a browser of its own: two at a time, since each waits for the other half the time. */
const PAGES = ["tests/browser/**"];
/** One after the other: a machine that fails, or the whole built. */
const ALONE = ["tests/server/killing.test.ts", "tests/server/built.test.ts"];

/**
 * What takes longest of its kind, in seconds on two quiet cores: begun first, so that no core waits for the other at
 * the end. Without this a first run goes by the size of the files.
 */
const SECONDS: Readonly<Record<string, number>> = {
  "tests/browser/access.test.ts": 300,
  "tests/browser/shell.test.ts": 64,
  "tests/browser/saving.test.ts": 62,
  "tests/browser/recording.test.ts": 60,
  "tests/browser/playing.test.ts": 53,
  "tests/browser/teachers-week.test.ts": 49,
  "tests/browser/engraving.test.ts": 48,
  "tests/browser/pictures.test.ts": 44,
  "tests/browser/sound.test.ts": 40,
  "tests/browser/listening.test.ts": 38,
  "tests/browser/lesson.test.ts": 38,
  "tests/server/on-postgres.test.ts": 94,
  "tests/server/starting.test.ts": 61,
  "tests/findings/contradictions.test.ts": 57,
  "tests/align/classes.test.ts": 30,
  "tests/harmony/names-agree.test.ts": 19,
  "tests/outside/chord-every-note.test.ts": 18,
  "tests/server/examples.test.ts": 17,
  "tests/server/cli.test.ts": 16,
  "tests/server/limits.test.ts": 16,
  "tests/server/jobs.test.ts": 15,
  "tests/hands/demo-takes.test.ts": 15,
  "tests/chart/chart-text.test.ts": 14,
  "tests/align/human.test.ts": 14,
  "tests/harmony/package-takes.test.ts": 12,
  "tests/practice/practice-sheet.test.ts": 11,
  "tests/outside/spelling-unseen.test.ts": 9,
};

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const seconds = ({ moduleId }: TestSpecification) =>
      SECONDS[moduleId.slice(moduleId.lastIndexOf("/tests/") + 1)] ?? 0;
    return (await super.sort(files)).sort((a, b) => seconds(b) - seconds(a));
  }
}

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
    // Tests of pure code share what they import: reading it anew for each file took as long as half the tests.
    isolate: name === "alone",
  },
});

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    globalSetup: ["tests/before-all.ts"],
    sequence: { sequencer: LongestFirst },
    maxConcurrency: 2,
    reporters: ["default", "tests/reporter.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // Each project would read all sources anew, and each run too: what was read once is kept by its content.
    experimental: { fsModuleCache: true },
    // A page on a busy machine needs longer than the usual second.
    expect: { poll: { timeout: 10_000 } },
    projects: [
      project("quick", 0, ["tests/**"], [...SLOW, ...PAGES, ...ALONE]),
      project("slow", 1, SLOW, ALONE),
      project("pages", 2, PAGES, []),
      project("alone", 3, ALONE, []),
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
