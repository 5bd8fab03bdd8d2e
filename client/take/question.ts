/** The questions that a take raises, above what is said of it: one box, a button for each answer. */
import { html, nothing, render, type TemplateResult } from "lit-html";
import type { TakeChange } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import { h } from "../shell/dom.ts";
import { type Answer, takeQuestion } from "./question-model.ts";

/** Changes the take, says so, and offers the way back. */
type Send = (wanted: TakeChange, words: string, undo: TakeChange) => unknown;

/**
 * The question, or nothing where all is certain.
 *
 * @param otherwise where the chart can be put right by hand
 * @param about the chart alone where the beat is asked about in a place of its own
 */
export function askOfTake(
  analysis: Analysis,
  send: Send,
  otherwise: TemplateResult,
  about: "chart and beat" | "chart" = "chart and beat",
): HTMLElement | null {
  const question = takeQuestion(analysis);
  if (question === null) return null;
  const { doubt, better, answers, hand } = question;
  const reading = about === "chart" ? null : question.reading;
  if (doubt === null && reading === null && hand === null) return null;
  const button = ({ label, change, said, undo }: Answer) =>
    html`<button type="button" @click=${() => send(change, said, undo)}>${label}</button>`;
  const host = h("section", {
    class: "take-question no-print",
    "aria-label": "A question before you read on",
  });
  render(
    html`${
      doubt === null
        ? nothing
        : html`<h2>Is this the chart?</h2>
            <p>${doubt} ${better} Until you say, the findings leave the harmony out.</p>
            <div class="answers">${answers.map(button)}${otherwise}</div>`
    }${
      reading === null
        ? nothing
        : html`<p class="other-reading">${reading.words} ${button(reading.answer)}</p>`
    }${
      hand === null
        ? nothing
        : html`<h2>Which hand plays the solo?</h2>
            <p>${hand.words}</p>
            <div class="answers">${hand.answers.map(button)}</div>`
    }`,
    host,
  );
  return host;
}
