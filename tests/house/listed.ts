/** What does nothing unless a list names it: each must be named, or it would be left out in silence. */
import type { Breach } from "./breach.ts";
import type { SourceFile } from "./tree.ts";

export interface Listing {
  /** Whatever is exported below this folder ... */
  readonly folder: string;
  /** ... with this type, as written ... */
  readonly type: string;
  /** ... must be named by this file; null: by the `index.ts` of its own folder. */
  readonly list: string | null;
}

const LISTINGS: readonly Listing[] = [
  { folder: "src/findings/rules", type: "Rule", list: null },
  { folder: "src/findings/rules", type: "readonly Rule[]", list: "src/findings/rules/index.ts" },
  { folder: "src/practice", type: "(PracticeContext) => ExerciseBar[]", list: "src/practice/makers.ts" },
  { folder: "src/harmony", type: "(JoinedLine, number) => Found | null", list: "src/harmony/line-role.ts" },
  { folder: "server/routes", type: "readonly Route[]", list: "server/routes/index.ts" },
];

/** Exports of a listing that its list does not name: they would never run. */
export function unlisted(files: readonly SourceFile[], listings: readonly Listing[] = LISTINGS): Breach[] {
  const byPath = new Map(files.map((file) => [file.path, file]));
  return listings.flatMap(({ folder, type, list }) =>
    files
      .filter(({ path }) => path.startsWith(`${folder}/`))
      .flatMap((file) => {
        const index = list ?? `${file.path.slice(0, file.path.lastIndexOf("/"))}/index.ts`;
        if (file.path === index) return [];
        const listing = byPath.get(index);
        // A copy of a rule under the same name is another file, and is no more listed for it.
        const isTaken = listing?.imports.some(({ target }) => target === file.path) ?? false;
        return file.exports
          .filter((found) => found.type === type && !(isTaken && listing?.names.has(found.name)))
          .map(({ name }) => ({
            where: file.path,
            text: `${name} is not in ${index}, so it never runs: list it there`,
          }));
      }),
  );
}
