/** What is heard of a take's chart: its bars with how sure each is, to be corrected and confirmed. */

import type { ChartProposal, ProposedChart } from "../../server/contract/charts.ts";
import { percent, withAccidentals } from "../../src/words/index.ts";
import { proposals } from "../shell/api.ts";
import { fill, h } from "../shell/dom.ts";
import { refusalNote } from "../shell/refusal-note.ts";

export interface ProposalPanel {
  readonly element: HTMLElement;
  /** Listens to a file; null when there is none, or several. */
  hear(file: File | null): void;
  /** The chart as it now stands, in the chart format; null while there is none. */
  read(): string | null;
}

/** A bar below this confidence is marked. [practice] */
const DOUBTFUL = 0.4;

const FROM: Readonly<Record<ChartProposal["source"], string>> = {
  "source harmony": "These are the chord symbols printed in the score.",
  "source text": "These are the chord symbols written in the file.",
  comping: "This is what the accompanying hand seems to play.",
};

const UNHEARD =
  "Chord symbols in the file are used; where it has none, a chart is proposed from the accompanying hand, and the page of the take says so. The chart of a single file is shown here first.";

/** The panel; `changed` is called when a chart comes or goes. */
export function proposalPanel(changed: () => void): ProposalPanel {
  let heard: File | null = null;
  let chart: (() => string) | null = null;
  const element = h("div", { class: "proposal", "aria-live": "polite" }, h("p", { class: "hint" }, UNHEARD));

  function tell(...content: (HTMLElement | string)[]): void {
    chart = null;
    fill(element, ...content);
    changed();
  }

  async function listen(file: File): Promise<void> {
    tell(h("p", { class: "hint" }, "Listening for the chords…"));
    try {
      const proposal = await proposals(file);
      if (heard === file) show(proposal);
    } catch (error) {
      if (heard === file) tell(refusalNote(error));
    }
  }

  function show({ source, charts }: ChartProposal): void {
    const sheet = h("div", {});
    const choose = (index: number) => {
      chart = barSheet(sheet, charts[index]!);
      changed();
    };
    const choice = h(
      "select",
      { name: "proposed", onChange: () => choose(choice.selectedIndex) },
      ...charts.map(({ description, confidence }) =>
        h("option", {}, `${withAccidentals(description)}, ${percent(confidence)} sure`),
      ),
    );
    fill(
      element,
      h("p", { class: "hint" }, `${FROM[source]} Put right what is not so, then confirm it below.`),
      charts.length > 1 ? h("label", { class: "heard-as" }, "Heard as", choice) : null,
      sheet,
    );
    choose(0);
  }

  return {
    element,
    hear(file) {
      if (file === heard) return;
      heard = file;
      if (file === null) tell(h("p", { class: "hint" }, UNHEARD));
      else void listen(file);
    },
    read: () => chart?.() ?? null,
  };
}

/** Shows a proposed chart in fields; the answer reads what they hold. */
function barSheet(sheet: HTMLElement, proposed: ProposedChart): () => string {
  const key = h("input", { name: "proposed-key", value: proposed.key, autocomplete: "off", size: 4 });
  const idiom = h(
    "select",
    { name: "proposed-idiom" },
    ...(["blues", "standard"] as const).map((name) =>
      h("option", { value: name, selected: name === proposed.idiom }, name),
    ),
  );
  const bars = proposed.bars.map(({ bar, chords, confidence }) => {
    const field = h("input", {
      name: "proposed-bar",
      value: chords,
      autocomplete: "off",
      autocapitalize: "off",
      spellcheck: "false",
      "aria-label": `Bar ${bar}, ${percent(confidence)} sure`,
    });
    const sure = h("span", { class: "bar-sure", "aria-hidden": "true" }, percent(confidence));
    const doubtful = confidence < DOUBTFUL;
    const item = h(
      "li",
      { class: doubtful ? "doubtful" : "" },
      h("span", { class: "bar-number", "aria-hidden": "true" }, bar),
      field,
      sure,
    );
    field.addEventListener("input", () => {
      const own = field.value.trim() !== chords;
      item.classList.toggle("doubtful", doubtful && !own);
      sure.textContent = own ? "yours" : percent(confidence);
      field.setAttribute("aria-label", own ? `Bar ${bar}, yours` : `Bar ${bar}, ${percent(confidence)} sure`);
    });
    return { item, field };
  });
  const doubts = proposed.bars.filter(({ confidence }) => confidence < DOUBTFUL).length;
  fill(
    sheet,
    h("div", { class: "row" }, h("label", {}, "Key", key), h("label", {}, "Idiom", idiom)),
    doubts > 0
      ? h(
          "p",
          { class: "hint" },
          `${doubts} of ${bars.length} bars are less than ${percent(DOUBTFUL)} sure: they stand in dashes.`,
        )
      : null,
    h("ol", { class: "proposed-bars", "aria-label": "Bars of the chart" }, ...bars.map(({ item }) => item)),
  );
  const { beats, unit } = proposed.meter;
  return () =>
    [
      `key: ${key.value.trim()}`,
      `meter: ${beats}/${unit}`,
      `idiom: ${idiom.value}`,
      `| ${bars.map(({ field }) => field.value.trim() || "%").join(" | ")} |`,
    ].join("\n");
}
