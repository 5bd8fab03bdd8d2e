/** A hand shape in the making: what is pressed and chosen, and what follows from each step. No page is needed for it. */
import { type Degree, QUALITIES, type Quality } from "../../src/chart/types.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import type { Finger } from "../../src/take/note.ts";

/** A shape has one finger a key. */
const MOST_KEYS = 5;

export interface ShapeDraft {
  readonly name: string;
  /** From the lowest key up; pitches are MIDI numbers. */
  readonly keys: readonly { readonly pitch: number; readonly finger: Finger }[];
  /** One of the fingers above, or 1 while no key is pressed. */
  readonly anchor: Finger;
  /** Where the anchor finger may stand; `chords` is the `id` of one of `CHORDS`. At least one. */
  readonly places: readonly AnchorPlace[];
}

export interface AnchorPlace {
  readonly degree: Degree;
  readonly chords: string;
}

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

export const CHORDS: typeof FAMILIES = [
  ...FAMILIES,
  ...QUALITIES.map((quality) => ({
    id: `only ${quality}`,
    words: `${quality} chords only`,
    qualities: [quality],
  })),
];

export const NOTHING_PRESSED: ShapeDraft = {
  name: "",
  keys: [],
  anchor: 1,
  places: [{ degree: "1", chords: "all" }],
};

/** Presses a key or lets it go; the fingers are numbered anew from the thumb. A sixth key is not taken. */
export function pressKey(draft: ShapeDraft, pitch: number): ShapeDraft {
  const others = draft.keys.filter((key) => key.pitch !== pitch);
  const isPressed = others.length < draft.keys.length;
  if (!isPressed && others.length === MOST_KEYS) return draft;
  const pitches = [...others.map((key) => key.pitch), ...(isPressed ? [] : [pitch])].sort((a, b) => a - b);
  return anchored({ ...draft, keys: pitches.map((one, i) => ({ pitch: one, finger: (i + 1) as Finger })) });
}

/** Gives a pressed key another finger. */
export function giveFinger(draft: ShapeDraft, pitch: number, finger: Finger): ShapeDraft {
  return anchored({
    ...draft,
    keys: draft.keys.map((key) => (key.pitch === pitch ? { pitch, finger } : key)),
  });
}

/** The anchor is a finger of the shape: where it is none any more, the second one from below takes its place. */
function anchored(draft: ShapeDraft): ShapeDraft {
  const fingers = draft.keys.map(({ finger }) => finger);
  if (fingers.includes(draft.anchor)) return draft;
  return { ...draft, anchor: fingers[Math.min(1, fingers.length - 1)] ?? 1 };
}

export function chooseAnchor(draft: ShapeDraft, anchor: Finger): ShapeDraft {
  return { ...draft, anchor };
}

export function changePlace(draft: ShapeDraft, index: number, change: Partial<AnchorPlace>): ShapeDraft {
  return {
    ...draft,
    places: draft.places.map((place, i) => (i === index ? { ...place, ...change } : place)),
  };
}

/** The fifth of any chord is offered next. */
export function addPlace(draft: ShapeDraft): ShapeDraft {
  return { ...draft, places: [...draft.places, { degree: "5", chords: "all" }] };
}

/** The last place stays: a shape that stands nowhere says nothing. */
export function removePlace(draft: ShapeDraft, index: number): ShapeDraft {
  return draft.places.length === 1 ? draft : { ...draft, places: draft.places.filter((_, i) => i !== index) };
}

export function nameShape(draft: ShapeDraft, name: string): ShapeDraft {
  return { ...draft, name };
}

/** The finished shape, semitones counted from its lowest key; whether a hand can hold it, the service says. */
export function shapeOf(draft: ShapeDraft): HandShape {
  const lowest = draft.keys[0]?.pitch ?? 0;
  return {
    name: draft.name.trim(),
    fingers: draft.keys.map(({ finger }) => finger),
    semitones: draft.keys.map(({ pitch }) => pitch - lowest),
    anchorFinger: draft.anchor,
    anchorDegrees: draft.places.map(({ degree, chords }) => ({
      degree,
      qualities: CHORDS.find(({ id }) => id === chords)?.qualities ?? [],
    })),
  };
}
