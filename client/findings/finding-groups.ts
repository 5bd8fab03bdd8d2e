/** The findings of one kind on the feedback page, with the remarks that the teacher adds to them. */
import type { Finding } from "../../src/account.ts";
import { h } from "../shell/dom.ts";
import type { FeedbackNotes } from "./feedback-notes.ts";
import type { FindingDesk } from "./finding-editor.ts";
import { findingItem } from "./finding-item.ts";
import { FINDING_KINDS, isGoal } from "./finding-words.ts";

type Remark = FeedbackNotes["added"][number];

export function findingGroups(desk: FindingDesk): HTMLElement[] {
  const { analysis, notes } = desk;
  return FINDING_KINDS.map(({ kind, heading, none }) => {
    const own = analysis.findings.filter(
      (finding) => finding.kind === kind && !isGoal(finding) && !notes.hidden.includes(finding.id),
    );
    const added = notes.added.filter((one) => one.kind === kind);
    return h(
      "section",
      { class: `finding-group kind-${kind}` },
      h("h2", {}, heading),
      own.length + added.length === 0 ? h("p", { class: "empty" }, none) : null,
      h(
        "ol",
        {},
        ...own.map((finding) => findingItem(finding, desk)),
        ...added.map((remark) => remarkItem(remark, desk)),
      ),
      adder(kind, desk),
    );
  });
}

function remarkItem(remark: Remark, desk: FindingDesk): HTMLElement {
  const { notes } = desk;
  const takeOut = () => {
    notes.added = notes.added.filter((other) => other !== remark);
    desk.save();
    desk.show();
    desk.say("Your remark is taken out.", {
      label: "Undo",
      run: () => {
        notes.added.push(remark);
        desk.save();
        desk.show();
      },
    });
  };
  return h(
    "li",
    { class: "finding remark" },
    h("p", { class: "finding-heading" }, "From the teacher"),
    h("p", { class: "finding-text" }, remark.text),
    h(
      "div",
      { class: "finding-tools no-print" },
      h("button", { type: "button", class: "quiet", onClick: takeOut }, "Take out"),
    ),
  );
}

function adder(kind: Finding["kind"], desk: FindingDesk): HTMLElement {
  const field = h("input", {
    name: `add-${kind}`,
    "aria-label": "A remark of your own",
    placeholder: "A remark of your own",
  });
  const form = h("form", { class: "adder no-print" }, field, h("button", { type: "submit" }, "Add"));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const text = field.value.trim();
    if (text === "") return;
    desk.notes.added.push({ kind, text });
    desk.save();
    desk.show();
  });
  return form;
}
