/** The recording itself, beside the notes that were heard in it, where it was kept. */

import type { TakeRow } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import { h } from "../shell/dom.ts";

/** Null for takes that were not heard in a recording. */
export function keptSound(take: TakeRow, analysis: Analysis): HTMLElement | null {
  if (analysis.source.format !== "sound") return null;
  if (!take.sound) return h("p", { class: "hint" }, "Heard in a recording, which was not kept.");
  const address = `/api/takes/${take.id}/sound`;
  const player = h("audio", { controls: true, preload: "none", src: address });
  const forget = h(
    "button",
    {
      type: "button",
      class: "quiet",
      onClick: () => {
        void fetch(address, { method: "DELETE" }).then((answer) => {
          if (answer.ok)
            element.replaceChildren(h("p", { class: "hint" }, "The recording is forgotten; its notes stay."));
        });
      },
    },
    "Forget the recording",
  );
  const element = h(
    "section",
    { class: "kept-sound no-print", "aria-label": "The recording" },
    h("p", { class: "hint" }, "The recording as it came:"),
    player,
    forget,
  );
  return element;
}
