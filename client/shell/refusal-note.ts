/** What went wrong, in words, where, and the way on. */
import { ApiError } from "./api.ts";
import { h } from "./dom.ts";
import { refusalWords } from "./refusal-words.ts";
import { signInForm } from "./sign-in.ts";

export function refusalNote(error: unknown, again?: () => void): HTMLElement {
  return refusalWords(
    error,
    error instanceof ApiError && error.code === "token-needed" ? signInForm() : null,
    again ? h("button", { type: "button", onClick: again }, "Try again") : null,
  );
}
