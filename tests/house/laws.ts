/** All laws that are held by reading the source. */
import type { Breach } from "./breach.ts";
import { forbiddenImports, foreignPackages, importCycles } from "./imports.ts";
import type { LawData } from "./law-data.ts";
import { lengthBreaches } from "./lengths.ts";
import { unlisted } from "./listed.ts";
import type { SourceFile } from "./tree.ts";

export function lawBreaches(files: readonly SourceFile[], house: LawData): Breach[] {
  return [
    ...forbiddenImports(files, house),
    ...importCycles(files),
    ...foreignPackages(files, "src", house.packages),
    ...unlisted(files),
    ...lengthBreaches(files),
  ];
}
