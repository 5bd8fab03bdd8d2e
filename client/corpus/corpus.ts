/** One corpus: what came of it in pictures that share one selection, a search, its tables to take along. */
import { render } from "lit-html";
import { forms } from "../shell/api.ts";
import { corpora } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { PageMaker } from "../shell/page.ts";
import { corpusDrawing, kindPicker } from "./corpus-drawing.ts";
import {
  answered,
  type CorpusRead,
  type CorpusState,
  choose,
  corpusQuery,
  corpusRefused,
  isSameReading,
  openedAt,
  partMeant,
  patternAsked,
  pressPart,
  pressTake,
  reading,
} from "./corpus-model.ts";
import { corpusSearch } from "./corpus-search.ts";
import { corpusSender } from "./corpus-sender.ts";

export const corpusPage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [corpus, formRows] = await Promise.all([corpora.get(id), forms()]);
  const host = h("div", { class: "stack" });
  const kinds = h("span", {});
  const sender = corpusSender(id, formRows, () => void read(), corpus.takes === 0 && corpus.waiting === 0);
  const search = corpusSearch(
    id,
    () => partMeant(state()),
    (alike, find) => change((now) => choose(now, { alike, find })),
  );
  const parts = { sender: sender.element, search: search.element, kinds };
  const { state, change: draw } = drawnFrom(host, openedAt(query), (now) => {
    render(kindPicker(now.choice.kind, change), kinds);
    return corpusDrawing(now, corpus, parts, { change, readAgain: () => void read() });
  });
  host.addEventListener("drawn", () => markTake(host, state().choice.take));
  host.addEventListener("click", ({ target }) => press(target as Element));

  /** What is chosen stands in the address, is marked in the pictures, and is read where it was not yet. */
  function change(next: (now: CorpusState) => CorpusState): void {
    const before = state().choice;
    draw(next);
    const { choice } = state();
    shell.replaceQuery(corpusQuery(state()));
    markTake(host, choice.take);
    if (!isSameReading(before, choice)) void read();
  }

  async function read(): Promise<void> {
    draw(reading);
    const asked = state();
    try {
      const answer = await readCorpus(id, asked);
      draw((now) => answered(now, asked.choice, answer));
      markTake(host, state().choice.take);
    } catch (error) {
      draw((now) => corpusRefused(now, error));
    }
  }

  /** A sign of a picture: a take, a group, or an idea that is then looked for. */
  function press(target: Element): void {
    const sign = target.closest<SVGElement>("svg [data-take], svg [data-part], [data-idea]");
    const { take, part, idea } = sign?.dataset ?? {};
    if (take !== undefined) change((now) => pressTake(now, take));
    else if (part !== undefined) change((now) => pressPart(now, part));
    else if (idea !== undefined) {
      const wanted = state().read?.vocabulary.ideas[Number(idea)];
      if (wanted) search.look({ viewpoint: wanted.viewpoint, symbols: wanted.pattern });
    }
  }

  void read().then(() => {
    const asked = patternAsked(state());
    if (asked !== null) search.look(asked);
  });
  return { title: corpus.name, element: host, end: () => sender.end() };
};

async function readCorpus(id: string, state: CorpusState): Promise<CorpusRead> {
  const { by, kind } = state.choice;
  const meant = partMeant(state);
  const [whole, summary, spreads, vocabulary, failures, repeated] = await Promise.all([
    corpora.summary(id, by, {}),
    corpora.summary(id, null, meant),
    corpora.spreads(id, meant),
    corpora.vocabulary(id, kind, meant),
    corpora.failures(id),
    corpora.repeated(id),
  ]);
  return { whole, summary, spreads, vocabulary, failures, repeated };
}

/** The pictures draw themselves; which of their signs is the take that is pointed out is marked on them. */
function markTake(host: HTMLElement, take: string): void {
  for (const sign of host.querySelectorAll<SVGElement>("[data-take]")) {
    sign.classList.toggle("on", sign.dataset.take === take);
  }
}
