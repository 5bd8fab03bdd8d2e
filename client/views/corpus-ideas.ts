/** The motif vocabulary of a corpus: the ideas that its takes share, by the number of takes that hold them. */
import { max, scaleLinear } from "d3";
import type { SharedIdea } from "../../server/contract/corpus-results.ts";
import { count } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { printedPattern } from "../shell/printed-pattern.ts";
import type { PlainPicture } from "./plain-frame.ts";
import { shortened } from "./shortened.ts";
import { VIEWPOINT_WORDS } from "./viewpoint-words.ts";

const ROW = 46;

const wordsOf = ({ viewpoint, pattern }: SharedIdea) => printedPattern({ viewpoint, symbols: pattern });

/** What most takes share is said only where two share it. */
function titleOf(ideas: readonly SharedIdea[]): string {
  return ideas.length === 0 || ideas.some((idea) => idea.takes > 1)
    ? "The ideas that most takes share"
    : "No idea is shared: each returns in one take alone";
}

export function corpusIdeas(ideas: readonly SharedIdea[], takes: number): PlainPicture {
  return {
    id: "corpus-ideas",
    title: titleOf(ideas),
    units: `Length of a bar: number of takes, of ${takes.toLocaleString("en")}, in which the pattern is a motif. Beside it: how often it is played in all. A click looks for it in the whole corpus.`,
    empty:
      ideas.length === 0
        ? "No pattern returns often enough in a take to be a motif. In few or short takes that is usual."
        : null,
    draw(width) {
      const most = max(ideas, (idea) => idea.takes) ?? 1;
      const x = scaleLinear([0, most], [0, width - 190]);
      const svg = s("svg", { viewBox: `0 0 ${width} ${ideas.length * ROW}`, class: "corpus-ideas" });
      ideas.forEach((idea, i) => {
        const y = i * ROW;
        const length = Math.max(2, x(idea.takes));
        svg.append(
          s(
            "g",
            { class: "idea-row", "data-idea": i, "data-occurrences": idea.occurrences },
            s("rect", { class: "row-field", x: 0, y, width, height: ROW }),
            s("text", { class: "label strong", x: 2, y: y + 16 }, shortened(wordsOf(idea), width - 150, 7)),
            s(
              "text",
              { class: "label faint", x: width, y: y + 16, "text-anchor": "end" },
              VIEWPOINT_WORDS[idea.viewpoint],
            ),
            s("rect", {
              class: "bin",
              x: 2,
              y: y + 23,
              width: length.toFixed(1),
              height: 12,
              "data-takes": idea.takes,
            }),
            s(
              "text",
              { class: "figure", x: (length + 8).toFixed(1), y: y + 33 },
              `${count(idea.takes, "take")}, played ${idea.occurrences} times`,
            ),
          ),
        );
      });
      return svg;
    },
    table: () => ({
      columns: ["Pattern", "Kind", "Notes", "Takes", "Players", "Played"],
      rows: ideas.map((idea) => [
        wordsOf(idea),
        VIEWPOINT_WORDS[idea.viewpoint],
        idea.notes,
        idea.takes,
        idea.players,
        idea.occurrences,
      ]),
    }),
  };
}
