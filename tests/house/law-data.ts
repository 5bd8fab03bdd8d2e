/** The data that the laws go by. */
import { readFileSync } from "node:fs";
import type { House } from "./imports.ts";

export type LawData = House & { readonly packages: readonly string[] };

export function readLawData(): LawData {
  return JSON.parse(readFileSync(new URL("./rooms.json", import.meta.url), "utf8"));
}
