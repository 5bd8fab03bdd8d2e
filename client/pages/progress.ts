/** A player's term: the numbers over time, what was said of each take, best moments; to print. */
import { takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { capital, count, day } from "../shell/words.ts";
import { framePlain } from "../views/plain-frame.ts";
import { type DatedTake, progressLines } from "../views/progress-lines.ts";

export const progressPage: PageMaker = async (parameters) => {
  const id = parameters[0] ?? "";
  const rows = (await takes.list()).filter((row) => row.playerId === id);
  const player = rows[0]?.player ?? "This player";
  const dated: DatedTake[] = await Promise.all(
    rows
      .filter((row) => row.date)
      .sort((a, b) => (a.date ?? "").localeCompare(b.date ?? ""))
      .map(async (take) => ({ take, analysis: await takes.analysis(take.id) })),
  );
  return {
    title: `Progress of ${player}`,
    element: h(
      "div",
      { class: "stack" },
      h(
        "header",
        { class: "take-head" },
        h("h1", {}, `${player}: term report`),
        h("p", { class: "take-meta" }, capital(count(rows.length, "take"))),
        h(
          "div",
          { class: "take-ways no-print" },
          h("button", { type: "button", class: "main", onClick: () => window.print() }, "Print"),
          dated.length > 1
            ? h(
                "a",
                { class: "button", href: `#/compare?a=${dated[0]!.take.id}&b=${dated.at(-1)!.take.id}` },
                "Compare first and last",
              )
            : null,
        ),
      ),
      framePlain(progressLines(dated)),
      h("section", { class: "sheet" }, h("h2", {}, "Best moments"), moments(dated)),
      h(
        "section",
        { class: "sheet" },
        h("h2", {}, "What was said of each take"),
        ...[...dated].reverse().map(history),
      ),
    ),
  };
};

function moments(dated: readonly DatedTake[]): HTMLElement {
  const best = dated
    .flatMap(({ take, analysis }) =>
      analysis.findings.filter((finding) => finding.kind === "works").map((finding) => ({ take, finding })),
    )
    .sort((a, b) => b.finding.weight - a.finding.weight)
    .slice(0, 4);
  if (best.length === 0) return h("p", { class: "empty" }, "No finding speaks of one yet.");
  return h(
    "ul",
    { class: "words" },
    ...best.map(({ take, finding }) =>
      h(
        "li",
        {},
        `${finding.text} `,
        h(
          "a",
          { href: `#/takes/${take.id}?finding=${encodeURIComponent(finding.id)}` },
          `${take.title ?? take.id}, ${day(take.date)}`,
        ),
      ),
    ),
  );
}

function history({ take, analysis }: DatedTake): HTMLElement {
  const goals = analysis.options.goals;
  return h(
    "section",
    { class: "history" },
    h(
      "h3",
      {},
      h("a", { href: `#/takes/${take.id}/findings` }, take.title ?? take.id),
      h("span", { class: "faint" }, ` ${day(take.date)}`),
    ),
    goals.length > 0
      ? h("p", { class: "hint" }, `Goals: ${goals.map((goal) => goal.text).join("; ")}`)
      : null,
    h(
      "ul",
      { class: "words" },
      ...analysis.findings.map((finding) =>
        h(
          "li",
          {},
          h(
            "span",
            { class: "faint" },
            finding.kind === "works" ? "Works: " : finding.kind === "practise" ? "To practise: " : "Notice: ",
          ),
          finding.text,
        ),
      ),
    ),
  );
}
