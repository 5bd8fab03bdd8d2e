/** Filling a corpus: choose files and their chart, send them, and follow the job. */

import type { JobProgress, JobRow } from "../../server/contract/corpora.ts";
import { capital, clock, count } from "../../src/words/index.ts";
import { chartFields } from "../parts/chart-fields.ts";
import type { forms } from "../shell/api.ts";
import { corpora, followJob } from "../shell/corpora.ts";
import { h } from "../shell/dom.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { endedWords } from "./corpus-model.ts";

/** `done` is called when the job has ended; `end` stops following it. */
export function corpusSender(
  id: string,
  formRows: Awaited<ReturnType<typeof forms>>,
  done: () => void,
  open: boolean,
): { element: HTMLElement; end(): void } {
  let unfollow = () => {};
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
  const report = (job: JobRow & Partial<JobProgress>) => {
    const ended = job.done + job.failed + job.cancelled + job.repeated;
    bar.hidden = false;
    bar.max = Math.max(1, job.total);
    bar.value = ended;
    const left = job.secondsLeft ? `, about ${clock(job.secondsLeft)} left` : "";
    words.textContent =
      job.state === "done"
        ? endedWords(job)
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
        unfollow = followJob(job.id, report);
      })
      .catch((error) => trouble.replaceChildren(refusalNote(error)));
  });
  return {
    element: h("details", { class: "sheet", open }, h("summary", {}, "Send takes"), form),
    end: () => unfollow(),
  };
}
