/** All corpora, and a new one. */
import { corpora } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { count } from "../shell/words.ts";

export const corporaPage: PageMaker = async (_parameters, _query, shell) => {
  const rows = await corpora.list();
  const name = h("input", { name: "corpus-name", required: true });
  const trouble = h("div", {});
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
        "Many takes read together: how they are spread, which ideas they share, where a pattern is played. Send files or a zip with a manifest; tables come out as CSV, NDJSON and Parquet.",
      ),
      rows.length === 0
        ? h("p", { class: "empty" }, "There is no corpus yet.")
        : h(
            "ul",
            { class: "words" },
            ...rows.map((row) =>
              h(
                "li",
                {},
                h("a", { href: `#/corpora/${row.id}` }, row.name),
                h(
                  "span",
                  { class: "faint" },
                  ` ${count(row.takes, "take")}${row.waiting > 0 ? `, ${row.waiting} waiting` : ""}${row.failed > 0 ? `, ${row.failed} could not be read` : ""}`,
                ),
              ),
            ),
          ),
      form,
      trouble,
    ),
  };
};
