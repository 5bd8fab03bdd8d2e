/** Takes that are changed in numbers: which are chosen, what is done to each, and the way back. */
import type { TakeChange, TakeRow } from "../../server/contract/takes.ts";
import { capital, count } from "../../src/words/index.ts";
import { type TakeListState, takeName } from "./take-list-model.ts";

/** What is done to every chosen take. */
export type TakeAct =
  /** `player` is a name; "" for nobody. */
  | { readonly kind: "move"; readonly player: string }
  | { readonly kind: "rename"; readonly title: string }
  | { readonly kind: "tag" | "untag"; readonly tag: string }
  | { readonly kind: "delete" };

/** What is asked of the server for one take. */
export interface TakeStep {
  readonly id: string;
  readonly step: "delete" | "restore" | TakeChange;
}

export function choose(state: TakeListState, row: TakeRow, on: boolean): TakeListState {
  const chosen = new Map(state.chosen);
  if (on) chosen.set(row.id, row);
  else chosen.delete(row.id);
  return { ...state, chosen };
}

/** All that are shown, or none at all. */
export function chooseShown(state: TakeListState, on: boolean): TakeListState {
  if (!on) return { ...state, chosen: new Map() };
  return state.rows.reduce((now, row) => choose(now, row, true), state);
}

export const allShownChosen = ({ rows, chosen }: TakeListState): boolean =>
  rows.length > 0 && rows.every(({ id }) => chosen.has(id));

export const begun = (state: TakeListState, of: number): TakeListState => ({
  ...state,
  ...{ under: { done: 0, of }, refused: null },
});

/** What is done is no longer chosen: where a later one is refused, the rest can be sent again. */
export const oneDone = (state: TakeListState, row: TakeRow): TakeListState => ({
  ...choose(state, row, false),
  under: state.under && { ...state.under, done: state.under.done + 1 },
});

export const ended = (state: TakeListState): TakeListState => ({ ...state, under: null });

/** @param place of the take among those that are changed, from 0; @param of how many they are */
export function stepOf({ id, tags }: TakeRow, act: TakeAct, place = 0, of = 1): TakeStep {
  switch (act.kind) {
    case "rename":
      return { id, step: { title: titleAt(act.title, place, of) } };
    case "move":
      return { id, step: { player: act.player === "" ? null : act.player } };
    case "tag":
      return { id, step: { tags: tags.includes(act.tag) ? [...tags] : [...tags, act.tag] } };
    case "untag":
      return { id, step: { tags: tags.filter((tag) => tag !== act.tag) } };
    case "delete":
      return { id, step: "delete" };
  }
}

/** Several takes under one name are told apart by their number: "March 1", "March 2". */
const titleAt = (title: string, place: number, of: number): string =>
  of === 1 ? title : `${title} ${place + 1}`;

/** @param row as it was before */
export function wayBack({ id, tags, player, title }: TakeRow, act: TakeAct): TakeStep {
  switch (act.kind) {
    case "rename":
      return { id, step: { title } };
    case "move":
      return { id, step: { player } };
    case "tag":
    case "untag":
      return { id, step: { tags: [...tags] } };
    case "delete":
      return { id, step: "restore" };
  }
}

/** "three takes are moved to Ada."; one take is called by its name. */
export function doneWords(rows: readonly TakeRow[], act: TakeAct): string {
  const [first] = rows;
  const who = rows.length === 1 && first ? `“${takeName(first)}”` : capital(count(rows.length, "take"));
  const are = rows.length === 1 ? "is" : "are";
  switch (act.kind) {
    case "rename":
      return rows.length === 1
        ? `${who} is called “${act.title}” now.`
        : `${who} are called “${titleAt(act.title, 0, rows.length)}” and on now.`;
    case "move":
      return `${who} ${are} moved to ${act.player || "no player"}.`;
    case "tag":
      return `${who} ${are} tagged “${act.tag}”.`;
    case "untag":
      return `${who} ${rows.length === 1 ? "has" : "have"} the tag “${act.tag}” no longer.`;
    case "delete":
      return `${who} ${are} deleted.`;
  }
}

export function chosenWords({ chosen, under }: TakeListState): string {
  if (under !== null) return under.of > 1 ? `${under.done} of ${under.of} done …` : "";
  return chosen.size === 0 ? "" : `${count(chosen.size, "take")} chosen`;
}

/** Tags of the chosen takes, each once. */
export const chosenTags = ({ chosen }: TakeListState): string[] =>
  [...new Set([...chosen.values()].flatMap(({ tags }) => tags))].sort();
