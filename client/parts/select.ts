import { h } from "../shell/dom.ts";

/** A list to choose one from: values with what they are called, and the one that is chosen now. */
export function select(
  name: string,
  choices: readonly (readonly [value: string, label: string])[],
  now: string,
): HTMLSelectElement {
  return h(
    "select",
    { name },
    ...choices.map(([value, label]) => h("option", { value, selected: value === now }, label)),
  );
}
