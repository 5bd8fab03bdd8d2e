/** One corpus: what came of it in pictures that share one selection, a search, its tables to take along. */

import type { CorpusRow, Failure } from "../../server/contract/corpora.ts";
import type { MeasureSpreads, SharedIdea } from "../../server/contract/corpus-results.ts";
import { capital, clock, count, withAccidentals } from "../../src/words/index.ts";
import { forms } from "../shell/api.ts";
import { corpora, GROUPINGS, type Part, partOf } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import { readPatternWords, VIEWPOINTS } from "../shell/ideas.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { corpusIdeas } from "../views/corpus-ideas.ts";
import { CORPUS_MEASURES, scoreText } from "../views/corpus-measures.ts";
import { corpusOutliers } from "../views/corpus-outliers.ts";
import { corpusRoles } from "../views/corpus-roles.ts";
import { corpusSpreads } from "../views/corpus-spreads.ts";
import { framePlain } from "../views/plain-frame.ts";
import { corpusSearch } from "./corpus-search.ts";
import { corpusSender } from "./corpus-sender.ts";

const TABLES = ["notes", "phrases", "motifs", "placements", "choruses"] as const;

export const corpusPage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [corpus, formRows] = await Promise.all([corpora.get(id), forms()]);
  // What is chosen, all of it kept in the address: a grouping, one of its groups, a take, a kind of idea, a pattern.
  const chosen = {
    by: query.get("by") ?? "player",
    part: query.get("part"),
    take: query.get("take"),
    kind: query.get("kind") ?? "",
    alike: query.get("alike") ?? "",
    find: query.get("find") ?? "",
  };
  const keep = () =>
    shell.replaceQuery(
      new URLSearchParams(
        Object.entries(chosen).flatMap(([name, value]): [string, string][] =>
          value === null || value === "" ? [] : [[name, value]],
        ),
      ).toString(),
    );
  const part = (): Part => (chosen.part === null ? {} : (partOf(chosen.by, chosen.part) ?? {}));

  const facts = h("p", { class: "take-facts" });
  const choices = h("div", { class: "controls sheet" });
  const results = h("div", { class: "pictures" });
  const failures = h("div", {});
  const aboutTake = h("p", { class: "chosen-take", role: "status" });
  const search = corpusSearch(id, part, (alike, find) => {
    Object.assign(chosen, { alike, find });
    keep();
  });
  let spreads: MeasureSpreads | null = null;
  let ideas: readonly SharedIdea[] = [];

  const mark = () => {
    for (const sign of element.querySelectorAll<SVGElement>("[data-take]"))
      sign.classList.toggle("on", sign.dataset.take === chosen.take);
    const row = spreads?.rows.find((one) => one.take === chosen.take);
    aboutTake.replaceChildren(...(row && spreads ? takeWords(row, spreads.limit) : []));
  };
  const chooseTake = (take: string | null) => {
    chosen.take = take;
    keep();
    mark();
    const select = choices.querySelector<HTMLSelectElement>("[name=take]");
    if (select) select.value = take ?? "";
  };
  const choosePart = (value: string | null) => {
    chosen.part = value;
    keep();
    void show();
  };

  const show = async () => {
    results.setAttribute("aria-busy", "true");
    try {
      const meant = part();
      const [whole, summary, read, vocabulary, failed] = await Promise.all([
        corpora.summary(id, chosen.by, {}),
        corpora.summary(id, null, meant),
        corpora.spreads(id, meant),
        corpora.vocabulary(id, chosen.kind, meant),
        corpora.failures(id),
      ]);
      spreads = read;
      ideas = vocabulary.ideas;
      facts.textContent =
        whole.takes === 0
          ? "No take has been analysed yet. Send some; what comes of them is drawn here."
          : `${capital(count(summary.takes, "take"))}${summary.players > 0 ? ` by ${count(summary.players, "player")}` : ""}, ${summary.notes.toLocaleString("en")} solo notes, ${clock(summary.seconds)} of playing`;
      search.element.hidden = whole.takes === 0;
      const groups = whole.groups.map((group) => group.value).filter((value) => partOf(chosen.by, value));
      choices.hidden = whole.takes === 0;
      choices.replaceChildren(
        picker("Groups by", "by", chosen.by, [...GROUPINGS], (value) => {
          Object.assign(chosen, { by: value, part: null });
          choosePart(null);
        }),
        ...(groups.length === 0
          ? []
          : [
              picker(
                "Look at",
                "part",
                chosen.part ?? "",
                [["", "all takes"], ...groups.map((g) => [g, withAccidentals(g)] as const)],
                (value) => choosePart(value || null),
              ),
            ]),
        picker(
          "Point out",
          "take",
          chosen.take ?? "",
          [["", "no take"], ...spreads.rows.map((row) => [row.take, nameOf(row)] as const)],
          (value) => chooseTake(value || null),
        ),
        aboutTake,
      );
      failures.replaceChildren(...failureWords(id, failed));
      if (whole.takes === 0) {
        results.replaceChildren();
        return;
      }
      results.replaceChildren(
        framePlain(corpusSpreads(summary, spreads)),
        framePlain(corpusOutliers(spreads)),
        framePlain(corpusRoles(whole, chosen.by, chosen.part)),
        framePlain(corpusIdeas(ideas, vocabulary.takes), [
          picker(
            "Ideas alike in",
            "kind",
            chosen.kind,
            [["", "anything"], ...VIEWPOINTS.map((one) => [one.id, one.words] as const)],
            (value) => {
              chosen.kind = value;
              keep();
              void show();
            },
          ),
        ]),
      );
      mark();
    } catch (error) {
      results.replaceChildren(refusalNote(error, () => void show()));
    } finally {
      results.removeAttribute("aria-busy");
    }
  };

  const sender = corpusSender(id, formRows, () => void show(), corpus.takes === 0 && corpus.waiting === 0);
  const element = h(
    "div",
    { class: "stack" },
    heading(corpus, facts),
    sender.element,
    failures,
    choices,
    results,
    search.element,
  );
  element.addEventListener("drawn", mark);
  element.addEventListener("click", (event) => {
    const sign = (event.target as Element).closest<SVGElement>(
      "svg [data-take], svg [data-part], [data-idea]",
    );
    if (!sign) return;
    const { take, part: group, idea } = sign.dataset;
    if (take !== undefined) chooseTake(take === chosen.take ? null : take);
    else if (group !== undefined && partOf(chosen.by, group)) {
      choosePart(group === chosen.part ? null : group);
    } else if (idea !== undefined) {
      const wanted = ideas[Number(idea)];
      if (wanted) search.look({ viewpoint: wanted.viewpoint, symbols: wanted.pattern });
    }
  });
  void show().then(() => {
    if (chosen.find !== "") {
      const viewpoint = VIEWPOINTS.find((one) => one.id === chosen.alike)?.id ?? "chromatic interval";
      search.look({ viewpoint, symbols: readPatternWords(chosen.find, viewpoint) });
    }
  });
  return { title: corpus.name, element, end: () => sender.end() };
};

