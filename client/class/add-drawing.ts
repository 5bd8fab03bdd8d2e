/** The panel in which solos are dropped, as it is seen. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import { repeat } from "lit-html/directives/repeat.js";
import { SOUND_KINDS } from "../listen/hear-file.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import {
  type AddState,
  type ChosenFile,
  canBeLeftOut,
  leaveOut,
  sendWords,
  sizeWords,
  stageWords,
} from "./add-model.ts";
import { knownNote } from "./known-file.ts";

const KINDS = `.mid,.midi,.musicxml,.mxl,.xml,${SOUND_KINDS}`;

/** What the panel is made of beside its own fields. */
export interface AddParts {
  readonly listening: HTMLElement;
  readonly chart: HTMLElement;
  readonly hand: HTMLElement;
  readonly player: HTMLElement;
  /** Names that the player's field proposes. */
  readonly names: HTMLElement;
}

export interface AddWays {
  readonly add: (files: readonly File[]) => void;
  readonly change: (next: (state: AddState) => AddState) => void;
}

export const addDrawing = (
  state: AddState,
  parts: AddParts,
  { add, change }: AddWays,
): TemplateResult => html`
  <div class="drop">
    <p class="drop-words">
      <strong>Drop a solo here</strong> or anywhere on the page: a MIDI recording, a MusicXML score, or a sound
      recording of a piano.
    </p>
    <label class="button" for="take-files">Choose files</label>
    <input type="file" id="take-files" accept=${KINDS} multiple class="file-input"
      @change=${({ target }: Event) => add(takenFrom(target as HTMLInputElement))}>
  </div>
  <ul class="chosen" aria-label="Chosen files">
    ${repeat(
      state.files,
      ({ file }) => file,
      (one, i) => fileRow(one, i, () => change((now) => leaveOut(now, one.file))),
    )}
  </ul>
  ${parts.listening}
  <div class="add-details" ?hidden=${state.files.length === 0}>
    ${parts.chart} ${parts.hand}
    <div class="row">
      <label>Player${parts.player}</label>
      <label ?hidden=${state.files.length > 1}>Title<input name="title" autocomplete="off"></label>
      <label>Date<input name="date" type="date"></label>
    </div>
    ${parts.names}
    <button class="main" type="submit" ?disabled=${state.sending}>${sendWords(state)}</button>
  </div>
  <div class="trouble">${guard([state.refusals], () => refusals(state))}</div>`;

/** The files of the field, which is then empty, so that the same one can be chosen again. */
function takenFrom(picker: HTMLInputElement): File[] {
  const files = [...(picker.files ?? [])];
  picker.value = "";
  return files;
}

function fileRow(one: ChosenFile, index: number, takeOut: () => void): TemplateResult {
  const { file, stage } = one;
  return html`<li data-file=${index}>
    <span class="file-name">${file.name}</span>
    <span class="faint">${sizeWords(file.size)}</span>
    ${bar(one)}
    <span class="state">${stageWords(stage)}</span>
    <button type="button" class="quiet" aria-label="Leave out ${file.name}" ?disabled=${!canBeLeftOut(one)}
      @click=${takeOut}>Leave out</button>
    ${knownNote(file)}
  </li>`;
}

function bar({ file, stage }: ChosenFile): TemplateResult | typeof nothing {
  const label = `Progress of ${file.name}`;
  switch (stage.name) {
    case "on its way":
      return html`<progress max="1" value=${stage.share} aria-label=${label}></progress>`;
    case "being analysed":
      return html`<progress aria-label=${label}></progress>`;
    case "done":
      return html`<progress max="1" value="1" aria-label=${label}></progress>`;
    case "chosen":
    case "waiting":
    case "not taken":
      return nothing;
  }
}

/** Each refusal, under the name of its file. */
function refusals(state: AddState): readonly TemplateResult[] {
  return state.refusals.map(
    ({ file, error }) =>
      html`${file === null ? nothing : html`<p class="refusal-file">${file}</p>`}${refusalNote(error)}`,
  );
}
