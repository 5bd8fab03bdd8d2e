/** One corpus: fill it, see what came of it, search it, take its tables along. */

import { forms } from "../shell/api.ts";
import { type CorpusRow, corpora, followJob, GROUPINGS, type Hit, type JobRow } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { capital, clock, count, keyName, place } from "../shell/words.ts";
import { measuresOfCorpus, rolesByGroup, sharedIdeas } from "../views/corpus-pictures.ts";
import { framePlain } from "../views/plain-frame.ts";
import { chartFields } from "./chart-fields.ts";

const TABLES = ["notes", "phrases", "motifs", "placements", "choruses"] as const;
const VIEWPOINTS = [
  "chromatic interval",
  "interval and rhythm",
  "degree",
  "contour",
  "rhythm",
  "finger",
] as const;

export const corpusPage: PageMaker = async (parameters, query, shell) => {
  const id = parameters[0] ?? "";
  const [corpus, formRows] = await Promise.all([corpora.get(id), forms()]);
  const results = h("div", { class: "pictures" });
  const failures = h("div", {});
  let unfollow = () => {};
  let by = query.get("by") ?? "player";

  const show = async () => {
    results.setAttribute("aria-busy", "true");
    try {
      const [summary, vocabulary, failed] = await Promise.all([
        corpora.summary(id, by),
        corpora.vocabulary(id),
        corpora.failures(id),
      ]);
      const grouping = h(
        "select",
        {
          onChange: (event: Event) => {
            by = (event.target as HTMLSelectElement).value;
            shell.keep(`by=${by}`);
            void show();
          },
        },
        ...GROUPINGS.map((one) => h("option", { value: one, selected: one === by }, one)),
      );
      results.replaceChildren(
        h(
          "p",
          { class: "take-facts" },
          `${capital(count(summary.takes, "take"))} by ${count(summary.players, "player")}, ${summary.notes.toLocaleString("en")} solo notes, ${clock(summary.seconds)} of playing`,
        ),
        framePlain(measuresOfCorpus(summary)),
        h("div", { class: "controls" }, h("label", {}, "Groups by ", grouping)),
        framePlain(rolesByGroup(summary, by)),
        framePlain(sharedIdeas(vocabulary.ideas, vocabulary.takes)),
      );
      failures.replaceChildren(
        ...(failed.length === 0
          ? []
          : [
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
            ]),
      );
    } catch (error) {
      results.replaceChildren(refusalNote(error, () => void show()));
    } finally {
      results.removeAttribute("aria-busy");
    }
  };

  void show();
  return {
    title: corpus.name,
    element: h(
      "div",
      { class: "stack" },
      heading(corpus),
      sender(
        id,
        formRows,
        (stop) => {
          unfollow = stop;
        },
        () => void show(),
      ),
      failures,
      results,
      searcher(id),
    ),
    end: () => unfollow(),
  };
};

