/** A take: what to say of it, its picture, its words, all linked by one selection. */

import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import { nameTake, openKeeper } from "../findings/keeper.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { READINGS } from "../shell/selection.ts";
import { followAddress, storeOfAddress } from "../shell/store-of-address.ts";
import { type Change, takeView, type Unfolded } from "./take-view.ts";
import { afterChange, afterUndo, NO_STEPS, type VisitSteps } from "./visit-steps.ts";

export const takePage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [take, analysis, keeper] = await Promise.all([takes.get(id), takes.analysis(id), openKeeper(id)]);
  nameTake(id, take.title);
  const store = storeOfAddress(query, shell);
  const host = h("div", { class: "take" });
  const undo = h("button", { type: "button", class: "undo-step no-print", hidden: true });
  let steps: VisitSteps = NO_STEPS;

  const send = async (wanted: TakeChange, words: string, next: VisitSteps, hearFrom?: number) => {
    host.setAttribute("aria-busy", "true");
    shell.notify("Analysing again …");
    try {
      const answer = await takes.change(id, wanted);
      const place = window.scrollY;
      steps = next;
      rendered.end();
      rendered = view(answer.take, answer.analysis, rendered.unfolded());
      // Drawn at once, so that the page is as long as it was and nothing moves under the reader.
      rendered.draw();
      showUndo();
      window.scrollTo(0, place);
      if (hearFrom !== undefined) rendered.hear(hearFrom);
      const last = steps.at(-1);
      shell.notify(words, last && { label: "Undo", run: back });
    } catch (error) {
      shell.notify("Nothing was changed.");
      rendered.trouble.replaceChildren(refusalNote(error));
      rendered.trouble.scrollIntoView({ block: "center" });
    } finally {
      host.removeAttribute("aria-busy");
    }
  };
  const change: Change = (wanted, words, way, hearFrom) =>
    send(wanted, words, afterChange(steps, words, way), hearFrom);
  const back = () => {
    const last = steps.at(-1);
    if (last) void send(last.way, "It is as it was before.", afterUndo(steps));
  };
  const showUndo = () => {
    const last = steps.at(-1);
    undo.hidden = last === undefined;
    undo.textContent = `Undo: ${last?.words ?? ""}`;
    host.querySelector(".take-more")?.append(undo);
  };
  undo.addEventListener("click", back);
  const view = (row: TakeRow, account: Analysis, unfolded: Unfolded) =>
    takeView(host, row, account, { keeper, ...unfolded }, store, shell, change);
  let rendered = view(take, analysis, { open: new Set(), listed: false });
  showUndo();

  return {
    title: take.title ?? "Take",
    element: host,
    query: (next) => followAddress(store, next),
    key(event) {
      const reading = READINGS[Number(event.key) - 1];
      if (event.key === "t" && !event.repeat && rendered.tap(event)) return;
      if (event.key === " ") rendered.play();
      else if (event.key === "Escape") store.select({ kind: "none" });
      else if (reading !== undefined) {
        store.read(reading);
        rendered.focus();
      }
    },
    end: () => rendered.end(),
  };
};
