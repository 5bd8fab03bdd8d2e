/** `npm run report -- labels`: how many notes of the demo takes and of all package files have all of their labels. */
import { readdirSync } from "node:fs";
import { taken, unlabelled } from "../outside/every-note.ts";
import { FOREIGN_FILES, type ForeignFile } from "../outside/foreign-files.ts";

const DEMO: readonly ForeignFile[] = readdirSync("corpus/takes")
  .filter((name) => /\.(mid|musicxml)$/.test(name))
  .map((name) => ({ package: "demo takes", name, path: `corpus/takes/${name}` }));

export function report(): void {
  const files = [...DEMO, ...FOREIGN_FILES];
  for (const name of [...new Set(files.map((file) => file.package))]) {
    let [read, notes, without] = [0, 0, 0];
    for (const file of files.filter((one) => one.package === name)) {
      const take = taken(file);
      if (take === null) continue;
      read += 1;
      notes += take.notes.length;
      without += unlabelled(take).length;
    }
    console.log(`${name.padEnd(24)} ${read} files, ${notes} notes, ${without} without a label`);
  }
}
