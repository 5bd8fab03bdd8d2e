/** A teacher's own hand shape: press keys on a drawn keyboard, name the fingers, say where the anchor stands. */
import { DEGREES, type Degree, type Quality } from "../../src/chart/types.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import type { Finger } from "../../src/take/note.ts";
import { drawKeyboard, layKeyboard } from "../draw/keyboard.ts";
import { h, s } from "../shell/dom.ts";
import { keyName, printed } from "../shell/words.ts";

const LOW = 57;
const HIGH = 79;

/** Chords that an anchor degree holds for. */
const CHORDS: readonly {
  readonly id: string;
  readonly words: string;
  readonly qualities: readonly Quality[];
}[] = [
  { id: "all", words: "all chords", qualities: [] },
  { id: "dominant", words: "dominant chords", qualities: ["dominant", "suspended"] },
  { id: "minor", words: "minor chords", qualities: ["minor", "minor-seventh", "minor-sixth", "minor-major"] },
  { id: "major", words: "major chords", qualities: ["major", "major-seventh", "sixth"] },
  {
    id: "half",
    words: "half-diminished and diminished chords",
    qualities: ["half-diminished", "diminished", "diminished-seventh"],
  },
  { id: "augmented", words: "augmented chords", qualities: ["augmented", "augmented-major"] },
];

const FINGERS = ["", "thumb", "index", "middle", "ring", "little finger"];

/** The form; `save` gets the finished shape. */
export function shapeMaker(save: (shape: HandShape) => Promise<void>): HTMLElement {
  const pressed = new Map<number, Finger>();
  const places: { degree: Degree; chords: string }[] = [{ degree: "1", chords: "all" }];
  let anchor: Finger = 1;
  const name = h("input", { name: "shape-name", maxlength: 60, required: true });
  const fingers = h("div", { class: "row" });
  const anchorSlot = h("div", { class: "row" });
  const degreeSlot = h("div", { class: "degree-rows" });
  const board = keyboard(pressed, () => {
    renumber(pressed);
    show();
  });

  const show = () => {
    const keys = [...pressed].sort(([a], [b]) => a - b);
    fingers.replaceChildren(
      ...keys.map(([pitch, finger]) =>
        h(
          "label",
          {},
          keyName(pitch),
          h(
            "select",
            {
              onChange: (event: Event) => {
                pressed.set(pitch, Number((event.target as HTMLSelectElement).value) as Finger);
                show();
              },
            },
            ...([1, 2, 3, 4, 5] as const).map((f) =>
              h("option", { value: f, selected: f === finger }, `${f} ${FINGERS[f]}`),
            ),
          ),
        ),
      ),
    );
    const used = keys.map(([, finger]) => finger);
    if (!used.includes(anchor)) anchor = used[Math.min(1, used.length - 1)] ?? 1;
    anchorSlot.replaceChildren(
      ...(used.length === 0
        ? [h("p", { class: "hint" }, "Press up to five keys.")]
        : [
            h(
              "label",
              {},
              "Anchor finger",
              h(
                "select",
                {
                  onChange: (event: Event) => {
                    anchor = Number((event.target as HTMLSelectElement).value) as Finger;
                  },
                },
                ...used.map((f) => h("option", { value: f, selected: f === anchor }, `${f} ${FINGERS[f]}`)),
              ),
            ),
          ]),
    );
    degreeSlot.replaceChildren(
      ...places.map((at, i) =>
        h(
          "div",
          { class: "row" },
          h(
            "label",
            {},
            "Anchor stands on the",
            h(
              "select",
              {
                onChange: (event: Event) => {
                  at.degree = (event.target as HTMLSelectElement).value as Degree;
                },
              },
              ...DEGREES.map((degree) =>
                h("option", { value: degree, selected: degree === at.degree }, printed(degree)),
              ),
            ),
          ),
          h(
            "label",
            {},
            "of",
            h(
              "select",
              {
                onChange: (event: Event) => {
                  at.chords = (event.target as HTMLSelectElement).value;
                },
              },
              ...CHORDS.map((one) =>
                h("option", { value: one.id, selected: one.id === at.chords }, one.words),
              ),
            ),
          ),
          places.length > 1
            ? h(
                "button",
                {
                  type: "button",
                  class: "quiet",
                  onClick: () => {
                    places.splice(i, 1);
                    show();
                  },
                },
                "Take out",
              )
            : null,
        ),
      ),
      h(
        "button",
        {
          type: "button",
          class: "quiet",
          onClick: () => {
            places.push({ degree: "5", chords: "all" });
            show();
          },
        },
        "Another degree",
      ),
    );
    board.refresh();
  };

  const form = h(
    "form",
    { class: "shape-form" },
    board.element,
    fingers,
    anchorSlot,
    degreeSlot,
    h(
      "div",
      { class: "row" },
      h("label", {}, "Name of the shape", name),
      h("button", { class: "main", type: "submit" }, "Keep this shape"),
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const keys = [...pressed].sort(([a], [b]) => a - b);
    const lowest = keys[0]?.[0] ?? 0;
    void save({
      name: name.value.trim(),
      fingers: keys.map(([, finger]) => finger),
      semitones: keys.map(([pitch]) => pitch - lowest),
      anchorFinger: anchor,
      anchorDegrees: places.map((at) => ({
        degree: at.degree,
        qualities: CHORDS.find((one) => one.id === at.chords)?.qualities ?? [],
      })),
    });
  });
  show();
  return form;
}

