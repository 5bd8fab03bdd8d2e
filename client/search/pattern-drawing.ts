/** The pattern that is looked for, as it is seen: keys to play, notes that were picked, ideas, or a line to write in. */
import { html, type TemplateResult } from "lit-html";
import type { IdeaRow } from "../../server/contract/library.ts";
import type { MotifViewpoint } from "../../src/account.ts";
import { isBlackKey } from "../../src/pitch/index.ts";
import type { Finger } from "../../src/take/index.ts";
import { capital, withAccidentals } from "../../src/words/index.ts";
import type { KeyboardInput } from "../draw/keyboard-input.ts";
import { s } from "../shell/dom.ts";
import { type Change, fieldText } from "../shell/drawn-from.ts";
import { bareKeyName } from "../shell/words.ts";
import {
  changePlayed,
  chooseIdea,
  choosePatternWay,
  clearPlayed,
  fingerOf,
  ideaWords,
  ordersOf,
  type PatternState,
  type PatternWay,
  takeBackNote,
  withLengths,
} from "./pattern-model.ts";

const WAYS: Readonly<Record<PatternWay, string>> = {
  play: "Play it",
  picked: "Notes picked from a take",
  idea: "One of the kept ideas",
  write: "Write it",
};

const LENGTHS: readonly (readonly [number, string])[] = [
  [0.25, "¼ beat"],
  [1 / 3, "⅓ beat"],
  [0.5, "½ beat"],
  [2 / 3, "⅔ beat"],
  [1, "1 beat"],
  [1.5, "1½ beats"],
  [2, "2 beats"],
  [4, "4 beats"],
];

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];

const HINTS: Readonly<Record<MotifViewpoint, string>> = {
  "chromatic interval": "Semitones up and down: +3 +2 -1",
  "interval and rhythm": "Semitones and length of each step: +3, 0.5 beats; +2, 1 beat",
  degree: "Degrees on the chord that sounds: b3 9 1",
  contour: "Steps, leaps and repeats: step up; leap down; repeat",
  rhythm: "Lengths from note to note: 0.5 beats; 1 beat",
  finger: "Fingers, 1 the thumb: 2 3 4 2",
};

export function patternDrawing(
  state: PatternState,
  ideas: readonly IdeaRow[],
  board: KeyboardInput,
  change: Change<PatternState>,
): TemplateResult {
  const ways = (Object.keys(WAYS) as PatternWay[]).filter((way) => way !== "picked" || state.picked !== null);
  markKeys(board, state);
  return html`<fieldset class="pattern-input">
    <legend>The pattern</legend>
    <div class="choices">
      ${ways.map(
        (way) => html`<label class="choice"
          ><input type="radio" name="way" value=${way} .checked=${way === state.way}
            @change=${() => change((now) => choosePatternWay(now, way, ideas))}> ${WAYS[way]}</label>`,
      )}
    </div>
    <div class="play-pattern" ?hidden=${state.way !== "play"}>
      ${board.element}
      <p class="hint">${octaveWords(state.lowestKey)}</p>
      ${playedNotes(state, change)}
      ${playedTools(state, change)}
    </div>
    <div ?hidden=${state.way !== "picked"}>
      <p>${capital(state.picked?.words ?? "")}</p>
      <p class="picked-notes">${(state.picked?.names ?? []).map(withAccidentals).join(" ")}</p>
    </div>
    <div class="row" ?hidden=${state.way !== "idea"}>
      <label ?hidden=${ideas.length === 0}>Idea
        <select name="idea" @change=${(event: Event) => change((now) => chooseIdea(now, fieldText(event), ideas))}>
          ${ideas.map(
            ({ id, name }) => html`<option value=${id} .selected=${id === state.idea}>${name}</option>`,
          )}
        </select></label>
      <p class="hint">${ideaWords(state, ideas)}</p>
    </div>
    <div ?hidden=${state.way !== "write"}>
      <label>Pattern
        <input name="symbols" autocomplete="off" aria-describedby="symbols-hint" .value=${state.written}
          @input=${(event: Event) => change((now) => ({ ...now, written: fieldText(event) }))}></label>
      <p class="hint" id="symbols-hint">${HINTS[state.viewpoint]}</p>
    </div>
  </fieldset>`;
}

const playedNotes = (state: PatternState, change: Change<PatternState>): TemplateResult => html`<ol
  class="played-notes" aria-label="Notes of the pattern">
  ${state.played.length === 0 ? html`<li class="faint">No note yet.</li>` : ""}
  ${state.played.map(
    ({ pitch }, i) => html`<li>
      <strong>${bareKeyName(pitch)}</strong>
      ${withLengths(state) ? lengthChoice(state, i, change) : ""}
      ${state.viewpoint === "finger" ? fingerChoice(state, i, change) : ""}
    </li>`,
  )}
</ol>`;

const lengthChoice = (
  { played }: PatternState,
  i: number,
  change: Change<PatternState>,
): TemplateResult => html`<select aria-label="Length of note ${i + 1}"
  @change=${(event: Event) => change((now) => changePlayed(now, i, { beats: Number(fieldText(event)) }))}>
  ${LENGTHS.map(
    ([beats, words]) =>
      html`<option value=${beats} .selected=${beats === played[i]!.beats}>${words}</option>`,
  )}
</select>`;

const fingerChoice = (
  state: PatternState,
  i: number,
  change: Change<PatternState>,
): TemplateResult => html`<select aria-label="Finger of note ${i + 1}"
  @change=${(event: Event) =>
    change((now) => changePlayed(now, i, { finger: Number(fieldText(event)) as Finger }))}>
  ${FINGERS.map(
    (finger) =>
      html`<option value=${finger} .selected=${finger === fingerOf(state, i)}>finger ${finger}</option>`,
  )}
</select>`;

function playedTools(
  { played, chord, viewpoint }: PatternState,
  change: Change<PatternState>,
): TemplateResult {
  const none = played.length === 0;
  return html`<div class="row">
    <button type="button" ?disabled=${none} @click=${() => change(takeBackNote)}>Take back the last</button>
    <button type="button" ?disabled=${none} @click=${() => change(clearPlayed)}>Clear</button>
    <label ?hidden=${viewpoint !== "degree"}>Over the chord
      <input name="over-chord" size="8" autocomplete="off" .value=${chord}
        @input=${(event: Event) => change((now) => ({ ...now, chord: fieldText(event) }))}></label>
  </div>`;
}

function octaveWords(lowest: number): string {
  return `Or type: the middle row of letters from C${Math.floor(lowest / 12) - 1} up, black keys above it; the first two letters below move an octave.`;
}

/** The keys that were struck, with their places in the pattern. */
function markKeys(board: KeyboardInput, state: PatternState): void {
  board.marks.replaceChildren();
  for (const [pitch, order] of ordersOf(state)) {
    const x = board.keys.centre(pitch);
    const y = isBlackKey(pitch) ? 62 : 104;
    board.marks.append(
      s("circle", { class: "finger-spot", cx: x, cy: y, r: 9 }),
      s("text", { class: "finger-number", x, y: y + 4, "text-anchor": "middle" }, order),
    );
  }
}
