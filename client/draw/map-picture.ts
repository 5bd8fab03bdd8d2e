/** The whole placement map as one picture, to be saved: a row a chord, its placements side by side. */
import type { MappedPlacement, PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { withAccidentals } from "../../src/words/index.ts";
import { s } from "../shell/dom.ts";
import { drawShape, SHAPE_HEIGHT } from "./shape-keys.ts";

const CARD = 264;
const KEYS = 250;
const HEAD = 54;
const TITLE = 26;
const ROW = TITLE + 20 + SHAPE_HEIGHT + 14;
const SIDE = 24;

export interface MapRow {
  /** "F7, bars 1 to 4" */
  readonly name: string;
  readonly placements: readonly MappedPlacement[];
  /** Id of the placement on the shortest way. */
  readonly onWay: string | null;
}

export interface KeyRange {
  readonly low: number;
  readonly high: number;
}

export function mapPicture(title: string, map: PlacementMap, rows: readonly MapRow[], range: KeyRange) {
  const most = Math.max(1, ...rows.map((row) => row.placements.length));
  const width = Math.max(620, SIDE * 2 + most * CARD);
  const svg = s("svg", {
    viewBox: `0 0 ${width} ${HEAD + rows.length * ROW + 16}`,
    class: "map-picture",
    "data-hand": map.hand,
  });
  svg.append(s("text", { class: "map-title", x: SIDE, y: 32 }, title));
  rows.forEach((row, i) => {
    const y = HEAD + i * ROW;
    svg.append(
      s("text", { class: "map-row-name", x: SIDE, y: y + 14 }, row.name),
      s("path", { class: "rule strong", d: `M${SIDE},${y + 22}H${width - SIDE}` }),
    );
    if (row.placements.length === 0) {
      svg.append(s("text", { class: "label faint", x: SIDE, y: y + TITLE + 18 }, "no place: the hand waits"));
    }
    row.placements.forEach((placement, n) => {
      const x = SIDE + n * CARD;
      const keys = shapeOfPlacement(placement, range, KEYS);
      svg.append(
        placement.id === row.onWay
          ? s("rect", {
              class: "map-way",
              x: x - 6,
              y: y + TITLE + 1,
              width: CARD - 6,
              height: ROW - TITLE - 8,
              rx: 3,
            })
          : s("g", {}),
        s("text", { class: "label", x, y: y + TITLE + 15 }, withAccidentals(placement.name)),
        s("g", { transform: `translate(${x} ${y + TITLE + 20})` }, ...keys.childNodes),
      );
    });
  });
  return svg;
}

/** One placement on its keys: fingers, degrees, slides, what the next chord keeps. */
export function shapeOfPlacement(placement: MappedPlacement, range: KeyRange, width: number): SVGSVGElement {
  const common = new Set(placement.commonWithNext.map((key) => key.pitch));
  return drawShape({
    keys: placement.keys.map((key) => ({
      pitch: key.pitch,
      finger: key.finger,
      anchor: key.pitch === placement.anchorPitch,
      word: withAccidentals(key.degree),
      common: common.has(key.pitch),
    })),
    slides: placement.slides.map((slide) => ({
      from: slide.from,
      to: slide.to,
      bold: slide.manner === "bold",
    })),
    low: range.low,
    high: range.high,
    width,
  });
}
