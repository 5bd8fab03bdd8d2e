/** Writes the class's takes, their truth and the manifest beside this file: `npm run corpus`. Same code, same bytes. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { corpusFiles } from "./corpus-files.ts";

const here = fileURLToPath(new URL(".", import.meta.url));

mkdirSync(`${here}takes`, { recursive: true });
const files = corpusFiles((file) => readFileSync(`${here}${file}`, "utf8"));
for (const { path, bytes } of files) writeFileSync(`${here}${path}`, bytes);
console.log(`${files.length} files written to ${here}`);
