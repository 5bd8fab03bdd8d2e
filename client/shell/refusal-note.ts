/** What went wrong, in words, where, and the way on. */
import { Refusal } from "./api.ts";
import { h } from "./dom.ts";
import { signInForm } from "./sign-in.ts";

export function refusalNote(error: unknown, again?: () => void): HTMLElement {
  const refusal = error instanceof Refusal ? error : null;
  const message = error instanceof Error ? error.message : String(error);
  return h(
    "div",
    { class: "refusal", role: "alert" },
    h("p", { class: "refusal-what" }, message),
    refusal?.where ? h("p", { class: "refusal-where" }, `Where: ${refusal.where}`) : null,
    refusal?.todo ? h("p", { class: "refusal-todo" }, refusal.todo) : null,
    refusal?.code === "token-needed" ? signInForm() : null,
    again ? h("button", { type: "button", onClick: again }, "Try again") : null,
  );
}