/** Fingers in order from the thumb, as far as nobody has chosen otherwise. */
function renumber(pressed: Map<number, Finger>): void {
  [...pressed.keys()]
    .sort((a, b) => a - b)
    .forEach((pitch, i) => {
      pressed.set(pitch, Math.min(5, i + 1) as Finger);
    });
}

/** Keys that can be pressed by pointer or keyboard; arrows walk, Space presses. */
function keyboard(
  pressed: Map<number, Finger>,
  changed: () => void,
): { element: HTMLElement; refresh(): void } {
  const width = 700;
  const keys = layKeyboard(LOW, HIGH, width);
  const svg = s("svg", {
    viewBox: `0 0 ${width} 130`,
    class: "press-keys",
    role: "group",
    "aria-label": "Keyboard: press the keys of the shape",
  });
  const group = drawKeyboard(keys, { y: 2, height: 124 });
  svg.append(group);
  const spots = s("g", { class: "spots" });
  svg.append(spots);
  const rects = [...group.querySelectorAll<SVGRectElement>(".key")].sort(
    (a, b) => Number(a.dataset.pitch) - Number(b.dataset.pitch),
  );
  const press = (pitch: number) => {
    if (pressed.has(pitch)) pressed.delete(pitch);
    else if (pressed.size < 5) pressed.set(pitch, 1);
    changed();
  };
  rects.forEach((rect, i) => {
    const pitch = Number(rect.dataset.pitch);
    rect.setAttribute("role", "checkbox");
    rect.setAttribute("aria-label", keyName(pitch));
    rect.setAttribute("tabindex", i === 0 ? "0" : "-1");
    rect.addEventListener("click", () => press(pitch));
    rect.addEventListener("keydown", (event) => {
      const step = event.key === "ArrowRight" ? 1 : event.key === "ArrowLeft" ? -1 : 0;
      if (step !== 0) {
        const next = rects[i + step];
        if (next) {
          rect.setAttribute("tabindex", "-1");
          next.setAttribute("tabindex", "0");
          next.focus();
        }
      } else if (event.key === " " || event.key === "Enter") press(pitch);
      else return;
      event.preventDefault();
    });
  });
  return {
    element: h("div", { class: "press-board" }, svg),
    refresh() {
      spots.replaceChildren();
      for (const rect of rects) {
        const pitch = Number(rect.dataset.pitch);
        const finger = pressed.get(pitch);
        rect.setAttribute("aria-checked", String(finger !== undefined));
        rect.classList.toggle("held", finger !== undefined);
        if (finger === undefined) continue;
        const y = rect.classList.contains("black") ? 60 : 100;
        spots.append(
          s("circle", { class: "finger-spot", cx: keys.centre(pitch), cy: y, r: 11 }),
          s(
            "text",
            { class: "finger-number", x: keys.centre(pitch), y: y + 4.5, "text-anchor": "middle" },
            finger,
          ),
        );
      }
    },
  };
}
