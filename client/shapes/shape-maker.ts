/** A teacher's own hand shape: press keys on a drawn keyboard, name the fingers, say where the anchor stands. */
import { DEGREES, type Degree, QUALITIES, type Quality } from "../../src/chart/types.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { isBlackKey } from "../../src/pitch/index.ts";
import type { Finger } from "../../src/take/note.ts";
import { fingerName, withAccidentals } from "../../src/words/index.ts";
import { pressKeys } from "../draw/press-keys.ts";
import { h, s } from "../shell/dom.ts";
import { bareKeyName } from "../shell/words.ts";

const LOW = 57;
const HIGH = 79;

/** Chords that an anchor degree holds for; qualities one by one come after the families. */
const FAMILIES: readonly {
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

const CHORDS: typeof FAMILIES = [
  ...FAMILIES,
  ...QUALITIES.map((quality) => ({
    id: `only ${quality}`,
    words: `${quality} chords only`,
    qualities: [quality],
  })),
];

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
          bareKeyName(pitch),
          h(
            "select",
            {
              onChange: (event: Event) => {
                pressed.set(pitch, Number((event.target as HTMLSelectElement).value) as Finger);
                show();
              },
            },
            ...([1, 2, 3, 4, 5] as const).map((f) => fingerOption(f, f === finger)),
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
                ...used.map((f) => fingerOption(f, f === anchor)),
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
                h("option", { value: degree, selected: degree === at.degree }, withAccidentals(degree)),
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

const fingerOption = (finger: Finger, selected: boolean): HTMLOptionElement =>
  h("option", { value: finger, selected }, `${finger} ${fingerName(finger)}`);

/** Fingers in order from the thumb, as far as nobody has chosen otherwise. */
function renumber(pressed: Map<number, Finger>): void {
  [...pressed.keys()]
    .sort((a, b) => a - b)
    .forEach((pitch, i) => {
      pressed.set(pitch, Math.min(5, i + 1) as Finger);
    });
}

/** The keys of the shape with their fingers. */
function keyboard(
  pressed: Map<number, Finger>,
  changed: () => void,
): { element: HTMLElement; refresh(): void } {
  const board = pressKeys(
    { low: LOW, high: HIGH, label: "Keyboard: press the keys of the shape", role: "checkbox" },
    (pitch) => {
      if (pressed.has(pitch)) pressed.delete(pitch);
      else if (pressed.size < 5) pressed.set(pitch, 1);
      changed();
    },
  );
  return {
    element: board.element,
    refresh() {
      board.marks.replaceChildren();
      for (let pitch = board.keys.low; pitch <= board.keys.high; pitch++) {
        const finger = pressed.get(pitch);
        board.hold(pitch, finger !== undefined);
        if (finger === undefined) continue;
        const x = board.keys.centre(pitch);
        const y = isBlackKey(pitch) ? 60 : 100;
        board.marks.append(
          s("circle", { class: "finger-spot", cx: x, cy: y, r: 11 }),
          s("text", { class: "finger-number", x, y: y + 4.5, "text-anchor": "middle" }, finger),
        );
      }
    },
  };
}
