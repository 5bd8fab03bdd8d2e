/** A line on the first page when recordings wait in this browser. */
import { count } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import { byHand, keptRecordings } from "./kept-recordings.ts";

/** Empty until the store has answered, and where nothing waits. */
export function unsentNotice(): HTMLElement {
  const element = h("p", { class: "unsent-notice", role: "status", hidden: true });
  const look = async () => {
    const waiting = (await byHand(await keptRecordings().list())).free.length;
    if (waiting === 0) return;
    element.hidden = false;
    element.append(
      `Not sent yet: ${count(waiting, "recording")} in this browser. `,
      h("a", { href: "#/record" }, "Send or discard"),
    );
  };
  // A browser without a store keeps nothing, so nothing waits.
  look().catch(() => {});
  return element;
}
