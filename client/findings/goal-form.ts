/** A form to set one goal: what is asked for, how much of it, in whose words. */
import type { Goal } from "../../src/account.ts";
import { capital, withAccidentals } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import { ANCHORS, checkOf, GOAL_FORMS, goalText } from "./goal-checks.ts";

/** @param numerals chords of the chart as numerals ("I7", "IV7"); `add` is called with a goal that is whole */
export function goalForm(numerals: readonly string[], add: (goal: Goal) => void): HTMLFormElement {
  const kind = h(
    "select",
    { name: "goal-kind" },
    ...GOAL_FORMS.map((form) => h("option", { value: form.kind }, form.name)),
  );
  const amount = h("input", { name: "goal-amount", type: "number", min: 1, step: 1, class: "short" });
  const amountLabel = h("span", {});
  const amountField = h("label", {}, amountLabel, amount);
  const anchor = h(
    "select",
    { name: "goal-anchor" },
    ...ANCHORS.map(([degree, name]) => h("option", { value: degree }, name)),
  );
  const chord = h(
    "select",
    { name: "goal-chord" },
    h("option", { value: "" }, "every chord"),
    ...numerals.map((numeral) => h("option", { value: numeral }, `the ${withAccidentals(numeral)} chord`)),
  );
  const placement = [h("label", {}, "Hand", anchor), h("label", {}, "On", chord)];
  const words = h("input", { name: "goal-words", autocomplete: "off", maxlength: 300 });
  const trouble = h("p", { class: "hint", role: "status" });
  const form = h(
    "form",
    { class: "goal-form no-print" },
    h(
      "div",
      { class: "row" },
      h("label", {}, "This week", kind),
      ...placement,
      amountField,
      h("label", { class: "wide" }, "In your words (may stay empty)", words),
      h("button", { type: "submit" }, "Set the goal"),
    ),
    trouble,
  );
  const chosen = () => GOAL_FORMS.find((one) => one.kind === kind.value) ?? GOAL_FORMS[0]!;
  const follow = () => {
    const { amount: number, kind: now } = chosen();
    amountField.hidden = number === null;
    amountLabel.textContent = number?.label ?? "";
    if (number !== null) {
      amount.value = String(number.start);
      amount.max = String(number.most);
    }
    for (const field of placement) field.hidden = now !== "placement";
  };
  kind.addEventListener("change", follow);
  follow();
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    trouble.textContent = "";
    try {
      const check = checkOf(chosen().kind, Number(amount.value), {
        anchorDegree: anchor.value,
        numeral: chord.value || null,
      });
      const text = words.value.trim() || (check === null ? "" : capital(goalText(check)));
      if (text === "") throw new RangeError("A goal in words needs words.");
      words.value = "";
      add({ text, check });
    } catch (error) {
      trouble.textContent = (error as Error).message;
    }
  });
  return form;
}
