/** A player's page: what is held, what is being written, what is being sent. No page is needed for it. */

import type { LensRow } from "../../server/contract/library.ts";
import type { PlayerPage } from "../../server/contract/player-page.ts";
import type { LensState } from "../../src/account.ts";
import type { Progress } from "../../src/compare/progress-schema.ts";
import { LENSES } from "../../src/lens/built-in.ts";
import { capital, count } from "../../src/words/index.ts";
import type { HandSize, PlayerCall } from "./player-api.ts";

/** What can be written on the page and is not sent yet. */
export interface PlayerDraft {
  readonly name: string;
  /** Id of a lens; "" for none. */
  readonly lens: string;
  /** ISO date. */
  readonly since: string;
  /** "" where it is not known. */
  readonly handSize: HandSize | "";
  readonly shapes: readonly string[];
  readonly chart: string;
  readonly consentDate: string;
  readonly consentBy: string;
  readonly noteDate: string;
  readonly note: string;
  /** Id of the player who stays when the two are made one; "" for nobody. */
  readonly into: string;
}

/** Fields that are sent together. */
export const FIELDS = {
  usual: ["handSize", "shapes", "chart"],
  note: ["note", "noteDate"],
  consent: ["consentBy", "consentDate"],
  names: ["name", "into"],
} as const satisfies Readonly<Record<string, readonly (keyof PlayerDraft)[]>>;

export interface PlayerState {
  readonly page: PlayerPage;
  readonly takes: Progress["takes"];
  readonly lens: Progress["lens"];
  readonly others: readonly { readonly id: string; readonly name: string }[];
  readonly own: readonly LensRow[];
  readonly shapeNames: readonly string[];
  /** ISO date. */
  readonly today: string;
  readonly draft: PlayerDraft;
  /** What is on its way, in words; null while nothing is. */
  readonly sending: string | null;
  readonly refused: unknown;
  /** What is asked before it is done. */
  readonly asks: "merge" | "delete" | null;
  /** Fields that came back from before the page was left: where they stand is open. */
  readonly back: readonly (keyof PlayerDraft)[];
}

export type Opened = Omit<PlayerState, "draft" | "sending" | "refused" | "asks" | "back">;

/** @param left what was written before the page was left, and not sent */
export function opened(start: Opened, left: Partial<PlayerDraft> | null = null): PlayerState {
  const draft = { ...draftOf(start.page, start.today), ...left };
  const state: PlayerState = { ...start, draft, sending: null, refused: null, asks: null, back: [] };
  return { ...state, back: unsentFields(state) };
}

/** Fields that hold something else than the server has. */
export function unsentFields({ page, today, draft }: PlayerState): readonly (keyof PlayerDraft)[] {
  const fresh = draftOf(page, today);
  return (Object.keys(fresh) as (keyof PlayerDraft)[]).filter(
    (field) => JSON.stringify(fresh[field]) !== JSON.stringify(draft[field]),
  );
}

/** What is to outlive the page; null where nothing would be lost with it. */
export function unsent(state: PlayerState): Partial<PlayerDraft> | null {
  const fields = unsentFields(state);
  return fields.length === 0 ? null : Object.fromEntries(fields.map((field) => [field, state.draft[field]]));
}

function draftOf({ name, usual, consent, lenses }: PlayerPage, today: string): PlayerDraft {
  return {
    name,
    lens: lenses.at(-1)?.lens?.id ?? "",
    since: today,
    handSize: usual.handSize ?? "",
    shapes: usual.shapes ?? [],
    chart: usual.chart ?? "",
    consentDate: consent?.date ?? today,
    consentBy: consent?.by ?? "",
    noteDate: today,
    note: "",
    into: "",
  };
}

export function written(state: PlayerState, part: Partial<PlayerDraft>): PlayerState {
  return { ...state, draft: { ...state.draft, ...part } };
}

export function shapeTaken(state: PlayerState, name: string, taken: boolean): PlayerState {
  const others = state.draft.shapes.filter((one) => one !== name);
  return written(state, { shapes: taken ? [...others, name] : others });
}

export function asked(state: PlayerState, asks: PlayerState["asks"]): PlayerState {
  return { ...state, asks };
}

export function sending(state: PlayerState, words: string): PlayerState {
  return { ...state, sending: words, refused: null };
}

/** What was written is kept, to be mended and sent again. */
export function refused(state: PlayerState, error: unknown): PlayerState {
  return { ...state, sending: null, refused: error };
}

/** The page as the server has it; only what was sent by the call leaves the draft. */
export function kept(
  state: PlayerState,
  page: PlayerPage,
  sent: readonly (keyof PlayerDraft)[],
): PlayerState {
  const fresh = draftOf(page, state.today);
  const cleared = Object.fromEntries(sent.map((field) => [field, fresh[field]]));
  return { ...state, page, draft: { ...state.draft, ...cleared }, sending: null, asks: null };
}

/** A change that a button of the page stands for; null while what it needs is missing. */
export interface PlayerAction extends PlayerCall {
  /** While it is on its way. */
  readonly words: string;
  /** When it is done. */
  readonly done: string;
  /** Fields of the draft that it sends. */
  readonly sent: readonly (keyof PlayerDraft)[];
}

