/** A player's term on one or two sheets of paper: what has moved, goals, what works, what stays to practise, room to write. */
import type { PlayerPage, PlayerProgress } from "../../server/contract/player-page.ts";
import { capital, count } from "../../src/words/index.ts";
import { printedText } from "../findings/finding-words.ts";
import { LENS_STATE_WORDS } from "../findings/lens-words.ts";
import { paperChoice } from "../parts/paper-choice.ts";
import { h } from "../shell/dom.ts";
import { keepFields } from "../shell/kept-fields.ts";
import type { PageMaker } from "../shell/page.ts";
import { day } from "../shell/words.ts";
import { followedValue } from "../views/progress-lines.ts";
import { readPlayerPage } from "./player-api.ts";
import { type LensWeek, lensWeeks } from "./player-model.ts";
import { bestMoments, goalTable, period, readProgress } from "./progress-parts.ts";

export const termReportPage: PageMaker = async (parameters) => {
  const id = parameters[0] ?? "";
  const [progress, { notes }] = await Promise.all([readProgress(id), readPlayerPage(id)]);
  const { player } = progress;
  const report = h("article", { class: "term-report practice-sheet paper-a4" });
  report.append(
    h(
      "header",
      { class: "take-head" },
      h("h1", {}, `Term report for ${player.name}`),
      h(
        "p",
        { class: "take-meta" },
        [capital(count(progress.takes.length, "take")), period(progress)].filter(Boolean).join(", "),
      ),
      h(
        "div",
        { class: "take-ways no-print" },
        h("a", { class: "button", href: `#/players/${id}` }, "Back to the player"),
        h("button", { type: "button", class: "main", onClick: () => window.print() }, "Print"),
        paperChoice(report),
      ),
    ),
    ...(progress.takes.length === 0
      ? [h("p", { class: "empty" }, "There is no take of this player yet.")]
      : sections(progress, notes)),
  );
  keepFields(report, `report ${id}`);
  return { title: `Term report for ${player.name}`, element: report };
};

function sections(progress: PlayerProgress, notes: PlayerPage["notes"]): HTMLElement[] {
  const goals = goalTable(progress);
  const weeks = lensWeeks(progress);
  return [
    ...(notes.length === 0 ? [] : [section("From the lessons", notesOf(notes))]),
    ...(weeks.length === 0 ? [] : [section("What was worked on", lensTable(weeks))]),
    section("The numbers", numbers(progress)),
    ...(goals === null ? [] : [section("Goals", goals)]),
    section("Best moments", bestMoments(progress)),
    h(
      "div",
      { class: "report-columns" },
      section("What has come", said(progress, "works", ["new", "lasting"])),
      section("What to go on with", said(progress, "practise", ["new", "lasting"])),
      section("No longer needed", said(progress, "practise", ["gone"], firstSentence)),
    ),
    h(
      "div",
      { class: "report-written" },
      room("The player's own view", "report-own"),
      room("From the teacher", "report-teacher"),
      h(
        "p",
        { class: "signatures" },
        ...["Teacher", "Player", "Date"].map((who) => h("span", { class: "signature-line" }, who)),
      ),
      h(
        "p",
        { class: "hint" },
        "Tone and expression are not measured, and there is no mark. The numbers follow from the notes of the recordings; a teacher may see it otherwise.",
      ),
    ),
  ];
}

/** Notes for the parents, the oldest first. */
const notesOf = (notes: PlayerPage["notes"]): HTMLElement =>
  h(
    "ul",
    { class: "words report-notes" },
    ...[...notes]
      .sort((a, b) => a.date.localeCompare(b.date))
      .map(({ date, text }) => h("li", {}, h("strong", {}, `${day(date)}. `), text)),
  );

/** The takes that were looked at through a lens, and whether they reached it. */
const lensTable = (weeks: readonly LensWeek[]): HTMLElement =>
  h(
    "table",
    { class: "report-table report-lens" },
    h(
      "thead",
      {},
      h("tr", {}, ...["Take", "Lens", "Reached"].map((name) => h("th", { scope: "col" }, name))),
    ),
    h(
      "tbody",
      {},
      ...weeks.map(({ title, date, lens, state }) =>
        h(
          "tr",
          {},
          h("th", { scope: "row" }, `${title}, ${day(date)}`),
          h("td", {}, lens),
          h("td", {}, LENS_STATE_WORDS[state]),
        ),
      ),
    ),
  );

const section = (title: string, body: HTMLElement): HTMLElement =>
  h("section", { class: "report-part" }, h("h2", {}, title), body);

function numbers({ measures, takes }: PlayerProgress): HTMLElement {
  const few = takes.length > 6;
  const shown = takes.map((_, k) => k).filter((k) => !few || k === 0 || k >= takes.length - 4);
  return h(
    "div",
    { class: "table-scroll", tabindex: 0, role: "group", "aria-label": "The numbers, take by take" },
    h(
      "table",
      { class: "report-table" },
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          h("th", { scope: "col" }, "Measure"),
          ...shown.map((k) => h("th", { scope: "col" }, takes[k]!.title)),
          h("th", { scope: "col" }, "Over the term"),
        ),
      ),
      h(
        "tbody",
        {},
        ...measures.map((measure) =>
          h(
            "tr",
            {},
            h("th", { scope: "row" }, measure.name),
            ...shown.map((k) => {
              const value = measure.points[k]?.value ?? null;
              return h("td", {}, value === null ? "–" : followedValue(value, measure.unit));
            }),
            h("td", {}, measure.words),
          ),
        ),
      ),
    ),
  );
}

function said(
  progress: PlayerProgress,
  kind: "works" | "practise",
  states: readonly PlayerProgress["findings"][number]["state"][],
  words: (text: string) => string = (text) => text,
): HTMLElement {
  const lines = progress.findings.filter((line) => line.kind === kind && states.includes(line.state));
  return lines.length === 0
    ? h("p", { class: "empty" }, "Nothing yet.")
    : h(
        "ul",
        { class: "words" },
        ...lines.map((line) =>
          h(
            "li",
            {},
            h("span", { class: "faint" }, `${capital(line.heading)}. `),
            printedText(words(line.text)),
          ),
        ),
      );
}

/** Of what is behind somebody only the observation is said again, not the advice. */
const firstSentence = (text: string): string => text.split(/(?<=[.?!]) /)[0] ?? text;

/** Space to write, on the page or by hand on paper; it stands in this window and is not sent. */
function room(title: string, name: string): HTMLElement {
  const print = h("p", { class: "print-only own-print" });
  const text = h("textarea", { rows: 3, name });
  text.addEventListener("input", () => {
    print.textContent = text.value;
  });
  return h(
    "section",
    { class: "own-view report-part" },
    h(
      "label",
      {},
      h("strong", {}, title),
      h("span", { class: "hint no-print" }, " (for the print; it stands in this window until it is closed)"),
      text,
    ),
    print,
  );
}
