/** The findings of a take as they are read and edited: what is unfolded, what is half written, what is kept. */
import type { Analysis, Finding } from "../../src/account.ts";
import type { Feedback } from "../../src/findings/lesson.ts";
import { isGoal, printedText } from "./finding-words.ts";

export type Kind = Finding["kind"];
export type Remark = Feedback["added"][number];

export interface FindingsState {
  /** What is kept with the take. */
  readonly notes: Feedback;
  /** Ids of findings whose line is unfolded. */
  readonly open: ReadonlySet<string>;
  /** Wordings that are being written, by finding id. */
  readonly wordings: Readonly<Record<string, string>>;
  /** Remarks that are being written, by kind. */
  readonly remarks: Readonly<Partial<Record<Kind, string>>>;
}

export const findingsOf = (notes: Feedback): FindingsState => ({
  notes,
  open: new Set(),
  wordings: {},
  remarks: {},
});

/** The player is asked to write before anything is said. */
export const isWaiting = ({ notes }: FindingsState): boolean => notes.askFirst && !notes.asked;

/** What is shown of a kind: goals stand apart. */
export function shownOf(analysis: Analysis, { notes }: FindingsState, kind: Kind): readonly Finding[] {
  return analysis.findings.filter(
    (finding) => finding.kind === kind && !isGoal(finding) && !notes.hidden.includes(finding.id),
  );
}

export const remarksOf = ({ notes }: FindingsState, kind: Kind): readonly Remark[] =>
  notes.added.filter((one) => one.kind === kind);

/** A finding's sentence: the teacher's where there is one. */
export const textOf = ({ notes }: FindingsState, finding: Finding): string =>
  printedText(notes.edited[finding.id] ?? finding.text);

export function fold(state: FindingsState, id: string): FindingsState {
  const open = new Set(state.open);
  if (!open.delete(id)) open.add(id);
  return { ...state, open };
}

/** Begins or goes on with a wording. */
export const word = (state: FindingsState, id: string, text: string): FindingsState => ({
  ...state,
  wordings: { ...state.wordings, [id]: text },
});

export function leaveWording(state: FindingsState, id: string): FindingsState {
  const { [id]: _left, ...wordings } = state.wordings;
  return { ...state, wordings };
}

/** An empty wording, or the finding's own, takes the teacher's back. */
export function keepWording(state: FindingsState, finding: Finding): FindingsState {
  const text = (state.wordings[finding.id] ?? "").trim();
  const { [finding.id]: _before, ...edited } = state.notes.edited;
  const own = text === "" || text === finding.text;
  return leaveWording(
    { ...state, notes: { ...state.notes, edited: own ? edited : { ...edited, [finding.id]: text } } },
    finding.id,
  );
}

export const leaveOff = (state: FindingsState, id: string): FindingsState => ({
  ...state,
  notes: { ...state.notes, hidden: [...state.notes.hidden, id] },
});

export const putBack = (state: FindingsState, id: string): FindingsState => ({
  ...state,
  notes: { ...state.notes, hidden: state.notes.hidden.filter((other) => other !== id) },
});

export const writeRemark = (state: FindingsState, kind: Kind, text: string): FindingsState => ({
  ...state,
  remarks: { ...state.remarks, [kind]: text },
});

/** Keeps the remark that was being written; an empty one is none. */
export function addRemark(state: FindingsState, kind: Kind): FindingsState {
  const text = (state.remarks[kind] ?? "").trim();
  if (text === "") return state;
  const { [kind]: _written, ...remarks } = state.remarks;
  return { ...state, remarks, notes: { ...state.notes, added: [...state.notes.added, { kind, text }] } };
}

export const takeOut = (state: FindingsState, remark: Remark): FindingsState => ({
  ...state,
  notes: { ...state.notes, added: state.notes.added.filter((other) => other !== remark) },
});

export const putRemarkBack = (state: FindingsState, remark: Remark): FindingsState => ({
  ...state,
  notes: { ...state.notes, added: [...state.notes.added, remark] },
});

/** Fields that are kept as they are typed. */
export const noted = (
  state: FindingsState,
  part: Partial<Pick<Feedback, "own" | "signed" | "askFirst" | "asked">>,
): FindingsState => ({ ...state, notes: { ...state.notes, ...part } });