export function renaming({ draft, page }: PlayerState): PlayerAction | null {
  const name = draft.name.trim();
  if (name === "" || name === page.name) return null;
  const words = `Renaming to ${name} …`;
  return {
    method: "PATCH",
    path: "",
    body: { name },
    words,
    done: `The player is called ${name} now.`,
    sent: ["name"],
  };
}

export function settingLens({ draft }: PlayerState): PlayerAction | null {
  if (draft.since === "") return null;
  return {
    method: "PUT",
    path: "/lens",
    body: { lens: draft.lens === "" ? null : draft.lens, since: draft.since },
    words: "Looking at the takes through it …",
    done: "The lens is set, and the takes of its time are looked at through it.",
    sent: ["lens", "since"],
  };
}

export function keepingUsual({ draft }: PlayerState): PlayerAction {
  const usual = {
    ...(draft.handSize === "" ? {} : { handSize: draft.handSize }),
    ...(draft.chart.trim() === "" ? {} : { chart: draft.chart }),
    ...(draft.shapes.length === 0 ? {} : { shapes: draft.shapes }),
  };
  return {
    method: "PATCH",
    path: "/page",
    body: { usual },
    words: "Keeping what is usual …",
    done: "Kept: the next take begins with it.",
    sent: ["handSize", "chart", "shapes"],
  };
}

export function notingConsent({ draft }: PlayerState): PlayerAction | null {
  const by = draft.consentBy.trim();
  if (by === "" || draft.consentDate === "") return null;
  return {
    method: "PATCH",
    path: "/page",
    body: { consent: { date: draft.consentDate, by } },
    words: "Noting the consent …",
    done: "The consent is noted.",
    sent: ["consentDate", "consentBy"],
  };
}

export const takingConsentBack: PlayerAction = {
  ...{ method: "PATCH", path: "/page", body: { consent: null }, sent: ["consentDate", "consentBy"] },
  ...{ words: "Taking the consent back …", done: "No consent is noted any more." },
};

export function addingNote({ draft }: PlayerState): PlayerAction | null {
  const text = draft.note.trim();
  if (text === "" || draft.noteDate === "") return null;
  return {
    ...{ method: "POST", path: "/notes", body: { date: draft.noteDate, text }, sent: ["note", "noteDate"] },
    ...{ words: "Keeping the note …", done: "The note is kept." },
  };
}

export const deletingNote = (id: string): PlayerAction => ({
  ...{ method: "DELETE", path: `/notes/${encodeURIComponent(id)}`, sent: [] },
  ...{ words: "Deleting the note …", done: "The note is deleted." },
});

export const takingLensBack = (since: string): PlayerAction => ({
  ...{ method: "DELETE", path: `/lens/${since}`, sent: [] },
  ...{ words: "Taking the lens back …", done: "The lens of that day is taken back." },
});

export function merging({ draft, others }: PlayerState): PlayerAction | null {
  const other = others.find(({ id }) => id === draft.into);
  if (other === undefined) return null;
  return {
    ...{ method: "POST", path: "/merge", body: { into: other.id }, sent: [] },
    ...{ words: "Making one of the two …", done: `Everything stands under ${other.name} now.` },
  };
}

export const deleting: PlayerAction = {
  ...{ method: "DELETE", path: "", sent: [] },
  ...{ words: "Deleting …", done: "The player is deleted." },
};

/** All lenses to choose from, the built-in ones first. */
export function lensChoices({ own }: PlayerState): readonly { readonly id: string; readonly name: string }[] {
  return [...LENSES, ...own.map(({ id, name }) => ({ id, name }))];
}

export interface LensWeek {
  readonly take: string;
  readonly title: string;
  readonly date: string;
  readonly lens: string;
  readonly state: LensState;
  /** Each number that was asked for, with its unit. */
  readonly numbers: readonly string[];
}

/** The takes that were looked at through a lens, in the order of their days. */
export function lensWeeks({ takes }: Pick<PlayerState, "takes">): readonly LensWeek[] {
  return takes.flatMap(({ id, title, date, lens }) =>
    lens === null
      ? []
      : [
          {
            ...{ take: id, title, date, lens: lens.name, state: lens.state },
            numbers: lens.asks.map(({ text }) => text),
          },
        ],
  );
}

export function deletionWords({ page, takes }: PlayerState): string {
  const notes = page.notes.length === 0 ? "" : `, ${count(page.notes.length, "note")} for the parents`;
  return `Deleting ${page.name} takes along ${count(takes.length, "take")} with their recordings, accounts and feedback${notes}, lenses, consent, shared links and what waits in jobs. For half an hour it can be undone; then it is gone for good, here and from the store. Export it first if anyone may want it. A recording that was never sent stays in the browser in which it was played.`;
}

export function mergeWords({ page, takes, others, draft }: PlayerState): string {
  const name = others.find(({ id }) => id === draft.into)?.name ?? "the other player";
  return `${capital(count(takes.length, "take"))}, notes and lenses of ${page.name} go to ${name}, whose own lens of a day, hand size, chart, shapes and consent stay. ${page.name} is gone afterwards. This cannot be undone.`;
}
