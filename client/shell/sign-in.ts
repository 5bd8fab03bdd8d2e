/** On a service that asks for tokens, the page signs in with one; it is kept where scripts cannot read it. */
import { fetchJson } from "./api.ts";
import { h } from "./dom.ts";
import { refusalWords } from "./refusal-words.ts";

export function signInForm(): HTMLElement {
  const field = h("input", { id: "token", type: "password", autocomplete: "off", required: true });
  const answer = h("div", { "aria-live": "polite" });
  const form = h(
    "form",
    { class: "sign-in" },
    h("label", { for: "token" }, "Your token"),
    field,
    h("button", { type: "submit", class: "main" }, "Sign in"),
    answer,
  );
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      await fetchJson("/session", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ token: field.value.trim() }),
      });
      location.reload();
    } catch (error) {
      answer.replaceChildren(refusalWords(error));
    }
  });
  return form;
}