function heading(corpus: CorpusRow): HTMLElement {
  return h(
    "header",
    { class: "take-head" },
    h("h1", {}, corpus.name),
    corpus.note ? h("p", {}, corpus.note) : null,
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

function sender(
  id: string,
  formRows: Parameters<typeof chartFields>[0],
  following: (stop: () => void) => void,
  done: () => void,
): HTMLElement {
  const chart = chartFields(formRows);
  const picker = h("input", {
    type: "file",
    id: "corpus-files",
    multiple: true,
    class: "file-input",
    accept: ".mid,.midi,.musicxml,.mxl,.xml,.zip,.csv,.json",
  });
  const chosen = h("span", { class: "faint" }, "MIDI, MusicXML, or a zip with a manifest");
  picker.addEventListener("change", () => {
    chosen.textContent = capital(count(picker.files?.length ?? 0, "file"));
  });
  const bar = h("progress", { max: 1, value: 0, hidden: true, "aria-label": "Progress of the job" });
  const words = h("p", { class: "hint", role: "status" });
  const cancel = h("button", { type: "button", hidden: true }, "Stop the job");
  const trouble = h("div", {});
  const report = (job: JobRow) => {
    const ended = job.done + job.failed + job.cancelled;
    bar.hidden = false;
    bar.max = Math.max(1, job.total);
    bar.value = ended;
    const left = job.secondsLeft ? `, about ${clock(job.secondsLeft)} left` : "";
    words.textContent =
      job.state === "done"
        ? `${capital(count(job.done, "take"))} analysed, ${job.failed} could not be read.`
        : job.state === "cancelled"
          ? `Stopped; ${count(job.done, "take")} stay.`
          : `${ended} of ${job.total}${job.takesPerSecond ? `, ${job.takesPerSecond.toFixed(1)} a second` : ""}${left}`;
    cancel.hidden = job.state === "done" || job.state === "cancelled";
    if (cancel.hidden) done();
  };
  const form = h(
    "form",
    {},
    h(
      "div",
      { class: "drop" },
      h("label", { class: "button", for: "corpus-files" }, "Choose files"),
      picker,
      chosen,
    ),
    chart.element,
    h("p", { class: "hint" }, "A manifest's own charts go before this one."),
    h("button", { class: "main", type: "submit" }, "Send"),
    bar,
    words,
    cancel,
    trouble,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    trouble.replaceChildren();
    const body = new FormData();
    for (const file of picker.files ?? []) body.append("file", file, file.name);
    for (const [name, value] of Object.entries(chart.read())) body.append(name, value);
    corpora
      .send(id, body)
      .then((job) => {
        report(job);
        cancel.onclick = () => void corpora.cancel(job.id).then(report);
        following(followJob(job.id, report));
      })
      .catch((error) => trouble.replaceChildren(refusalNote(error)));
  });
  return h("details", { class: "sheet" }, h("summary", {}, "Send takes"), form);
}

function searcher(id: string): HTMLElement {
  const symbols = h("input", {
    name: "symbols",
    required: true,
    "aria-describedby": "symbols-hint",
    value: "-1 -2 -2",
  });
  const viewpoint = h("select", {}, ...VIEWPOINTS.map((one) => h("option", { value: one }, one)));
  const edits = h("input", { type: "number", min: 0, max: 4, value: 0 });
  const hits = h("div", {});
  const form = h(
    "form",
    { class: "sheet" },
    h("h2", {}, "Where is a pattern played?"),
    h(
      "div",
      { class: "row" },
      h("label", {}, "Pattern", symbols),
      h("label", {}, "Alike in", viewpoint),
      h("label", {}, "Notes that may differ", edits),
      h("button", { class: "main", type: "submit" }, "Search"),
    ),
    h(
      "p",
      { class: "hint", id: "symbols-hint" },
      "Intervals in semitones (-1 is a half step down), fingers, degrees: as a motif's pattern is written, with spaces.",
    ),
    hits,
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const list = symbols.value
      .trim()
      .split(/[\s,]+/)
      .map((one) => (/^[+-]?\d+(\.\d+)?$/.test(one) && viewpoint.value !== "degree" ? Number(one) : one));
    corpora
      .search(id, { viewpoint: viewpoint.value, symbols: list, maxEdits: Number(edits.value), limit: 100 })
      .then(({ found, hits: list_ }) => hits.replaceChildren(...hitWords(found, list_)))
      .catch((error) => hits.replaceChildren(refusalNote(error)));
  });
  return form;
}

function hitWords(found: number, hits: readonly Hit[]): HTMLElement[] {
  if (found === 0)
    return [
      h(
        "p",
        { class: "empty" },
        "It is played nowhere in this corpus. Let a note differ, or shorten the pattern.",
      ),
    ];
  return [
    h(
      "p",
      {},
      `${capital(count(found, "place"))}${found > hits.length ? `; the closest ${hits.length} are listed` : ""}.`,
    ),
    h(
      "ul",
      { class: "words" },
      ...hits.map((hit) =>
        h(
          "li",
          {},
          h("a", { href: `#/takes/${hit.take}?note=${hit.firstNote}` }, `${hit.take}, ${place(hit)}`),
          h("span", { class: "faint" }, ` … ${hit.before.map(keyName).join(" ")} `),
          h("strong", {}, hit.pitches.map(keyName).join(" ")),
          h(
            "span",
            { class: "faint" },
            ` ${hit.after.map(keyName).join(" ")} …${hit.edits > 0 ? ` (${count(hit.edits, "note")} different)` : ""}`,
          ),
        ),
      ),
    ),
  ];
}
