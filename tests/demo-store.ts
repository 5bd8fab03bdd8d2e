/** A store with the demo takes, for tests that change it or read all of it. */
import { cpSync, existsSync, mkdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { stateOf } from "../server/analysis/source-state.ts";
import { startServer } from "../server/start.ts";
import { alone, ROOT } from "./alone.ts";

/** The demo takes are analysed once for a state of the sources, not once for each test file. */
export async function copyDemoStore(folder: string): Promise<void> {
  const state = stateOf(["src", "server", "corpus"].map((room) => join(ROOT, room)));
  const stores = join(ROOT, "dist/.demo-stores");
  const store = join(stores, state);
  await alone("demo-store", async () => {
    if (!existsSync(store)) {
      rmSync(stores, { recursive: true, force: true });
      const growing = `${store}-growing`;
      mkdirSync(growing, { recursive: true });
      await (await startServer({ port: 0, dataDir: growing })).close();
      renameSync(growing, store);
    }
    // Nobody may clear the store away while it is copied.
    cpSync(store, folder, { recursive: true });
  });
}
