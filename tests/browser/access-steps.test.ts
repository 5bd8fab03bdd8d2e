import { describe, test } from "vitest";
import { FOR_EVERYONE, forEveryone } from "./for-everyone.ts";
import { PAGES_TO_SEE } from "./pages-to-see.ts";
import { hasChromium } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("every page after a user's first steps, for everyone", () => {
  const isForEveryone = forEveryone(staged());

  for (const view of PAGES_TO_SEE.filter(({ act }) => act !== undefined)) {
    test(`${view.name}: ${FOR_EVERYONE}`, () => isForEveryone(view));
  }
});