const nameOf = (row: MeasureSpreads["rows"][number]) =>
  row.player ? `${row.title}, ${row.player}` : row.title;

function picker(
  label: string,
  name: string,
  value: string,
  options: readonly (string | readonly [string, string])[],
  choose: (value: string) => void,
): HTMLLabelElement {
  return h(
    "label",
    {},
    `${label} `,
    h(
      "select",
      { name, onChange: (event: Event) => choose((event.target as HTMLSelectElement).value) },
      ...options.map((option) => {
        const [own, words] = typeof option === "string" ? [option, option] : option;
        return h("option", { value: own, selected: own === value }, words);
      }),
    ),
  );
}

function takeWords(row: MeasureSpreads["rows"][number], limit: number): (Node | string)[] {
  const said = CORPUS_MEASURES.flatMap((one) => {
    const [value, score] = [row.values[one.id], row.scores[one.id]];
    if (value === null || value === undefined) return [];
    const apart = score !== null && score !== undefined && Math.abs(score) > limit;
    return [`${one.short} ${one.say(value)}${apart ? ` (stands apart, ${scoreText(score)})` : ""}`];
  });
  return [h("a", { href: `#/takes/${row.take}` }, `Open ${nameOf(row)}`), `: ${said.join(", ")}.`];
}

function heading(corpus: CorpusRow, facts: HTMLElement): HTMLElement {
  return h(
    "header",
    { class: "take-head" },
    h("h1", {}, corpus.name),
    corpus.note ? h("p", {}, corpus.note) : null,
    facts,
    h(
      "details",
      {},
      h("summary", {}, "Take its tables along"),
      h(
        "ul",
        { class: "words" },
        ...TABLES.map((table) =>
          h(
            "li",
            {},
            `${capital(table)}: `,
            ...(["csv", "ndjson", "parquet"] as const).flatMap((format, i) => [
              i > 0 ? ", " : "",
              h("a", { href: `/api/corpora/${corpus.id}/${table}?format=${format}`, download: true }, format),
            ]),
          ),
        ),
        h(
          "li",
          {},
          h("a", { href: `/api/corpora/${corpus.id}/citation` }, "Versions, options and hashes for a paper"),
        ),
      ),
    ),
  );
}

function failureWords(id: string, failed: readonly Failure[]): HTMLElement[] {
  if (failed.length === 0) return [];
  return [
    h(
      "section",
      { class: "sheet" },
      h("h2", {}, `${capital(count(failed.length, "file"))} could not be read`),
      h(
        "ul",
        { class: "words" },
        ...failed.map((one) =>
          h(
            "li",
            {},
            h("a", { href: `/api/corpora/${id}/failures/${one.item}`, download: true }, one.fileName),
            ` ${one.message}${one.where ? ` (${one.where})` : ""}. ${one.todo}`,
          ),
        ),
      ),
    ),
  ];
}
