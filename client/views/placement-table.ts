/** The placement map as a table. */
import type { MappedChord, MappedPlacement, PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { withAccidentals } from "../../src/words/index.ts";
import type { Table } from "./view.ts";

/** A row for each placement on each chord of the chart. */
export function placementTable(map: PlacementMap): Table {
  const step = new Map(map.way.steps.map((one) => [one.span, one]));
  return {
    columns: ["Chord", "Bar", "Beat", "Placement", "Fingers", "Slides", "Leaves out", "On the shortest way"],
    rows: map.chords.flatMap((chord) =>
      chord.placements.length === 0
        ? [[withAccidentals(chord.symbol), chord.bar, chord.beat, "none: the hand waits", "", "", "", ""]]
        : chord.placements.map((placement) => row(chord, placement, step.get(chord.span))),
    ),
  };
}

function row(
  chord: MappedChord,
  placement: MappedPlacement,
  step: PlacementMap["way"]["steps"][number] | undefined,
): (string | number)[] {
  const shift = step?.shift ?? null;
  return [
    withAccidentals(chord.symbol),
    chord.bar,
    chord.beat,
    withAccidentals(placement.name),
    placement.keys
      .map((key) => `${key.finger} on ${withAccidentals(key.name)} (${withAccidentals(key.degree)})`)
      .join(", "),
    placement.slides
      .map(
        (slide) => `${withAccidentals(slide.fromName)} to ${withAccidentals(slide.toName)} (${slide.manner})`,
      )
      .join(", "),
    placement.leftOut.map((note) => withAccidentals(note.name)).join(", "),
    step?.placement === placement.id
      ? shift === null || shift === 0
        ? "yes"
        : `yes, ${Math.abs(shift)} semitones ${shift > 0 ? "up" : "down"}`
      : "",
  ];
}
