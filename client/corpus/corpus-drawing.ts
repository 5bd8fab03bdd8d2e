/** One corpus, as it is seen: its head, what may be chosen, and its pictures. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import type { CorpusRow, Failure } from "../../server/contract/corpora.ts";
import { capital, count, withAccidentals } from "../../src/words/index.ts";
import { GROUPINGS } from "../shell/corpora.ts";
import { fieldText } from "../shell/drawn-from.ts";
import { VIEWPOINTS } from "../shell/ideas.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { corpusIdeas } from "../views/corpus-ideas.ts";
import { corpusOutliers } from "../views/corpus-outliers.ts";
import { corpusRoles } from "../views/corpus-roles.ts";
import { corpusSpreads } from "../views/corpus-spreads.ts";
import { framePlain } from "../views/plain-frame.ts";
import {
  type CorpusChoice,
  type CorpusRead,
  type CorpusState,
  choose,
  factsWords,
  groupBy,
  groupsToChoose,
  nameOf,
  pointedOut,
  repeatsByTake,
  takeWords,
} from "./corpus-model.ts";

export interface CorpusWays {
  readonly change: (next: (state: CorpusState) => CorpusState) => void;
  readonly readAgain: () => void;
}

/** What the page is made of beside its own fields. */
export interface CorpusParts {
  readonly sender: HTMLElement;
  readonly search: HTMLElement;
  /** The choice of ideas, which stands in their picture. */
  readonly kinds: HTMLElement;
}

const TABLES = ["notes", "phrases", "motifs", "placements", "choruses"] as const;
const FORMATS = ["csv", "ndjson", "parquet"] as const;

export function corpusDrawing(
  state: CorpusState,
  corpus: CorpusRow,
  parts: CorpusParts,
  ways: CorpusWays,
): TemplateResult {
  const { read, refused, choice } = state;
  const none = (read?.whole.takes ?? 0) === 0;
  return html`${heading(corpus, factsWords(state))}
    ${parts.sender}
    ${read === null || read.failures.length === 0 ? nothing : failureList(corpus.id, read.failures)}
    ${read === null || read.repeated.length === 0 ? nothing : repeatedList(read)}
    <div class="controls sheet" ?hidden=${none}>${choices(state, ways)}</div>
    <div class="pictures" aria-busy=${String(state.reading)}>
      ${guard([read, refused], () =>
        refused !== null
          ? refusalNote(refused, ways.readAgain)
          : none || read === null
            ? nothing
            : pictures(read, choice, parts.kinds),
      )}
    </div>
    <div ?hidden=${none}>${parts.search}</div>`;
}

function pictures(read: CorpusRead, choice: CorpusChoice, kinds: HTMLElement): HTMLElement[] {
  const { whole, summary, spreads, vocabulary } = read;
  return [
    framePlain(corpusSpreads(summary, spreads)),
    framePlain(corpusOutliers(spreads)),
    framePlain(corpusRoles(whole, choice.by, choice.part || null)),
    framePlain(corpusIdeas(vocabulary.ideas, vocabulary.takes), [kinds]),
  ];
}

function choices(state: CorpusState, { change }: CorpusWays): TemplateResult {
  const { choice, read } = state;
  const groups = groupsToChoose(state);
  const take = pointedOut(state);
  const ofTakes = (read?.spreads.rows ?? []).map((row): Option => [row.take, nameOf(row)]);
  return html`${picker(
    "Groups by",
    "by",
    choice.by,
    GROUPINGS.map((one): Option => [one, one]),
    (by) => change((now) => groupBy(now, by)),
  )}
  ${
    groups.length === 0
      ? nothing
      : picker(
          "Look at",
          "part",
          choice.part,
          [["", "all takes"], ...groups.map((group): Option => [group, withAccidentals(group)])],
          (part) => change((now) => choose(now, { part })),
        )
  }
  ${picker("Point out", "take", choice.take, [["", "no take"], ...ofTakes], (one) =>
    change((now) => choose(now, { take: one })),
  )}
  <p class="chosen-take" role="status">
    ${
      take === null || read === null
        ? nothing
        : html`<a href="#/takes/${take.take}">Open ${nameOf(take)}</a>: ${takeWords(take, read.spreads.limit)}.`
    }
  </p>`;
}

type Option = readonly [value: string, words: string];

/** The kinds of ideas that can be shown. */
export const kindPicker = (kind: string, change: CorpusWays["change"]): TemplateResult =>
  picker(
    "Ideas alike in",
    "kind",
    kind,
    [["", "anything"], ...VIEWPOINTS.map(({ id, words }): Option => [id, words])],
    (chosen) => change((now) => choose(now, { kind: chosen })),
  );

const picker = (
  label: string,
  name: string,
  value: string,
  options: readonly Option[],
  take: (value: string) => void,
): TemplateResult => html`<label>${label}
  <select name=${name} @change=${(event: Event) => take(fieldText(event))}>
    ${options.map(([own, words]) => html`<option value=${own} .selected=${own === value}>${words}</option>`)}
  </select></label>`;

const heading = (corpus: CorpusRow, facts: string): TemplateResult => html`<header class="take-head">
  <h1>${corpus.name}</h1>
  ${corpus.note ? html`<p>${corpus.note}</p>` : nothing}
  <p class="take-facts">${facts}</p>
  <details>
    <summary>Take its tables along</summary>
    <ul class="words">
      ${TABLES.map((table) => html`<li>${capital(table)}: ${FORMATS.map((format, i) => tableLink(corpus.id, table, format, i > 0))}</li>`)}
      <li><a href="/api/corpora/${corpus.id}/citation">Versions, options and hashes for a paper</a></li>
    </ul>
  </details>
</header>`;

const tableLink = (id: string, table: string, format: string, more: boolean): TemplateResult =>
  html`${more ? ", " : ""}<a href="/api/corpora/${id}/${table}?format=${format}" download>${format}</a>`;

const failureList = (id: string, failed: readonly Failure[]): TemplateResult => html`<section class="sheet">
  <h2>${capital(count(failed.length, "file"))} could not be read</h2>
  <ul class="words">
    ${failed.map(
      ({ item, fileName, message, where, todo }) => html`<li>
        <a href="/api/corpora/${id}/failures/${item}" download>${fileName}</a>
        ${failureWords(fileName, message, where)} ${todo}
      </li>`,
    )}
  </ul>
</section>`;

/** What is wrong with a file whose name stands before it already; where among the bytes helps nobody to mend it. */
function failureWords(name: string, message: string, where: string | null | undefined): string {
  const said = message.startsWith(`${name} `) ? message.slice(name.length + 1) : message;
  return `${said}${where && !/^byte \d+$/.test(where) ? ` (${where})` : ""}.`;
}

/** Folded: that a file came twice is to be known, and asks for nothing. */
const repeatedList = ({ repeated, spreads }: CorpusRead): TemplateResult => {
  const titles = new Map(spreads.rows.map((row) => [row.take, nameOf(row)]));
  return html`<details class="sheet">
    <summary>${capital(count(repeated.length, "file"))} left out, since the corpus has the same bytes</summary>
    <ul class="words">
      ${repeatsByTake(repeated).map(
        ([take, names]) => html`<li>${names.join(", ")}: the same as
          <a href="#/takes/${take}">${titles.get(take) ?? "this take"}</a>, which counts once.</li>`,
      )}
    </ul>
  </details>`;
};
