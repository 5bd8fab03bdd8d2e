/** The hand shapes: those built in, and the teacher's own, to make, export and import. */
import type { ShapeRow } from "../../server/contract/library.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { download } from "../draw/picture.ts";
import { shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import { drawnFrom } from "../shell/drawn-from.ts";
import type { PageMaker } from "../shell/page.ts";
import { shapeMaker } from "./shape-maker.ts";
import { shapesDrawing } from "./shapes-drawing.ts";
import { checkName, ownRead, type ShapesState, shapeRefused, unreadable } from "./shapes-model.ts";

export const shapesPage: PageMaker = async (_parameters, _query, shell) => {
  const host = h("div", { class: "stack" });
  const maker = shapeMaker(add);
  const first: ShapesState = { own: await shapes.list(), refused: null };
  const { state, change } = drawnFrom(host, first, (now) =>
    shapesDrawing(now, maker, {
      remove: (row) => void remove(row),
      exportAll: () => void exportAll(),
      importFrom: (file) => void importFrom(file),
    }),
  );

  async function refresh(): Promise<void> {
    const own = await shapes.list();
    change((now) => ownRead(now, own));
  }

  async function add(shape: HandShape): Promise<void> {
    change((now) => shapeRefused(now, null));
    try {
      await refresh();
      checkName(state(), shape);
      await shapes.create(shape);
      await refresh();
      shell.notify(`“${shape.name}” is kept, and offered wherever shapes are chosen.`);
    } catch (error) {
      change((now) => shapeRefused(now, error));
    }
  }

  async function remove({ id, name }: ShapeRow): Promise<void> {
    await shapes.remove(id);
    await refresh();
    shell.notify(`“${name}” is deleted.`, {
      label: "Undo",
      run: () => void shapes.restore(id).then(refresh),
    });
  }

  async function exportAll(): Promise<void> {
    await refresh();
    const { shapesJson } = await import("../../src/hands/parse-shapes.ts");
    const json = shapesJson(state().own.map(({ shape }) => shape));
    download("hand-shapes.json", new Blob([json], { type: "application/json" }));
  }

  async function importFrom(file: File): Promise<void> {
    try {
      const { parseShapes } = await import("../../src/hands/parse-shapes.ts");
      for (const shape of parseShapes(await file.text())) await add(shape);
    } catch (error) {
      change((now) => shapeRefused(now, unreadable(file.name, error)));
    }
  }

  return { title: "Hand shapes", element: host };
};
