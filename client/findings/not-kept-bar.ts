/** A line above every page while feedback is not kept: it stays until the server has it. */
import { html, nothing, render, type TemplateResult } from "lit-html";
import { repeat } from "lit-html/directives/repeat.js";
import { ApiError } from "../shell/api.ts";
import { inTrouble, type Keeper, resumeKeeping, watchKeepers } from "./keeper.ts";
import { givenUp } from "./keeping-model.ts";

/** Puts the line before `main`, and sends what earlier windows left. */
export function startKeeping(main: HTMLElement): void {
  const bar = document.createElement("div");
  bar.className = "not-kept-bar no-print";
  main.before(bar);
  const show = () => {
    const keepers = inTrouble();
    render(
      html`<div role="status">${
        keepers.length === 0
          ? nothing
          : repeat(
              keepers,
              ({ take }) => take,
              (keeper) => html`<p>${notKept(keeper)}</p>`,
            )
      }</div>`,
      bar,
    );
  };
  watchKeepers(show);
  show();
  void resumeKeeping();
}

function notKept(keeper: Keeper): TemplateResult {
  const { trouble } = keeper.state();
  const waits = trouble instanceof ApiError && trouble.status === 0;
  return html`<strong>Not saved:</strong> feedback on
    <a href=${`#/takes/${encodeURIComponent(keeper.take)}/findings`}>“${keeper.title()}”</a>.
    ${
      waits
        ? "The server does not answer. It stands in this browser and is sent when the server is back."
        : `${(trouble as Error).message} It stands in this browser.`
    }
    <button type="button" class="quiet" @click=${() => keeper.again()}>Try again</button>
    ${
      waits
        ? nothing
        : html`<button type="button" class="quiet" @click=${() => keeper.change(givenUp)}>Give it up</button>`
    }`;
}
