/** What went wrong, in words, where, and the way on. */
import { ApiError } from "./api.ts";
import { h } from "./dom.ts";
import { refusalWords } from "./refusal-words.ts";
import { signInForm } from "./sign-in.ts";

/** Whether the same request may be answered otherwise the next time: what is not there stays so. */
const mayChange = (error: unknown): boolean => !(error instanceof ApiError && error.status === 404);

export function refusalNote(error: unknown, again?: () => void): HTMLElement {
  return refusalWords(
    error,
    error instanceof ApiError && error.code === "token-needed" ? signInForm() : null,
    again && mayChange(error) ? h("button", { type: "button", onClick: again }, "Try again") : null,
  );
}
