/** The feedback page of a take: what works, what to practise, what to notice, each tied to its notes; to edit, sign and print. */
import type { Finding } from "../../src/account.ts";
import { indexAccount } from "../shell/account-index.ts";
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { createSelection, readSelection, selectionQuery } from "../shell/selection.ts";
import { capital, count, day, printed } from "../shell/words.ts";
import { transport } from "../sound/transport.ts";
import { chorusPage } from "../views/chorus-page.ts";
import { frameView } from "../views/frame.ts";
import { keepNotes, readNotes } from "./feedback-notes.ts";

const KINDS: readonly { readonly kind: Finding["kind"]; readonly heading: string; readonly none: string }[] =
  [
    { kind: "works", heading: "What works", none: "Nothing stands out yet; a longer solo tells more." },
    { kind: "practise", heading: "To practise", none: "Nothing that the numbers would ask for." },
    { kind: "notice", heading: "To notice", none: "Nothing more." },
  ];

export const findingsPage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [take, analysis, notes] = await Promise.all([takes.get(id), takes.analysis(id), readNotes(id)]);
  const index = indexAccount(analysis);
  const store = createSelection(readSelection(query), (selection) => shell.keep(selectionQuery(selection)));
  const listen = transport(index, store);
  const frame = frameView(chorusPage(), index, store, { play: () => listen.toggle() });
  const save = () => {
    keepNotes(id, notes).catch((error: Error) => shell.say(`This was not kept: ${error.message}`));
  };
  const body = h("div", { class: "findings" });

  const show = () => {
    const waiting = notes.askFirst && !notes.asked;
    body.replaceChildren(
      ownView(waiting),
      ...(waiting
        ? [h("p", { class: "empty" }, "The findings are shown when the player has written.")]
        : [
            ...KINDS.map(({ kind, heading, none }) => group(kind, heading, none)),
            notMeasured(),
            signature(),
          ]),
    );
    mark();
  };

  const ownView = (waiting: boolean): HTMLElement => {
    const text = h("textarea", { rows: 3, name: "own-view" }, notes.own);
    text.addEventListener("change", () => {
      notes.own = text.value;
      save();
    });
    return h(
      "section",
      { class: "own-view" },
      h("h2", {}, "The player's own view"),
      h("label", {}, "What went well, what not yet, what next?", text),
      h("p", { class: "print-only own-print" }, notes.own),
      h(
        "label",
        { class: "choice no-print" },
        h("input", {
          type: "checkbox",
          checked: notes.askFirst,
          onChange: (event: Event) => {
            notes.askFirst = (event.target as HTMLInputElement).checked;
            notes.asked = false;
            save();
            show();
          },
        }),
        " Ask for it before the findings are shown",
      ),
      waiting
        ? h(
            "button",
            {
              type: "button",
              class: "main",
              onClick: () => {
                notes.own = text.value;
                notes.asked = true;
                save();
                show();
              },
            },
            "I have written; show the findings",
          )
        : null,
    );
  };

  const group = (kind: Finding["kind"], heading: string, none: string): HTMLElement => {
    const own = analysis.findings.filter(
      (finding) => finding.kind === kind && !notes.hidden.includes(finding.id),
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
        ...own.map(item),
        ...added.map((one) =>
          h(
            "li",
            { class: "finding" },
            h("p", { class: "finding-text" }, one.text),
            h(
              "div",
              { class: "finding-tools no-print" },
              h(
                "button",
                {
                  type: "button",
                  class: "quiet",
                  onClick: () => {
                    notes.added = notes.added.filter((other) => other !== one);
                    save();
                    show();
                    shell.say("Your remark is taken out.", {
                      label: "Undo",
                      run: () => {
                        notes.added.push(one);
                        save();
                        show();
                      },
                    });
                  },
                },
                "Take out",
              ),
            ),
          ),
        ),
      ),
      adder(kind),
    );
  };

  const item = (finding: Finding): HTMLElement => {
    const text = notes.edited[finding.id] ?? finding.text;
    const words = h(
      "button",
      {
        type: "button",
        class: "finding-text link",
        "data-finding": finding.id,
        "aria-pressed": "false",
        onClick: () => {
          store.select({ kind: "finding", finding: finding.id });
          frame.element.scrollIntoView({ block: "nearest", behavior: "smooth" });
        },
      },
      text,
    );
    return h(
      "li",
      { class: "finding" },
      h("p", { class: "finding-heading" }, capital(finding.heading)),
      words,
      finding.bars.length > 0 ? h("p", { class: "finding-bars" }, barWords(finding)) : null,
      finding.practice
        ? h(
            "p",
            { class: "finding-practice" },
            h("strong", {}, finding.practice.title),
            ` ${finding.practice.text} `,
            h("a", { class: "no-print", href: `#/takes/${id}/practice` }, "Practice sheet"),
          )
        : null,
      h(
        "div",
        { class: "finding-tools no-print" },
        h(
          "button",
          {
            type: "button",
            class: "quiet",
            onClick: () => {
              store.select({ kind: "finding", finding: finding.id });
              listen.toggle();
            },
          },
          "Listen",
        ),
        h("button", { type: "button", class: "quiet", onClick: () => edit(finding, words) }, "Reword"),
        h(
          "button",
          {
            type: "button",
            class: "quiet",
            onClick: () => {
              notes.hidden.push(finding.id);
              save();
              show();
              shell.say("The finding is left off the page.", {
                label: "Undo",
                run: () => {
                  notes.hidden = notes.hidden.filter((other) => other !== finding.id);
                  save();
                  show();
                },
              });
            },
          },
          "Leave off",
        ),
      ),
    );
  };

  const edit = (finding: Finding, words: HTMLElement) => {
    const field = h(
      "textarea",
      { rows: 3, "aria-label": "Your wording" },
      notes.edited[finding.id] ?? finding.text,
    );
    const done = h(
      "button",
      {
        type: "button",
        onClick: () => {
          const text = field.value.trim();
          if (text === "" || text === finding.text) delete notes.edited[finding.id];
          else notes.edited[finding.id] = text;
          save();
          show();
        },
      },
      "Keep this wording",
    );
    words.replaceWith(h("div", {}, field, done));
    field.focus();
  };

  const adder = (kind: Finding["kind"]): HTMLElement => {
    const field = h("input", { name: `add-${kind}`, "aria-label": "A remark of your own" });
    const form = h("form", { class: "adder no-print" }, field, h("button", { type: "submit" }, "Add"));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      if (field.value.trim() === "") return;
      notes.added.push({ kind, text: field.value.trim() });
      save();
      show();
    });
    return form;
  };

  const signature = (): HTMLElement => {
    const field = h("input", { name: "signed", value: notes.signed });
    field.addEventListener("change", () => {
      notes.signed = field.value;
      save();
      printedName.textContent = field.value;
    });
    const printedName = h("span", { class: "print-only" }, notes.signed);
    return h("p", { class: "signature" }, h("label", {}, "Signed ", field), printedName);
  };

  const mark = () => {
    for (const words of body.querySelectorAll<HTMLElement>("[data-finding]")) {
      const on = store.selection.kind === "finding" && store.selection.finding === words.dataset.finding;
      words.setAttribute("aria-pressed", String(on));
    }
  };
  const unwatch = store.watch((change) => {
    if (change === "selection") mark();
  });
  show();
  return {
    title: `Findings: ${take.title ?? "take"}`,
    element: h(
      "div",
      { class: "feedback" },
      h(
        "header",
        { class: "take-head" },
        h("h1", {}, `Feedback on “${take.title ?? "a take"}”`),
        h(
          "p",
          { class: "take-meta" },
          [take.player, day(take.date), take.chartName, printed(take.key)].filter(Boolean).join(", "),
        ),
        h(
          "div",
          { class: "take-ways no-print" },
          h("a", { class: "button", href: `#/takes/${id}` }, "Back to the take"),
          h("a", { class: "button", href: `#/takes/${id}/practice` }, "Practice sheet"),
          h("button", { type: "button", class: "main", onClick: () => window.print() }, "Print"),
        ),
      ),
      body,
      h("div", { class: "evidence" }, listen.element, frame.element),
    ),
    query: (next) => store.select(readSelection(next)),
    end() {
      unwatch();
      frame.end();
      listen.end();
    },
  };
};

function barWords(finding: Finding): string {
  const byChorus = new Map<number, number[]>();
  for (const { chorus, bar } of finding.bars) byChorus.set(chorus, [...(byChorus.get(chorus) ?? []), bar]);
  const parts = [...byChorus].map(([chorus, bars]) => {
    const few = bars.slice(0, 8).join(", ");
    const more = bars.length > 8 ? ` and ${count(bars.length - 8, "other")}` : "";
    return `chorus ${chorus}, ${bars.length === 1 ? "bar" : "bars"} ${few}${more}`;
  });
  return `Hear it in ${parts.join("; ")}`;
}

function notMeasured(): HTMLElement {
  return h(
    "p",
    { class: "hint" },
    "Tone and expression are not measured. There is no mark: what is written here follows from the notes, and a teacher may see it otherwise.",
  );
}
