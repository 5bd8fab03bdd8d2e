/** The head of a take's page: what it is in one line, and what can be done with it in another. */
import { html, type TemplateResult } from "lit-html";
import type { TakeRow } from "../../server/contract/takes.ts";
import type { Analysis } from "../../src/account.ts";
import { capital, clock, count, percent, tempoMark, withAccidentals } from "../../src/words/index.ts";
import { handWords } from "../parts/hand-choice.ts";
import { h } from "../shell/dom.ts";
import { day } from "../shell/words.ts";

/** @param folds what opens from the line of ways: links to share, settings */
export function takeHead(take: TakeRow, analysis: Analysis, folds: readonly HTMLElement[]): HTMLElement {
  return h(
    "header",
    { class: "take-head" },
    h(
      "div",
      { class: "take-line" },
      h("h1", {}, take.title ?? analysis.source.title ?? "Take"),
      h("p", { class: "take-meta" }, [take.player, day(take.date)].filter(Boolean).join(", ")),
      h("p", { class: "take-facts" }, facts(analysis)),
    ),
    h(
      "div",
      { class: "take-more no-print" },
      h(
        "div",
        { class: "take-ways" },
        h("a", { class: "button", href: `#/takes/${take.id}/findings` }, "Findings on paper"),
        h("a", { class: "button", href: `#/takes/${take.id}/practice` }, "Practice sheet"),
        h("a", { class: "button", href: `#/compare?a=${take.id}` }, "Compare"),
      ),
      files(take, analysis),
      about(analysis),
      ...folds,
    ),
  );
}

function facts(analysis: Analysis): string {
  const { chart, alignment, source } = analysis;
  const solo = analysis.notes.reduce((n, note) => n + (note.solo ? 1 : 0), 0);
  return [
    chart.name,
    withAccidentals(chart.key),
    `${chart.meter.beats}/${chart.meter.unit}`,
    `${count(alignment.choruses, "chorus", "choruses")} of ${chart.bars.length} bars`,
    `${solo} solo notes`,
    alignment.tempo ? unbroken(tempoMark(alignment.tempo.median)) : null,
    clock(source.seconds),
    `bar lines ${unbroken(percent(alignment.confidence))} sure`,
  ]
    .filter(Boolean)
    .join("\u00a0· ");
}

/** Words that stand on one line. */
const unbroken = (words: string): string => words.replaceAll(" ", "\u00a0");

const PLACED: Readonly<Record<Analysis["alignment"]["method"], string>> = {
  notated: "Bars are those of its own notation",
  click: "Bars follow one steady tempo",
  tracked: "Bars follow the beat as it was played",
  rubato: "There is no steady beat: bars follow the harmony, so nothing is said of beats",
  anchored: "Bars go through the moments that were pinned",
};

/** How the take was placed and by whom it was played; what was found in the file. */
function about(analysis: Analysis): HTMLElement {
  const proposed =
    analysis.chart.source === "proposed"
      ? " The chart was proposed from the left hand: please check it."
      : "";
  const list = analysis.warnings;
  const remarks = list.length === 0 ? "" : `, ${count(list.length, "remark")} on the file`;
  return h(
    "details",
    { class: "take-about", open: proposed !== "" },
    h("summary", {}, `How it was read${remarks}`),
    h("p", {}, `${PLACED[analysis.alignment.method]}.${proposed}`),
    h("p", { class: "take-hand" }, `${handWords(analysis)}.`),
    list.length === 0
      ? null
      : h(
          "ul",
          { class: "warnings" },
          ...list.map(({ message, where }) =>
            h("li", {}, sentence(where && !message.includes(where) ? `${message} (${where})` : message)),
          ),
        ),
  );
}

/** A remark as a sentence among others. */
const sentence = (remark: string): string => capital(/[.?!]$/.test(remark) ? remark : `${remark}.`);

function files(take: TakeRow, analysis: Analysis): HTMLElement {
  const file = (path: string, words: string) =>
    h("li", {}, h("a", { href: `/api/takes/${take.id}/${path}`, download: true }, words));
  return h(
    "details",
    { class: "take-files" },
    h("summary", {}, "Files"),
    h(
      "ul",
      {},
      // Without beats there are no note values to write.
      analysis.alignment.method === "rubato" ? null : file("score.musicxml", "Annotated score (MusicXML)"),
      file("solo.mid", "Solo (MIDI)"),
      file("notes?format=csv", "Note table (CSV)"),
    ),
  );
}

/** Opens the settings at the chart. */
export function openChart(settings: HTMLElement): TemplateResult {
  const open = () => {
    const box = settings.querySelector("details");
    if (box === null) return;
    box.open = true;
    box.querySelector("summary")?.focus();
    box.scrollIntoView({ block: "nearest" });
  };
  return html`<button type="button" class="quiet" @click=${open}>Another chart</button>`;
}
