/** Below the takes: what was deleted, until when it can be brought back, and the way back. */
import { html, nothing, type TemplateResult } from "lit-html";
import { repeat } from "lit-html/directives/repeat.js";
import type { DeletedOne } from "../../server/contract/deleted.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import {
  type DeletedState,
  deletedFacts,
  headWords,
  NOTHING_DELETED,
  read,
  refused,
  restored,
  restoring,
} from "./deleted-model.ts";

export interface DeletedList {
  readonly element: HTMLElement;
  /** Reads it anew; where that fails, what is shown stays. */
  refresh(): void;
}

/** @param changed called after something came back */
export function deletedList(changed: () => void): DeletedList {
  const host = h("div", { class: "deleted-lately" });
  const { change } = drawnFrom(host, NOTHING_DELETED, (state) =>
    drawing(state, (one) => void bringBack(one)),
  );

  // Whoever may not delete is not told what others deleted, and without a network nothing can be brought back.
  function refresh(): void {
    fetchJson<{ deleted: DeletedOne[] }>("/deleted").then(
      ({ deleted }) => change((now) => read(now, deleted)),
      () => {},
    );
  }

  async function bringBack({ kind, id }: DeletedOne): Promise<void> {
    change((now) => restoring(now, id));
    try {
      await fetchJson<unknown>(
        `/${kind === "take" ? "takes" : "players"}/${encodeURIComponent(id)}/restore`,
        {
          method: "POST",
        },
      );
      change((now) => restored(now, id));
      changed();
    } catch (error) {
      change((now) => refused(now, id, error));
    }
    refresh();
  }

  refresh();
  return { element: host, refresh };
}

function drawing(state: DeletedState, bringBack: (one: DeletedOne) => void): TemplateResult {
  const { rows, coming, refused: trouble } = state;
  const note = trouble === null ? nothing : refusalNote(trouble);
  if (rows.length === 0) return html`${note}`;
  return html`<details>
      <summary>${headWords(state)}</summary>
      <ul class="take-rows">${repeat(
        rows,
        ({ id }) => id,
        (one) => html`<li>
          <span class="deleted-name">${one.name}</span>
          <span class="take-facts">${deletedFacts(one)}</span>
          <button type="button" ?disabled=${coming.includes(one.id)} aria-label="Restore ${one.name}"
            @click=${() => bringBack(one)}>${coming.includes(one.id) ? "Coming back …" : "Restore"}</button>
        </li>`,
      )}</ul>
    </details>
    ${note}`;
}
