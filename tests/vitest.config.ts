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
const PAGES = ["tests/browser/**"];
/** The whole, built anew. */
const ALONE = ["tests/server/built.test.ts"];

/** Files at a time. */
const WORKERS = { quick: 2, slow: 3, pages: 3, alone: 1 } as const;

/**
 * What takes longest of its kind, in seconds on two quiet cores: begun first, so that no core waits for the other at
 * the end. Without this a first run goes by the size of the files.
 */
const SECONDS: Readonly<Record<string, number>> = {
  "tests/browser/access.test.ts": 95,
  "tests/browser/access-steps.test.ts": 90,
  "tests/server/on-postgres.test.ts": 91,
  "tests/findings/contradictions.test.ts": 53,
  "tests/browser/saving.test.ts": 47,
  "tests/browser/recording.test.ts": 47,
  "tests/browser/shell.test.ts": 45,
  "tests/server/starting.test.ts": 37,
  "tests/align/classes.test.ts": 34,
  "tests/browser/teachers-week.test.ts": 34,
  "tests/findings/steadiness.test.ts": 30,
  "tests/browser/playing.test.ts": 30,
  "tests/browser/engraving.test.ts": 30,
  "tests/server/listening.test.ts": 29,
  "tests/browser/listening.test.ts": 27,
  "tests/browser/sound.test.ts": 25,
  "tests/server/upgrading.test.ts": 24,
  "tests/server/killing.test.ts": 23,
  "tests/browser/lesson.test.ts": 21,
  "tests/align/given-charts.test.ts": 25,
  "tests/align/human.test.ts": 20,
  "tests/server/limits.test.ts": 19,
  "tests/server/examples-of-use.test.ts": 19,
  "tests/server/full-disk.test.ts": 18,
  "tests/server/slow-clients.test.ts": 18,
  "tests/browser/pictures.test.ts": 17,
  "tests/browser/corpus.test.ts": 16,
  "tests/server/jobs.test.ts": 15,
  "tests/server/examples.test.ts": 14,
  "tests/server/backup.test.ts": 14,
  "tests/browser/take-page.test.ts": 14,
  "tests/contract/every-call.test.ts": 13,
  "tests/browser/class-page.test.ts": 13,
  "tests/harmony/names-agree.test.ts": 12,
  "tests/server/operating.test.ts": 12,
  "tests/chart/propose-voicings.test.ts": 12,
  "tests/browser/tap-beat.test.ts": 12,
};

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const seconds = ({ moduleId }: TestSpecification) =>
      SECONDS[moduleId.slice(moduleId.lastIndexOf("/tests/") + 1)] ?? 0;
    return (await super.sort(files)).sort((a, b) => seconds(b) - seconds(a));
  }
}

const project = (
  name: keyof typeof WORKERS,
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
    // What starts servers and browsers waits for them a part of the time.
    maxWorkers: WORKERS[name],
    // Tests of pure code share what they import: reading it anew for each file took as long as half the tests.
    isolate: name === "alone",
    // What is warm alone is not worth optimising: V8 forgets and optimises it again with every take (DEVELOPERS.md).
    execArgv: ["--interrupt-budget=600000", "--max-semi-space-size=32"],
  },
});

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    globalSetup: ["tests/before-all.ts"],
    setupFiles: ["tests/properties.ts"],
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
