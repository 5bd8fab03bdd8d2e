/** What was made of sources is made anew when one of them changes, comes or goes (POSIX stat: size and st_mtime). */
import { mkdirSync, mkdtempSync, renameSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { stateOf } from "../../server/analysis/source-state.ts";

const place = mkdtempSync(join(tmpdir(), "ledgerline-state-"));
const at = (name: string) => join(place, name);
afterAll(() => rmSync(place, { recursive: true, force: true }));

it("is another state after every change, and the same after none", () => {
  const before = new Date(1_000_000_000_000);
  mkdirSync(at("room/inner"), { recursive: true });
  for (const name of ["room/a.ts", "room/inner/b.ts", "list.json"]) {
    writeFileSync(at(name), "one");
    utimesSync(at(name), before, before);
  }
  const look = () => stateOf([at("room"), at("list.json"), at("none.json")]);
  const seen = [look()];
  const isAnother = () => {
    expect(seen).not.toContain(look());
    seen.push(look());
  };
  expect(look()).toBe(seen[0]);

  // Of another size at the same time, and of the same size at another time.
  writeFileSync(at("room/inner/b.ts"), "three");
  utimesSync(at("room/inner/b.ts"), before, before);
  isAnother();
  utimesSync(at("list.json"), before, new Date(1_000_000_000_500));
  isAnother();
  writeFileSync(at("room/inner/c.ts"), "");
  isAnother();
  renameSync(at("room/a.ts"), at("room/z.ts"));
  isAnother();
  rmSync(at("room/z.ts"));
  isAnother();
  writeFileSync(at("none.json"), "");
  isAnother();
});
