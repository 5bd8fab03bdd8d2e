/** A take: its pictures, its words, all linked by one selection. */
import { html, type TemplateResult } from "lit-html";
import type { Analysis } from "../../src/account.ts";
import { capital, clock, count, percent, withAccidentals } from "../../src/words/index.ts";
import { keptSound } from "../listen/kept-sound.ts";
import { handWords } from "../parts/hand-choice.ts";
import { indexAccount } from "../shell/account-index.ts";
import { forms, shapes, type TakeChange, type TakeRow, takes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { Page, PageMaker, Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { createSelection, readSelection, type SelectionStore, selectionQuery } from "../shell/selection.ts";
import { day } from "../shell/words.ts";
import { transport } from "../sound/transport.ts";
import { staffSection } from "../staff/staff-section.ts";
import { chorusPage } from "../views/chorus-page.ts";
import { type Framed, frameView } from "../views/frame.ts";
import { handJourney } from "../views/hand-journey.ts";
import { motifLanes } from "../views/motif-lanes.ts";
import { phraseArcs } from "../views/phrase-arcs.ts";
import { register } from "../views/register.ts";
import { roleShares } from "../views/role-shares.ts";
import { timeFeel } from "../views/time-feel.ts";
import type { Actions, View } from "../views/view.ts";
import { findAgain } from "./find-again.ts";
import { handTold } from "./hand-summary.ts";
import { ideasTold } from "./ideas-summary.ts";
import { roleLegend } from "./legend.ts";
import { lineTold } from "./line-summary.ts";
import { pinBar } from "./pin-bar.ts";
import { askOfTake } from "./question.ts";
import { readingPanel } from "./selection-text.ts";
import { sharePanel } from "./share.ts";
import { takeSettings } from "./take-settings.ts";
import { tapBeat } from "./tap-beat.ts";

export const takePage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [take, analysis] = await Promise.all([takes.get(id), takes.analysis(id)]);
  const store = createSelection(readSelection(query), (selection) =>
    shell.replaceQuery(selectionQuery(selection)),
  );
  const host = h("div", { class: "take" });
  let rendered = renderTake(host, take, analysis, store, shell);

  const change: Change = async (wanted, words, undo) => {
    host.setAttribute("aria-busy", "true");
    try {
      const next = await takes.change(id, wanted);
      rendered.end();
      rendered = renderTake(host, next.take, next.analysis, store, shell);
      bind();
      const back = undo && { label: "Undo", run: () => void change(undo, "It is as it was before.") };
      shell.notify(words, back);
    } catch (error) {
      rendered.trouble.replaceChildren(refusalNote(error));
      rendered.trouble.scrollIntoView({ block: "center" });
    } finally {
      host.removeAttribute("aria-busy");
    }
  };
  const bind = () => rendered.bind(change);
  bind();

  const page: Page = {
    title: take.title ?? "Take",
    element: host,
    query: (next) => store.select(readSelection(next)),
    key(event) {
      const n = Number(event.key);
      if (event.key === "t" && !event.repeat && rendered.tap(event)) return;
      if (event.key === " ") rendered.play();
      else if (event.key === "Escape") store.select({ kind: "none" });
      else if (n >= 1 && n <= rendered.frames.length) {
        const plot = rendered.frames[n - 1]?.element.querySelector<HTMLElement>(".plot");
        plot?.focus();
        plot?.scrollIntoView({ block: "nearest" });
      }
    },
    end: () => rendered.end(),
  };
  return page;
};

/** Changes the take, says so, and offers the way back where `undo` is one. */
type Change = (wanted: TakeChange, words: string, undo?: TakeChange) => Promise<void>;

interface RenderedTake {
  readonly frames: readonly Framed[];
  readonly trouble: HTMLElement;
  play(): void;
  bind(change: Change): void;
  /** Takes a key for a tap of the beat; false when nothing plays for it. */
  tap(event: KeyboardEvent): boolean;
  end(): void;
}

function renderTake(
  host: HTMLElement,
  take: TakeRow,
  analysis: Analysis,
  store: SelectionStore,
  shell: Shell,
): RenderedTake {
  const index = indexAccount(analysis);
  let change: Change = async () => {};
  const anchored = { anchors: analysis.alignment.anchors };
  const listen = transport(index, store);
  const actions: Actions = {
    play: () => listen.toggle(),
    pin(anchor) {
      const others = analysis.alignment.anchors.filter(
        (other) => other.chorus !== anchor.chorus || other.bar !== anchor.bar || other.beat !== anchor.beat,
      );
      void change(
        { anchors: [...others, anchor] },
        `Bar ${anchor.bar} of chorus ${anchor.chorus} is pinned at ${anchor.seconds.toFixed(2)} s.`,
        anchored,
      );
    },
  };
  const views: readonly View[] = [
    chorusPage(),
    handJourney(),
    motifLanes(),
    roleShares(),
    register(),
    timeFeel(),
    phraseArcs(),
  ];
  const frames = views.map((view) => frameView(view, index, store, actions));
  const staff = staffSection(take.id, index, store, actions);
  const reading = readingPanel(index, store);
  const pin = pinBar(index, store, actions);
  const tap = tapBeat(index, store, (anchors, words) => void change({ anchors }, words, anchored));
  /** Words that go with a picture, by its id. */
  const told: Readonly<Record<string, () => HTMLElement>> = {
    "hand-journey": () => handTold(index, store),
    "motif-lanes": () => ideasTold(index, store),
    "phrase-arcs": () => lineTold(index, store),
  };
  const again = findAgain(take.id, index, store, shell);
  const trouble = h("div", { class: "trouble" });
  const settings = h("div", { class: "settings-slot" });

  host.replaceChildren(
    h(
      "header",
      { class: "take-head" },
      h("h1", {}, take.title ?? analysis.source.title ?? "Take"),
      h("p", { class: "take-meta" }, [take.player, day(take.date)].filter(Boolean).join(", ")),
      factLine(analysis),
      howPlaced(analysis),
      h("p", { class: "take-placed take-hand" }, `${handWords(analysis)}.`),
      warnings(analysis),
      takeWays(take, analysis),
      h("div", { class: "take-more" }, sharePanel(take.id, shell), settings),
      trouble,
    ),
    askOfTake(analysis, (wanted, words, undo) => change(wanted, words, undo), openChart(settings)) ?? "",
    h(
      "div",
      { class: "desk" },
      h(
        "div",
        { class: "pictures" },
        ...frames.flatMap((frame) => [frame.element, told[frame.element.id]?.() ?? null]),
        staff.element,
      ),
      h(
        "aside",
        { class: "margin", "aria-label": "Words beside the pictures" },
        ...[listen.element, keptSound(take, analysis)],
        reading.element,
        again.element,
        pin.element,
        tap.element,
        roleLegend(),
      ),
    ),
  );
  void Promise.all([forms(), shapes.list()]).then(([rows, own]) =>
    settings.replaceChildren(
      takeSettings(analysis, take, rows, own, (wanted) => change(wanted, "The take is analysed anew.")),
    ),
  );
  return {
    frames,
    trouble,
    play: () => listen.toggle(),
    bind(next) {
      change = next;
    },
    tap: (event) => tap.tap(event),
    end() {
      for (const frame of frames) frame.end();
      reading.end();
      pin.end();
      tap.end();
      again.end();
      listen.end();
      staff.end();
    },
  };
}

function takeWays(take: TakeRow, analysis: Analysis): HTMLElement {
  return h(
    "div",
    { class: "take-ways" },
    h("a", { class: "button", href: `#/takes/${take.id}/findings` }, "Findings"),
    h("a", { class: "button", href: `#/takes/${take.id}/practice` }, "Practice sheet"),
    h("a", { class: "button", href: `#/compare?a=${take.id}` }, "Compare"),
    // Without beats there are no note values to write.
    analysis.alignment.method === "rubato"
      ? null
      : h(
          "a",
          { class: "button", href: `/api/takes/${take.id}/score.musicxml`, download: true },
          "Annotated score",
        ),
    h("a", { class: "button", href: `/api/takes/${take.id}/solo.mid`, download: true }, "Solo as MIDI"),
    h("a", { class: "button", href: `/api/takes/${take.id}/notes?format=csv`, download: true }, "Note table"),
  );
}

/** Opens the settings at the chart. */
function openChart(settings: HTMLElement): TemplateResult {
  const open = () => {
    const box = settings.querySelector("details");
    if (box === null) return;
    box.open = true;
    box.querySelector("summary")?.focus();
    box.scrollIntoView({ block: "nearest" });
  };
  return html`<button type="button" class="quiet" @click=${open}>Another chart</button>`;
}

function factLine(analysis: Analysis): HTMLElement {
  const { chart, alignment, source } = analysis;
  const solo = analysis.notes.reduce((n, note) => n + (note.solo ? 1 : 0), 0);
  return h(
    "p",
    { class: "take-facts" },
    [
      chart.name,
      withAccidentals(chart.key),
      `${chart.meter.beats}/${chart.meter.unit}`,
      `${count(alignment.choruses, "chorus", "choruses")} of ${chart.bars.length} bars`,
      `${solo} solo notes`,
      alignment.tempo ? `${Math.round(alignment.tempo.median)} quarter notes a minute` : null,
      clock(source.seconds),
    ]
      .filter(Boolean)
      .join(" · "),
  );
}

const PLACED: Readonly<Record<Analysis["alignment"]["method"], string>> = {
  notated: "Placed on the chart by its own notation",
  click: "Placed on the chart by one steady tempo",
  tracked: "Placed on the chart by following the beat",
  rubato: "There is no steady beat: placed on the chart by its harmony, so nothing is said of beats",
  anchored: "Placed on the chart through the moments that were pinned",
};

function howPlaced(analysis: Analysis): HTMLElement {
  const { method, confidence } = analysis.alignment;
  const proposed =
    analysis.chart.source === "proposed"
      ? " The chart was proposed from the left hand: please check it."
      : "";
  return h(
    "p",
    { class: "take-placed" },
    `${PLACED[method]} (bar lines ${percent(confidence)} sure).${proposed}`,
  );
}

function warnings(analysis: Analysis): HTMLElement | null {
  const list = analysis.warnings;
  if (list.length === 0) return null;
  return h(
    "details",
    { class: "warnings" },
    h("summary", {}, capital(count(list.length, "remark")), " on the file"),
    h(
      "ul",
      {},
      ...list.map((warning) =>
        h("li", {}, warning.where ? `${warning.message} (${warning.where})` : warning.message),
      ),
    ),
  );
}
