/** Files on their way to being takes: which are chosen, how far each is, what was refused, and what comes next. */
import { count } from "../../src/words/index.ts";

/** How far one file is; `share` is what has gone of it, 0 to 1. */
export type FileStage =
  | { readonly name: "chosen" | "waiting" | "being analysed" | "done" | "not taken" }
  | { readonly name: "on its way"; readonly share: number };

export interface ChosenFile {
  readonly file: File;
  readonly stage: FileStage;
  /** Identifier of the take that it became; null until then. */
  readonly take: string | null;
}

export interface AddState {
  readonly files: readonly ChosenFile[];
  /** What went wrong; `file` names whose, where several were sent. */
  readonly refusals: readonly { readonly file: string | null; readonly error: unknown }[];
  readonly sending: boolean;
  /** A proposed chart is shown, which sending confirms. */
  readonly toConfirm: boolean;
}

export const NOTHING_CHOSEN: AddState = { files: [], refusals: [], sending: false, toConfirm: false };

/** Adds files behind those that are there. Choosing again puts old refusals away. */
export function chooseFiles(state: AddState, more: readonly File[]): AddState {
  return { ...addHeard(state, more), refusals: [] };
}

/** Adds what was heard in recordings: it comes while somebody may be reading a refusal, which therefore stays. */
export function addHeard(state: AddState, more: readonly File[]): AddState {
  const added = more.map((file): ChosenFile => ({ file, stage: { name: "chosen" }, take: null }));
  return { ...state, files: [...state.files, ...added] };
}

/** A file that is being sent stays: the service may have it already. */
export function leaveOut(state: AddState, file: File): AddState {
  return { ...state, files: state.files.filter((one) => one.file !== file || !canBeLeftOut(one)) };
}

export function canBeLeftOut({ stage }: ChosenFile): boolean {
  return stage.name === "chosen" || stage.name === "waiting" || stage.name === "not taken";
}

export function confirmable(state: AddState, toConfirm: boolean): AddState {
  return { ...state, toConfirm };
}

/** All that is chosen now is to go; what is chosen meanwhile waits for the next press. */
export function startSending(state: AddState): AddState {
  const files = state.files.map((one): ChosenFile => ({ ...one, stage: { name: "waiting" } }));
  return { ...state, files, refusals: [], sending: true };
}

/** The file that goes next; null when all have gone. */
export function nextFile(state: AddState): File | null {
  return state.files.find(({ stage }) => stage.name === "waiting")?.file ?? null;
}

/** @param share what has gone of the file, 0 to 1; at 1 the service is at work on it */
export function sentSoFar(state: AddState, file: File, share: number): AddState {
  return withStage(state, file, share < 1 ? { name: "on its way", share } : { name: "being analysed" });
}

export function stored(state: AddState, file: File, take: string): AddState {
  const files = state.files.map(
    (one): ChosenFile => (one.file === file ? { file, stage: { name: "done" }, take } : one),
  );
  return { ...state, files };
}

export function refused(state: AddState, file: File, error: unknown): AddState {
  return withTrouble(withStage(state, file, { name: "not taken" }), file, error);
}

/** The take stands, but not the recording that it was heard in: sending the file again would make a second take. */
export function soundNotKept(state: AddState, file: File, error: unknown): AddState {
  return withTrouble(state, file, error);
}

/** What became takes leaves the list; what was refused stays, to be sent again. */
export function endSending(state: AddState): AddState {
  return { ...state, files: state.files.filter(({ take }) => take === null), sending: false };
}

/** The take when it was the only file that was sent; null when there is more to see to here. */
export function takeToOpen({ files, refusals }: AddState): string | null {
  return files.length === 1 && refusals.length === 0 ? files[0]!.take : null;
}

/** "two takes analysed. one file could not be taken."; null when nothing was. */
export function outcomeWords({ files }: AddState): string | null {
  const taken = files.filter(({ take }) => take !== null).length;
  if (taken === 0) return null;
  const left = files.filter(({ stage }) => stage.name === "not taken").length;
  return `${count(taken, "take")} analysed.${left > 0 ? ` ${count(left, "file")} could not be taken.` : ""}`;
}

/** The file whose chart can be proposed, and whose take can be given a title; null with none or several. */
export function onlyFile({ files }: AddState): File | null {
  return files.length === 1 ? files[0]!.file : null;
}

export function sendWords({ files, toConfirm }: AddState): string {
  if (files.length > 1) return `Analyse ${count(files.length, "file")}`;
  return toConfirm ? "Confirm the chart and analyse" : "Analyse";
}

/** "on its way"; nothing before that. */
export function stageWords({ name }: FileStage): string {
  return name === "chosen" || name === "waiting" ? "" : name;
}

/** "812 bytes", "3.4 kB", "12 kB"; a kB is 1024 bytes. */
export function sizeWords(bytes: number): string {
  return bytes < 1024 ? `${bytes} bytes` : `${(bytes / 1024).toFixed(bytes < 10_240 ? 1 : 0)} kB`;
}

function withStage(state: AddState, file: File, stage: FileStage): AddState {
  return { ...state, files: state.files.map((one) => (one.file === file ? { ...one, stage } : one)) };
}

function withTrouble(state: AddState, file: File, error: unknown): AddState {
  const named = state.files.length > 1 ? file.name : null;
  return { ...state, refusals: [...state.refusals, { file: named, error }] };
}
