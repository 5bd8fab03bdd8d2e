/** The hand shapes, as they are seen. */
import { html, nothing, type TemplateResult } from "lit-html";
import { guard } from "lit-html/directives/guard.js";
import { repeat } from "lit-html/directives/repeat.js";
import type { ShapeRow } from "../../server/contract/library.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { shapeFromA } from "../draw/shape-keys.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { pictureWords, type ShapesState, shapeName, shapeWords } from "./shapes-model.ts";

export interface ShapesWays {
  readonly remove: (row: ShapeRow) => void;
  readonly exportAll: () => void;
  readonly importFrom: (file: File) => void;
}

/** Width of a shape's picture in pixels. */
const CARD = 230;

/** @param maker the form in which a shape is made */
export const shapesDrawing = (
  state: ShapesState,
  maker: HTMLElement,
  ways: ShapesWays,
): TemplateResult => html`
  <section class="sheet">
    <h1>Hand shapes</h1>
    <p class="lead">
      A shape is fingers and the distances between them. Placed on a degree of a chord it gives the hand notes without
      thinking, and the same fingering at another place gives the same figure at another pitch. Right hand; mirrored for
      the left.
    </p>
    <h2 class="small-head">Built in</h2>
    <div class="shape-list">${BUILT_IN_SHAPES.map((shape) => card(shape, nothing))}</div>
  </section>
  <section class="sheet">
    <h2>Your own</h2>
    ${ownShapes(state.own, ways.remove)}
    ${carrying(ways)}
    ${guard([state.refused], () => (state.refused === null ? nothing : refusalNote(state.refused)))}
  </section>
  <section class="sheet"><h2>Make a shape</h2>${maker}</section>
  <p class="hint">
    A shape wider than an octave is not for every hand: small hands leave the outer finger out. Stop at pain, numbness or
    tingling and ask a licensed clinician or an experienced teacher. The program gives no medical advice.
  </p>`;

const ownShapes = (own: readonly ShapeRow[], remove: ShapesWays["remove"]): TemplateResult => html`<div
  class="shape-list">
  ${
    own.length === 0
      ? html`<p class="empty">There is no shape of your own yet. Press keys below to make one.</p>`
      : nothing
  }
  ${repeat(
    own,
    ({ id }) => id,
    (row) =>
      card(
        row.shape,
        row.yours
          ? html`<button type="button" class="quiet" aria-label="Delete ${row.name}" @click=${() => remove(row)}>
              Delete
            </button>`
          : html`<span class="hint">Another teacher's</span>`,
      ),
  )}
</div>`;

function carrying({ exportAll, importFrom }: ShapesWays): TemplateResult {
  const take = ({ target }: Event) => {
    const picker = target as HTMLInputElement;
    const [file] = picker.files ?? [];
    if (file) importFrom(file);
    // So that the same file can be chosen again.
    picker.value = "";
  };
  return html`<div class="take-ways">
    <button type="button" @click=${exportAll}>Export as JSON</button>
    <div class="drop plain">
      <label class="button" for="shape-file">Import JSON</label>
      <input type="file" id="shape-file" accept=".json" class="file-input" @change=${take}>
    </div>
  </div>`;
}

/** The shape on keys from A, with its fingers. */
const card = (shape: HandShape, tool: TemplateResult | typeof nothing): TemplateResult => html`<article
  class="shape-card">
  <h3>${shapeName(shape)}</h3>
  ${guard([shape], () => picture(shape))}
  <p class="hint">${shapeWords(shape)}</p>
  ${tool}
</article>`;

function picture(shape: HandShape): SVGSVGElement {
  const svg = shapeFromA(shape, CARD);
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", pictureWords(shape));
  return svg;
}
