/** Prints a sheet once its staves are drawn: what is printed before that is a sheet without music. */
import { h } from "../shell/dom.ts";

/** @param drawn resolves when every staff stands, or says why it does not */
export function printButton(drawn: () => Promise<unknown>): HTMLButtonElement {
  const button = h("button", { type: "button", class: "main", onClick: () => void print() }, "Print");
  async function print(): Promise<void> {
    button.disabled = true;
    button.textContent = "Being engraved …";
    await drawn().catch(() => {});
    button.disabled = false;
    button.textContent = "Print";
    window.print();
  }
  return button;
}
