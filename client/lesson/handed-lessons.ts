/** The lessons that wait on a player's page, and the takes that have answered them. */
import { html, nothing, type TemplateResult } from "lit-html";
import type { HandedLesson } from "../../server/contract/lessons.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { day } from "../shell/words.ts";
import { readHanded, takeLessonBack } from "./lesson-api.ts";

interface HandedState {
  readonly lessons: readonly HandedLesson[];
  readonly refused: unknown;
}

export async function handedLessons(player: string): Promise<HTMLElement> {
  const host = h("section", { class: "sheet handed-lessons" });
  const first: HandedState = { lessons: await readHanded(player), refused: null };
  const { change } = drawnFrom(host, first, (state) => drawing(state, player, (id) => void takeBack(id)));

  async function takeBack(id: string): Promise<void> {
    try {
      await takeLessonBack(player, id);
      change((now) => ({ lessons: now.lessons.filter((one) => one.id !== id), refused: null }));
    } catch (error) {
      change((now) => ({ ...now, refused: error }));
    }
  }
  return host;
}

function drawing(
  { lessons, refused }: HandedState,
  player: string,
  takeBack: (id: string) => void,
): TemplateResult {
  return html`<h2>Lessons</h2>
    ${refused === null ? nothing : refusalNote(refused)}
    ${
      lessons.length === 0
        ? html`<p class="empty">No lesson was handed out. One can be prepared without a take.</p>`
        : html`<ul class="words">
            ${lessons.map(
              (lesson) =>
                html`<li data-lesson=${lesson.id} data-state=${lesson.answer === null ? "waits" : "answered"}>
                  <a href=${`#/players/${player}/lessons/${lesson.id}`}>${withAccidentals(lesson.title)}</a>,
                  ${day(lesson.handedOn)}: ${answered(lesson)}
                  <button type="button" class="quiet no-print" @click=${() => takeBack(lesson.id)}>Take back</button>
                </li>`,
            )}
          </ul>`
    }
    <p class="no-print"><a class="button" href=${`#/lesson?player=${player}`}>Prepare a lesson</a></p>`;
}

function answered({ answer }: HandedLesson): TemplateResult {
  if (answer === null) return html`<strong>waits for a take.</strong>`;
  const when = answer.date === null ? "" : `, ${day(answer.date)}`;
  return html`answered by <a href=${`#/takes/${answer.take}`}>${answer.title}</a>${when}.`;
}
