/**
 * Where the hand may stand on every chord of a chart: a map to practise from, without a solo.
 */
import { type Chart, type Chord, type ChordSpan, keyName } from "../chart/index.ts";
import { isBlackKey, mod12 } from "../pitch/index.ts";
import type { Hand } from "../take/index.ts";
import { cautionFor, wideFingers } from "./comfort.ts";
import { idiomaticPlacements, placementName } from "./fit-chords.ts";
import { keyNameOn } from "./key-names.ts";
import type { MappedChord, MappedKey, MappedPlacement, PlacementMap } from "./placement-map-schema.ts";
import { anchorPitch, degreeOn, fitsChord, heldShape, keysOf, type Placement } from "./placements.ts";
import type { HandShape } from "./shape.ts";
import { shortestWay } from "./shortest-way.ts";
import { isIdiomaticSlide, slideOf } from "./slides.ts";

/** The lowest key of a mapped placement lies in the octave from here up (A below middle C). */
const MIDDLE_LOW = 57;

/**
 * The placement map of a chart: for each chord the places of the shapes, with fingers, slides, what they leave out
 * and what the next chord keeps of them; and the way through the form on which the hand moves least.
 *
 * @param spans `chordSpans(chart)`
 */
export function placementMap(
  chart: Chart,
  spans: readonly ChordSpan[],
  shapes: readonly HandShape[],
  options: { readonly hand?: Hand } = {},
): PlacementMap {
  const hand = options.hand ?? "right";
  const places = spans.map((span) => (span.chord === null ? [] : placesOn(span.chord, shapes, hand)));
  const chords = spans.map((span, k): MappedChord => {
    const next = spans[(k + 1) % spans.length]!;
    return {
      span: span.index,
      bar: span.bar,
      beat: span.beat,
      beats: span.beats,
      symbol: span.symbol,
      scale: span.scale,
      placements: places[k]!.map((placement, n) => describe(`${k + 1}.${n + 1}`, placement, span, next)),
    };
  });
  return {
    chart: { name: chart.name, key: keyName(chart.key) },
    hand,
    shapes: shapes.map((shape) => shape.name),
    chords,
    way: shortestWay(places, (k, n) => chords[k]!.placements[n]!.id),
    caution: cautionFor(false, shapes),
  };
}

/** All places of the shapes on a chord, in the middle of the keyboard, by shape and then rising from the root. */
function placesOn(chord: Chord, shapes: readonly HandShape[], hand: Hand): Placement[] {
  return idiomaticPlacements(shapes, chord).map(({ shape, anchorClass }) => {
    const held = heldShape(shape, hand);
    const lowClass = anchorClass - held.semitones[held.anchor]!;
    return { held, low: MIDDLE_LOW + mod12(lowClass - MIDDLE_LOW) };
  });
}

function describe(id: string, placement: Placement, span: ChordSpan, next: ChordSpan): MappedPlacement {
  const chord = span.chord!;
  const { held } = placement;
  const anchor = anchorPitch(placement);
  const keys = keysOf(placement).map(
    (pitch, n): MappedKey => ({
      ...naming(chord, pitch),
      pitch,
      finger: held.fingers[n]!,
      black: isBlackKey(pitch),
      kind: kindOf(pitch, span),
    }),
  );
  const classes = new Set(keys.map((key) => key.pitchClass));
  const slide = slideOf(placement);
  return {
    id,
    name: placementName(held.shape, keyNameOn(chord, anchor), held.fingers[held.anchor]!),
    shape: held.shape.name,
    anchorFinger: held.fingers[held.anchor]!,
    anchorDegree: degreeOn(chord, anchor),
    anchor: keyNameOn(chord, anchor),
    anchorPitch: anchor,
    keys,
    slides:
      slide === null
        ? []
        : [
            {
              finger: keys.find((key) => key.pitch === slide.from)!.finger,
              ...slide,
              fromName: keyNameOn(chord, slide.from),
              toName: keyNameOn(chord, slide.to),
              toDegree: degreeOn(chord, slide.to),
              manner: isIdiomaticSlide(slide.to, span) ? "idiomatic" : "bold",
            },
          ],
    leftOut: span.scaleTones
      .map((semitones) => ({
        ...naming(chord, chord.rootClass + semitones),
        avoid: span.avoid.some((avoid) => avoid.semitones === semitones),
      }))
      .filter(({ pitchClass }) => !classes.has(pitchClass)),
    commonWithNext: next.chord === null ? [] : commonKeys(keys, next.chord),
    sharedWithNext: next.chord !== null && fitsChord(held.shape, anchor, next.chord),
    wide: wideFingers(held.shape).map(({ fingers: [a, b], semitones }) => ({
      fingers: [held.fingers[held.shape.fingers.indexOf(a)]!, held.fingers[held.shape.fingers.indexOf(b)]!],
      semitones,
    })),
  };
}

function naming(chord: Chord, pitch: number): Pick<MappedKey, "pitchClass" | "name" | "degree"> {
  return {
    pitchClass: mod12(pitch),
    name: keyNameOn(chord, pitch),
    degree: degreeOn(chord, pitch),
  };
}

function commonKeys(keys: readonly MappedKey[], next: Chord): MappedPlacement["commonWithNext"] {
  return keys
    .filter(({ pitch }) =>
      next.tones.some((tone) => (next.rootClass + tone.semitones - pitch + 240) % 12 === 0),
    )
    .map(({ pitch }) => ({ pitch, name: keyNameOn(next, pitch), degree: degreeOn(next, pitch) }));
}

function kindOf(pitch: number, span: ChordSpan): MappedKey["kind"] {
  const semitones = mod12(pitch - span.chord!.rootClass);
  const has = (list: readonly { readonly semitones: number }[]) =>
    list.some((one) => one.semitones === semitones);
  if (has(span.chord!.tones)) return "chord tone";
  if (has(span.blue)) return "blue";
  if (has(span.avoid)) return "avoid";
  return span.scaleTones.includes(semitones) ? "scale tone" : "outside";
}
