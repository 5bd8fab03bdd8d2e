/** A teacher's own hand shape: press keys on a drawn keyboard, name the fingers, say where the anchor stands. */
import { html, nothing, type TemplateResult } from "lit-html";
import { degreeName } from "../../src/chart/index.ts";
import { DEGREES, type Degree } from "../../src/chart/types.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { isBlackKey } from "../../src/pitch/index.ts";
import type { Finger } from "../../src/take/note.ts";
import { fingerName, withAccidentals } from "../../src/words/index.ts";
import { type KeyboardInput, keyboardInput } from "../draw/keyboard-input.ts";
import { h, s } from "../shell/dom.ts";
import { type Change, drawnFrom } from "../shell/drawn-from.ts";
import { bareKeyName } from "../shell/words.ts";
import {
  addPlace,
  CHORDS,
  changePlace,
  chooseAnchor,
  giveFinger,
  NOTHING_PRESSED,
  nameShape,
  pressKey,
  removePlace,
  type ShapeDraft,
  shapeOf,
} from "./shape-model.ts";

const LOW = 57;
const HIGH = 79;
const FINGERS = [1, 2, 3, 4, 5] as const;

type Draw = (draft: ShapeDraft, change: Change<ShapeDraft>) => TemplateResult;

/** The form; `save` gets the finished shape. */
export function shapeMaker(save: (shape: HandShape) => Promise<void>): HTMLElement {
  const form = h("form", { class: "shape-form" });
  const board: KeyboardInput = keyboardInput(
    { low: LOW, high: HIGH, label: "Keyboard: press the keys of the shape", role: "checkbox" },
    (pitch) => change((draft) => pressKey(draft, pitch)),
  );
  const { state, change } = drawnFrom(form, NOTHING_PRESSED, (draft, change) => {
    showFingers(board, draft);
    return html`${board.element}${fingers(draft, change)}${anchor(draft, change)}${places(draft, change)}
      <div class="row">
        <label
          >Name of the shape
          <input
            name="shape-name"
            maxlength="60"
            required
            @input=${({ target }: Event) => change((now) => nameShape(now, (target as HTMLInputElement).value))}
        /></label>
        <button class="main" type="submit">Keep this shape</button>
      </div>`;
  });
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void save(shapeOf(state()));
  });
  return form;
}

const fingers: Draw = ({ keys }, change) => html`<div class="row">
  ${keys.map(
    ({ pitch, finger }) =>
      html`<label
        >${bareKeyName(pitch)}
        ${choice(FINGERS, finger, fingerWords, (chosen) => change((draft) => giveFinger(draft, pitch, chosen)))}</label
      >`,
  )}
</div>`;

const anchor: Draw = ({ keys, anchor: chosen }, change) => {
  if (keys.length === 0) return html`<div class="row"><p class="hint">Press up to five keys.</p></div>`;
  const used = keys.map(({ finger }) => finger);
  const choose = (finger: Finger) => change((draft) => chooseAnchor(draft, finger));
  return html`<div class="row"><label>Anchor finger ${choice(used, chosen, fingerWords, choose)}</label></div>`;
};

const places: Draw = ({ places: all }, change) => html`<div class="degree-rows">
  ${all.map(({ degree, chords }, i) => {
    const degrees = choice(DEGREES, degree, degreeWords, (chosen: Degree) =>
      change((draft) => changePlace(draft, i, { degree: chosen })),
    );
    const ofChords = choice(
      CHORDS.map(({ id }) => id),
      chords,
      (id) => CHORDS.find((one) => one.id === id)!.words,
      (chosen) => change((draft) => changePlace(draft, i, { chords: chosen })),
    );
    const remove = () => change((draft) => removePlace(draft, i));
    return html`<div class="row">
      <label>The anchor stands on ${degrees}</label><label>of ${ofChords}</label>
      ${all.length > 1 ? html`<button type="button" class="quiet" @click=${remove}>Take out</button>` : nothing}
    </div>`;
  })}
  <button type="button" class="quiet" @click=${() => change(addPlace)}>Another degree</button>
</div>`;

/** A field of choices; `choose` gets the one that was taken. */
function choice<Value extends string | number>(
  values: readonly Value[],
  chosen: Value,
  words: (value: Value) => string,
  choose: (value: Value) => void,
): TemplateResult {
  return html`<select @change=${({ target }: Event) => choose(values[(target as HTMLSelectElement).selectedIndex]!)}>
    ${values.map((value) => html`<option value=${value} .selected=${value === chosen}>${words(value)}</option>`)}
  </select>`;
}

/** "♭3, the minor third" */
const degreeWords = (degree: Degree): string => `${withAccidentals(degree)}, the ${degreeName(degree)}`;

const fingerWords = (finger: Finger): string => `${finger} ${fingerName(finger)}`;

/** The keys of the shape with their fingers. */
function showFingers(board: KeyboardInput, { keys }: ShapeDraft): void {
  board.marks.replaceChildren();
  for (let pitch = board.keys.low; pitch <= board.keys.high; pitch++) {
    const finger = keys.find((key) => key.pitch === pitch)?.finger;
    board.hold(pitch, finger !== undefined);
    if (finger === undefined) continue;
    const x = board.keys.centre(pitch);
    const y = isBlackKey(pitch) ? 60 : 100;
    board.marks.append(
      s("circle", { class: "finger-spot", cx: x, cy: y, r: 11 }),
      s("text", { class: "finger-number", x, y: y + 4.5, "text-anchor": "middle" }, finger),
    );
  }
}
