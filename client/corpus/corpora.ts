/** All corpora, and a new one. */

import type { CorpusRow } from "../../server/contract/corpora.ts";
import { count } from "../../src/words/index.ts";
import { corpora } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker, Shell } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";

export const corporaPage: PageMaker = async (_parameters, _query, shell) => {
  const list = h("div", {});
  const trouble = h("div", {});
  const show = (rows: readonly CorpusRow[]) =>
    list.replaceChildren(
      rows.length === 0
        ? h("p", { class: "empty" }, "There is no corpus yet.")
        : h("ul", { class: "words" }, ...rows.map((row) => corpusLine(row, shell, refresh))),
    );
  const refresh = () => {
    corpora
      .list()
      .then(show)
      .catch((error) => trouble.replaceChildren(refusalNote(error, refresh)));
  };
  show(await corpora.list());
  const name = h("input", { name: "corpus-name", required: true });
  const form = h(
    "form",
    { class: "row" },
    h("label", {}, "Name of a new corpus", name),
    h("button", { class: "main", type: "submit" }, "Begin it"),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    if (name.value.trim() === "") return;
    corpora
      .create(name.value.trim())
      .then((corpus) => shell.go(`/corpora/${corpus.id}`))
      .catch((error) => trouble.replaceChildren(refusalNote(error)));
  });
  return {
    title: "Corpora",
    element: h(
      "section",
      { class: "sheet" },
      h("h1", {}, "Corpora"),
      h(
        "p",
        { class: "lead" },
        "Many takes read together: how they are spread, which stand apart, which ideas they share, where a pattern is played. Send files or a zip with a manifest; tables come out as CSV, NDJSON and Parquet.",
      ),
      list,
      form,
      trouble,
    ),
  };
};

function corpusLine(row: CorpusRow, shell: Shell, refresh: () => void): HTMLLIElement {
  const remove = async () => {
    await corpora.remove(row.id);
    refresh();
    shell.notify(
      `“${row.name}” is deleted with its takes.${row.waiting > 0 ? " What was still waiting is not read." : ""}`,
      { label: "Undo", run: () => void corpora.restore(row.id).then(refresh) },
    );
  };
  return h(
    "li",
    { class: "corpus-line" },
    h("a", { href: `#/corpora/${row.id}` }, row.name),
    h(
      "span",
      { class: "faint" },
      ` ${count(row.takes, "take")}${row.waiting > 0 ? `, ${row.waiting} waiting` : ""}${row.failed > 0 ? `, ${row.failed} could not be read` : ""}`,
    ),
    h(
      "button",
      { type: "button", class: "quiet", "aria-label": `Delete ${row.name}`, onClick: () => void remove() },
      "Delete",
    ),
  );
}
