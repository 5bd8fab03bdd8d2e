/** `npm run check` holds the laws of the house; with `--mend`, what can be put right by itself is. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { guideBreaches, withTable } from "./guide.ts";
import { readLawData } from "./law-data.ts";
import { lawBreaches } from "./laws.ts";
import { readTree } from "./tree.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const GUIDE = join(ROOT, "DEVELOPERS.md");

const house = readLawData();
if (process.argv.includes("--mend")) {
  writeFileSync(GUIDE, withTable(readFileSync(GUIDE, "utf8"), house));
} else {
  const files = readTree(ROOT, ["src", "server", "client", "corpus", "tests"]);
  const breaches = [...lawBreaches(files, house), ...guideBreaches(readFileSync(GUIDE, "utf8"), house)];
  for (const { where, text } of breaches) console.error(`${where} ${text}`);
  if (breaches.length > 0) {
    console.error(`${breaches.length} breaches of the laws of the house (tests/house).`);
    process.exitCode = 1;
  }
}
