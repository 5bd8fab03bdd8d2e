/** The hand shapes: those built in, and the teacher's own, to make, export and import. */

import type { ShapeRow } from "../../server/contract/library.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { capital, fingerName, withAccidentals } from "../../src/words/index.ts";
import { download } from "../draw/picture.ts";
import { shapeFromA } from "../draw/shape-keys.ts";
import { shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { refusalNote } from "../shell/refusal-note.ts";
import { shapeMaker } from "./shape-maker.ts";

export const shapesPage: PageMaker = async (_parameters, _query, shell) => {
  const own = h("div", { class: "shape-list" });
  const trouble = h("div", {});
  const refresh = async () => {
    const rows = await shapes.list();
    own.replaceChildren(
      ...(rows.length === 0
        ? [h("p", { class: "empty" }, "There is no shape of your own yet. Press keys below to make one.")]
        : rows.map((row) => card(row.shape, remover(row)))),
    );
  };
  const remover = (row: ShapeRow) =>
    h(
      "button",
      {
        type: "button",
        class: "quiet",
        "aria-label": `Delete ${row.name}`,
        onClick: async () => {
          await shapes.remove(row.id);
          await refresh();
          shell.notify(`“${row.name}” is deleted.`, {
            label: "Undo",
            run: () => void shapes.restore(row.id).then(refresh),
          });
        },
      },
      "Delete",
    );
  const add = async (shape: HandShape) => {
    trouble.replaceChildren();
    try {
      if ((await shapes.list()).some((row) => row.name === shape.name)) {
        throw new Error(
          `There is a shape of your own named “${shape.name}” already. Delete it first, or give this one another name.`,
        );
      }
      await shapes.create(shape);
      await refresh();
      shell.notify(`“${shape.name}” is kept, and offered wherever shapes are chosen.`);
    } catch (error) {
      trouble.replaceChildren(refusalNote(error));
    }
  };
  const picker = h("input", {
    type: "file",
    id: "shape-file",
    accept: ".json",
    class: "file-input",
    onChange: async (event: Event) => {
      const file = (event.target as HTMLInputElement).files?.[0];
      if (!file) return;
      try {
        const { parseShapes } = await import("../../src/hands/parse-shapes.ts");
        for (const shape of parseShapes(await file.text())) await add(shape);
      } catch (error) {
        const why = error instanceof Error ? error.message : String(error);
        trouble.replaceChildren(
          refusalNote(
            new Error(`“${file.name}” could not be imported: ${why}. Give a file that was exported here.`),
          ),
        );
      }
      picker.value = "";
    },
  });
  await refresh();
  return {
    title: "Hand shapes",
    element: h(
      "div",
      { class: "stack" },
      h(
        "section",
        { class: "sheet" },
        h("h1", {}, "Hand shapes"),
        h(
          "p",
          { class: "lead" },
          "A shape is fingers and the distances between them. Placed on a degree of a chord it gives the hand notes without thinking, and the same fingering at another place gives the same figure at another pitch. Right hand; mirrored for the left.",
        ),
        h("h2", { class: "small-head" }, "Built in"),
        h("div", { class: "shape-list" }, ...BUILT_IN_SHAPES.map((shape) => card(shape, null))),
      ),
      h(
        "section",
        { class: "sheet" },
        h("h2", {}, "Your own"),
        own,
        h(
          "div",
          { class: "take-ways" },
          h(
            "button",
            {
              type: "button",
              onClick: async () => {
                const rows = await shapes.list();
                const { shapesJson } = await import("../../src/hands/parse-shapes.ts");
                const json = shapesJson(rows.map((row) => row.shape));
                download("hand-shapes.json", new Blob([json], { type: "application/json" }));
              },
            },
            "Export as JSON",
          ),
          h(
            "div",
            { class: "drop plain" },
            h("label", { class: "button", for: "shape-file" }, "Import JSON"),
            picker,
          ),
        ),
        trouble,
      ),
      h("section", { class: "sheet" }, h("h2", {}, "Make a shape"), shapeMaker(add)),
      h(
        "p",
        { class: "hint" },
        "A shape wider than an octave is not for every hand: small hands leave the outer finger out. Stop at pain, numbness or tingling and ask a licensed clinician or an experienced teacher. The program gives no medical advice.",
      ),
    ),
  };
};

/** The shape on keys from A, with its fingers. */
function card(shape: HandShape, tool: HTMLElement | null): HTMLElement {
  const svg = shapeFromA(shape, 230);
  svg.setAttribute("role", "img");
  svg.setAttribute(
    "aria-label",
    `${shape.name}: fingers ${shape.fingers.join(" ")} on semitones ${shape.semitones.join(" ")}`,
  );
  const places = shape.anchorDegrees.map((one) => withAccidentals(one.degree));
  return h(
    "article",
    { class: "shape-card" },
    h("h3", {}, capital(shape.name)),
    svg,
    h(
      "p",
      { class: "hint" },
      `Fingers ${shape.fingers.join(" ")} on ${shape.semitones.join(" ")} semitones; ${fingerName(shape.anchorFinger)} on ${places.length > 0 ? `the ${[...new Set(places)].join(" or ")}` : "any degree"}.`,
    ),
    tool,
  );
}
