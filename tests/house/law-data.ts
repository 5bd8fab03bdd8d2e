/** The data that the laws go by. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { House } from "./imports.ts";
import type { Allowances } from "./lengths.ts";

export interface LawData {
  readonly house: House & { readonly packages: readonly string[] };
  readonly allowances: Allowances;
}

export const ALLOWANCES_FILE = fileURLToPath(new URL("./too-long.json", import.meta.url));

export function readLawData(): LawData {
  const house = JSON.parse(readFileSync(new URL("./rooms.json", import.meta.url), "utf8"));
  return { house, allowances: JSON.parse(readFileSync(ALLOWANCES_FILE, "utf8")) };
}
