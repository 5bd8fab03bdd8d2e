import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    maxWorkers: 2,
    // A page on a busy machine needs longer than the usual second.
    expect: { poll: { timeout: 10_000 } },
  },
});
