/** The promise of a version: the same input and version give the same account, byte for byte. */
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ANALYSIS_VERSION } from "../src/analyse.ts";
import { demoAccount, demoClass } from "./demo-class.ts";

const FILE = new URL("account-version.json", import.meta.url);

interface Kept {
  readonly version: string;
  readonly accounts: Readonly<Record<string, string>>;
}

it("the demo accounts are those of the stated version of the analysis", () => {
  const accounts = Object.fromEntries(
    demoClass.takes.map((take) => [
      take.id,
      createHash("sha256")
        .update(JSON.stringify(demoAccount(take)))
        .digest("hex")
        .slice(0, 16),
    ]),
  );
  const kept = JSON.parse(readFileSync(FILE, "utf8")) as Kept;
  if (process.env.APPROVE === "1" && kept.version !== ANALYSIS_VERSION) {
    writeFileSync(FILE, `${JSON.stringify({ version: ANALYSIS_VERSION, accounts }, null, 2)}\n`);
    return;
  }
  expect(
    kept.version,
    "the analysis has a new version: keep its accounts with APPROVE=1, and say in CHANGELOG.md what changed",
  ).toBe(ANALYSIS_VERSION);
  expect(
    accounts,
    "accounts changed under one version: raise ANALYSIS_VERSION in src/analyse.ts, then keep them with APPROVE=1",
  ).toEqual(kept.accounts);
});
