/** The reference holds what the program holds: each list to the code, each page as it is made. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import bundled from "../../server/reference/bundled.json" with { type: "json" };
import { bundledPackages } from "../../server/reference/bundled.ts";
import { markdownOf, type Section } from "../../server/reference/page.ts";
import { referencePages } from "../../server/reference/pages.ts";
import { scanSources } from "../../server/reference/scan.ts";
import scanned from "../../server/reference/scanned.json" with { type: "json" };
import { FLAGS, NOT_SETTINGS, SCRIPTS, SETTINGS } from "../../server/reference/settings.ts";
import { routes } from "../../server/routes/index.ts";
import type { RunningServer } from "../../server/start.ts";
import { accountJsonSchema } from "../../src/export/index.ts";
import { fieldsOf } from "../contract/published.ts";
import { demoAccount, demoClass } from "../demo-class.ts";
import { serve } from "./harness.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const read = (path: string) => readFileSync(join(ROOT, path), "utf8");
const pages = referencePages(routes);
const sections = (page: string): readonly Section[] => pages.find(({ id }) => id === page)!.sections;
const firsts = (page: string, title: string) =>
  sections(page)
    .find((one) => one.title === title)!
    .rows.map((row) => row[0]!);

describe("the pages in server/reference", () => {
  it.each(pages.map((page) => [page.id, page] as const))(
    "%s.md is as it would be made now: npm run reference",
    (id, page) => {
      expect(read(`server/reference/${id}.md`)).toBe(markdownOf(page));
    },
  );

  it("hold the codes and definitions that stand in the sources: npm run reference", () => {
    expect(scanned).toEqual(scanSources(ROOT));
  });

  it("name every package that our own files carry along: npm run reference", async () => {
    expect(bundled).toEqual(await bundledPackages(ROOT));
  });

  it("leave no cell of a table empty", () => {
    const blank = pages.flatMap((page) =>
      page.sections.flatMap(({ title, rows }) =>
        rows
          .filter((row) => row.some((cell) => cell.trim() === ""))
          .map((row) => `${page.id}, ${title}: ${row[0]}`),
      ),
    );
    expect(blank).toEqual([]);
  });

  it("hold every field of the account", () => {
    const told = sections("account").flatMap(({ rows }) =>
      rows.map((row) => row[0]!.split(/[.[\]]+/).at(-1)!),
    );
    const names = fieldsOf(accountJsonSchema()).map(({ path }) => path.split(".").at(-1)!);
    expect([...new Set(names)].filter((name) => !told.includes(name))).toEqual([]);
  });

  it("hold every warning that the demo class is given", () => {
    const codes = demoClass.takes.flatMap((take) => demoAccount(take).warnings.map(({ code }) => code));
    expect(codes.length).toBeGreaterThan(0);
    expect(codes.filter((code) => !firsts("codes", "Warnings").includes(code))).toEqual([]);
  });

  it("hold every code that a test expects", () => {
    const expected = new Set<string>();
    for (const file of readdirSync(join(ROOT, "tests"), { recursive: true, encoding: "utf8" })) {
      if (!file.endsWith(".test.ts")) continue;
      for (const [, code] of read(`tests/${file}`).matchAll(/\bcode: "([a-z]+(?:-[a-z0-9]+)+)"/g))
        expected.add(code!);
    }
    const known = [...firsts("codes", "Problems"), ...firsts("codes", "Warnings")];
    expect(expected.size).toBeGreaterThan(20);
    expect([...expected].filter((code) => !known.includes(code))).toEqual([]);
  });

  it("hold every setting, script and flag", () => {
    const set = readdirSync(join(ROOT, "server"), { recursive: true, encoding: "utf8" })
      .filter((file) => file.endsWith(".ts") && !file.startsWith("reference"))
      .flatMap((file) =>
        [...read(`server/${file}`).matchAll(/process\.env\.([A-Z_]+)/g)].map(([, name]) => name!),
      );
    expect([...new Set(set)].sort()).toEqual([...SETTINGS.map(([name]) => name), ...NOT_SETTINGS].sort());
    const { scripts } = JSON.parse(read("package.json")) as { scripts: Record<string, string> };
    const parts = /^(check:|prepack)/;
    for (const name of Object.keys(scripts).filter((one) => !parts.test(one)))
      expect(
        SCRIPTS.some(([command]) =>
          command
            .split(/ -- | (?=-s )/)
            .join(" ")
            .split(" ")
            .includes(name),
        ),
        name,
      ).toBe(true);
    const flags = [
      ...read("server/cli.ts").matchAll(/^\s+"?([a-z-]+)"?: \{ type: "(?:string|boolean)"/gm),
    ].map(([, name]) => `--${name}`);
    expect(flags.sort()).toEqual(FLAGS.map(([flag]) => flag.split(" ")[0]!).sort());
  });
});

describe("the program", () => {
  let server: RunningServer;
  beforeAll(async () => {
    server = await serve();
  });
  afterAll(() => server.close());

  it("serves every page, each with ways to the others, under its own policy", async () => {
    for (const { id, title } of pages) {
      const answer = await fetch(`${server.url}/reference/${id}`);
      expect([id, answer.status, answer.headers.get("content-type")]).toEqual([
        id,
        200,
        "text/html; charset=utf-8",
      ]);
      const text = await answer.text();
      expect(text).toContain(`<h1>${title}</h1>`);
      expect(text.match(/href="\/reference\//g)!.length).toBeGreaterThanOrEqual(pages.length - 1);
      expect(text).not.toMatch(/style="|<script/);
    }
    expect((await fetch(`${server.url}/reference`)).status).toBe(200);
    expect((await fetch(`${server.url}/reference/reference.css`)).status).toBe(200);
    expect((await fetch(`${server.url}/reference/nothing`)).status).toBe(404);
  });
});
