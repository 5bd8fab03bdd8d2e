/** `npm run bench [NAME...]`: runs every benchmark beside this file, or those named, and prints their lines. */
import { readdirSync } from "node:fs";
import type { Bench } from "./types.ts";

const here = new URL(".", import.meta.url);
const wanted = process.argv.slice(2);

for (const file of readdirSync(here)
  .filter((name) => name.endsWith(".bench.ts"))
  .sort()) {
  const stem = file.slice(0, -".bench.ts".length);
  if (wanted.length > 0 && !wanted.includes(stem)) continue;
  const { bench } = (await import(new URL(file, here).href)) as { bench: Bench };
  console.log(`\n${bench.name}`);
  for (const line of await bench.run()) console.log(`  ${line}`);
}
