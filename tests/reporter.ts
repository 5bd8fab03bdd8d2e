/** Ends the output with what is missing on this machine and one line of counts. */
import type { Reporter, TestModule } from "vitest/node";
import { missing } from "./programs.ts";

export default class Ending implements Reporter {
  #started = Date.now();

  onTestRunStart(): void {
    this.#started = Date.now();
  }

  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    let broken = errors.length;
    for (const module of modules) {
      if (module.errors().length > 0) broken++;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state !== "pending") counts[state]++;
      }
    }
    const seconds = Math.round((Date.now() - this.#started) / 1000);
    const time = seconds < 90 ? `${seconds} s` : `${Math.floor(seconds / 60)} min ${seconds % 60} s`;
    const trouble = broken > 0 ? `, ${broken} files or steps broken` : "";
    // After the summary that is printed by the reporter before this one.
    process.once("exit", () => {
      for (const line of missing()) console.log(line);
      console.log(
        `${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped${trouble}, in ${modules.length} files, ${time}`,
      );
    });
  }
}
