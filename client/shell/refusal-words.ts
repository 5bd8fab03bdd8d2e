/** What went wrong, in words, and where. */
import { ApiError } from "./api.ts";
import { h } from "./dom.ts";

/** @param rest what stands below the words: a way on */
export function refusalWords(error: unknown, ...rest: readonly (HTMLElement | null)[]): HTMLElement {
  const refusal = error instanceof ApiError ? error : null;
  const message = unloaded(error) ?? (error instanceof Error ? error.message : String(error));
  // A place among the bytes of a file says nothing to whoever chose it.
  const where = refusal?.where != null && !/^byte \d+$/.test(refusal.where) ? refusal.where : null;
  return h(
    "div",
    { class: "refusal", role: "alert" },
    h("p", { class: "refusal-what" }, message),
    where === null ? null : h("p", { class: "refusal-where" }, `Where: ${where}`),
    refusal?.todo ? h("p", { class: "refusal-todo" }, refusal.todo) : null,
    ...rest,
  );
}

/** A part of the page that is loaded when it is needed, and could not be: browsers say so each in their own way. */
function unloaded(error: unknown): string | null {
  return error instanceof TypeError && /import|module script/i.test(error.message)
    ? "The server does not answer, so a part of the page could not be loaded. Nothing of what stands here is lost by it."
    : null;
}
