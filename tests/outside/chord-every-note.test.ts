import { describe, expect, it } from "vitest";
import { taken, unlabelled } from "./every-note.ts";
import { FOREIGN_FILES } from "./foreign-files.ts";

/** A sample of each file, from its start; `npm run report -- labels` goes through all of them to the end. */
const MOST_NOTES = 300;

describe("no note of a package's file is without spelling, degree, role and line role", () => {
  for (const name of [...new Set(FOREIGN_FILES.map((file) => file.package))]) {
    it(`in ${name}`, { timeout: 180_000 }, () => {
      for (const file of FOREIGN_FILES.filter((one) => one.package === name)) {
        const take = taken(file);
        if (take === null) continue;
        const start = { ...take, notes: take.notes.slice(0, MOST_NOTES) };
        expect(unlabelled(start), file.name).toEqual([]);
      }
    });
  }

  it("over files that hold music", () => {
    const read = FOREIGN_FILES.filter((file) => taken(file) !== null);
    expect(read.length).toBeGreaterThan(FOREIGN_FILES.length * 0.9);
  });
});
