import { execFile } from "node:child_process";
import { mkdtemp, readFile, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { analysisSchema } from "../../src/account.ts";
import { ARPEGGIOS, FOUR_BARS, smallMidi } from "./harness.ts";

let folder: string;

function ledgerline(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  return new Promise((done) => {
    execFile(
      "node",
      ["server/run.js", "cli", ...args],
      { env: { ...process.env, INIT_CWD: process.cwd() }, maxBuffer: 1e8 },
      (error, out, err) => done({ code: typeof error?.code === "number" ? error.code : 0, out, err }),
    );
  });
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ledgerline-"));
  await writeFile(join(folder, "good.mid"), smallMidi(ARPEGGIOS));
  await writeFile(join(folder, "empty.mid"), "");
  await writeFile(join(folder, "chart.txt"), FOUR_BARS);
});

describe("ledgerline analyse", () => {
  it("prints an account that the schema accepts", async () => {
    const { code, out } = await ledgerline("analyse", join(folder, "good.mid"), "--chart", FOUR_BARS);
    expect(code).toBe(0);
    expect(analysisSchema.parse(JSON.parse(out)).source.name).toBe("good.mid");
  });

  it("writes a page that needs nothing but itself", async () => {
    const { code, out, err } = await ledgerline(
      ...["analyse", join(folder, "good.mid"), "--chart", FOUR_BARS, "--format", "html"],
    );
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatch(/^<!doctype html>/);
    expect(out).not.toMatch(/<(script|img|link)[^>]+(src|href)="(?!data:)/);
    expect(out).toContain("default-src 'none'");
  });

  it("puts notes right that a list names, in the call or in a file", async () => {
    const list = JSON.stringify([{ note: "t1/0/65", finger: 2 }]);
    await writeFile(join(folder, "list.json"), list);
    for (const given of [list, join(folder, "list.json")]) {
      const { out } = await ledgerline(
        ...["analyse", join(folder, "good.mid"), "--chart", FOUR_BARS, "--corrections", given],
      );
      expect(JSON.parse(out).notes[0]).toMatchObject({ finger: 2, fingerSource: "corrected" });
    }
    const { code, err } = await ledgerline(
      ...["analyse", join(folder, "good.mid"), "--chart", FOUR_BARS, "--corrections", "[{]"],
    );
    expect(code).toBe(1);
    expect(err).toContain("--corrections");
  });

  it("does the good files, names the bad one in a line and ends with 1", async () => {
    const out = join(folder, "out");
    const result = await ledgerline(
      ...["analyse", join(folder, "empty.mid"), join(folder, "good.mid"), join(folder, "absent.mid")],
      ...["--chart", join(folder, "chart.txt"), "--format", "csv", "--out", out],
    );
    expect(result.code).toBe(1);
    expect(result.err.trim().split("\n")).toHaveLength(2);
    expect(result.err).toContain("empty.mid: ");
    expect((await readFile(join(out, "good.csv"), "utf8")).split("\r\n")[0]).toContain("pitch");
  });

  it("writes every format", async () => {
    for (const format of ["ndjson", "text", "musicxml"]) {
      const { code, out } = await ledgerline(
        ...["analyse", join(folder, "good.mid"), "--form", "blues-basic", "--key", "F", "--format", format],
      );
      expect(code).toBe(0);
      expect(out.length).toBeGreaterThan(500);
    }
  });

  it("refuses a form without a key, an unknown form and an unknown format in one sentence", async () => {
    for (const args of [
      ["--form", "blues-basic"],
      ["--form", "no-form", "--key", "F"],
      ["--chart", FOUR_BARS, "--format", "doc"],
    ]) {
      const { code, err } = await ledgerline("analyse", join(folder, "good.mid"), ...args);
      expect(code).toBe(1);
      expect(err.trim().split("\n")).toHaveLength(1);
    }
  });
});
