/** A player's own page behind a link: what is worked on, the lessons that wait, and the player's own takes. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { StudentView } from "../../server/contract/students.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { fetchJson } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { PageMaker } from "../shell/page.ts";
import { day } from "../shell/words.ts";

export const studentPage: PageMaker = async ([id = ""]) => {
  const view = await fetchJson<StudentView>(`/players/${encodeURIComponent(id)}/view`);
  const host = h("div", { class: "stack" });
  drawnFrom(host, view, drawing);
  return { title: view.player.name, element: host };
};

const drawing = ({ player, lens, lessons, takes }: StudentView): TemplateResult => html`
  <section class="sheet">
    <h1>${player.name}</h1>
    ${
      lens === null
        ? nothing
        : html`<h2 class="small-head">What you work on</h2>
            <p class="lead"><strong>${lens.name}.</strong> ${lens.about}</p>`
    }
  </section>
  <section class="sheet student-lessons">
    <h2>Your lessons</h2>
    ${
      lessons.length === 0
        ? html`<p class="empty">No lesson waits.</p>`
        : html`<ul class="words">
            ${lessons.map(
              ({ id, title, handedOn, answer }) =>
                html`<li data-state=${answer === null ? "waits" : "answered"}>
                  <a href=${`#/students/${player.id}/lessons/${id}`}>${withAccidentals(title)}</a>, ${day(handedOn)}${
                    answer === null
                      ? html`: <strong>waits for you.</strong>`
                      : html`: answered by <a href=${`#/students/${player.id}/takes/${answer.take}`}>${answer.title}</a>.`
                  }
                </li>`,
            )}
          </ul>`
    }
  </section>
  <section class="sheet student-takes">
    <h2>Your takes</h2>
    ${
      takes.length === 0
        ? html`<p class="empty">No take yet.</p>`
        : html`<ul class="words">
            ${takes.map(
              ({ id, title, date, chartName, key }) =>
                html`<li>
                  <a href=${`#/students/${player.id}/takes/${id}`}>${title}</a>${[
                    date === null ? "" : day(date),
                    withAccidentals(chartName ?? key),
                  ]
                    .filter(Boolean)
                    .map((words) => `, ${words}`)}
                </li>`,
            )}
          </ul>`
    }
  </section>`;
