/** `npm run reference`: reads the sources and writes the pages of the reference that stand in this folder. */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { routes } from "../routes/index.ts";
import { bundledPackages } from "./bundled.ts";
import { markdownOf } from "./page.ts";
import { scanSources } from "./scan.ts";

const here = (name: string) => new URL(name, import.meta.url);

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const keep = (name: string, value: unknown) =>
  writeFileSync(here(name), `${JSON.stringify(value, null, 2)}\n`);

keep("scanned.json", scanSources(ROOT));
keep("bundled.json", await bundledPackages(ROOT));
// After that, since the pages are made of it.
const { referencePages } = await import("./pages.ts");
for (const page of referencePages(routes)) writeFileSync(here(`${page.id}.md`), markdownOf(page));
