/** `npm run reference`: reads the sources and writes the pages of the reference that stand in this folder. */
import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { routes } from "../routes/index.ts";
import { markdownOf } from "./page.ts";
import { scanSources } from "./scan.ts";

const here = (name: string) => new URL(name, import.meta.url);

writeFileSync(
  here("scanned.json"),
  `${JSON.stringify(scanSources(fileURLToPath(new URL("../..", import.meta.url))), null, 2)}\n`,
);
// After that, since the pages are made of it.
const { referencePages } = await import("./pages.ts");
for (const page of referencePages(routes)) writeFileSync(here(`${page.id}.md`), markdownOf(page));
