/** The findings of one kind on the feedback page, with the remarks that the teacher adds to them. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { FindingDesk } from "./finding-editor.ts";
import { findingItem, tool } from "./finding-item.ts";
import { FINDING_KINDS } from "./finding-words.ts";
import {
  addRemark,
  type Kind,
  putRemarkBack,
  type Remark,
  remarksOf,
  shownOf,
  takeOut,
  writeRemark,
} from "./findings-model.ts";

export function findingGroups(desk: FindingDesk): TemplateResult[] {
  return FINDING_KINDS.map(({ kind, heading, none }) => {
    const own = shownOf(desk.analysis, desk.state(), kind);
    const added = remarksOf(desk.state(), kind);
    return html`<section class=${`finding-group kind-${kind}`}>
      <h2>${heading}</h2>
      ${own.length + added.length === 0 ? html`<p class="empty">${none}</p>` : nothing}
      <ol>
        ${own.map((finding) => findingItem(finding, desk))}${added.map((remark) => remarkItem(remark, desk))}
      </ol>
      ${adder(kind, desk)}
    </section>`;
  });
}

export function remarkItem(remark: Remark, desk: FindingDesk): TemplateResult {
  const out = () => {
    desk.change((now) => takeOut(now, remark));
    desk.say("Your remark is taken out.", {
      label: "Undo",
      run: () => desk.change((now) => putRemarkBack(now, remark)),
    });
  };
  return html`<li class="finding remark">
    <p class="finding-heading">From the teacher</p>
    <p class="finding-text">${remark.text}</p>
    <div class="finding-tools no-print">${tool("Take out", out)}</div>
  </li>`;
}

export function adder(kind: Kind, desk: FindingDesk): TemplateResult {
  const add = (event: Event) => {
    event.preventDefault();
    desk.change((now) => addRemark(now, kind));
  };
  return html`<form class="adder no-print" @submit=${add}>
    <input
      name=${`add-${kind}`}
      aria-label="A remark of your own"
      placeholder="A remark of your own"
      .value=${desk.state().remarks[kind] ?? ""}
      @input=${(event: Event) =>
        desk.change((now) => writeRemark(now, kind, (event.target as HTMLInputElement).value))}
    />
    <button type="submit">Add</button>
  </form>`;
}
