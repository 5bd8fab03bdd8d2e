/** Finds the sign nearest to the pointer, so that small signs need no aim. */
import { Delaunay } from "d3";

export interface Nearest {
  /** Index of the nearest point within `reach` pixels, or null. */
  find(x: number, y: number, reach: number): number | null;
}

export function nearestOf(points: readonly { readonly x: number; readonly y: number }[]): Nearest {
  if (points.length === 0) return { find: () => null };
  // Laid when it is first pointed: until then the picture has stood for a while.
  let mesh: Delaunay<{ readonly x: number; readonly y: number }> | null = null;
  let last = 0;
  return {
    find(x, y, reach) {
      mesh ??= Delaunay.from(
        points,
        (point) => point.x,
        (point) => point.y,
      );
      last = mesh.find(x, y, last);
      const point = points[last];
      return point && Math.hypot(point.x - x, point.y - y) <= reach ? last : null;
    },
  };
}

/** Place of a pointer event in the units of the drawing. */
export function pointIn(svg: SVGSVGElement, event: MouseEvent): { x: number; y: number } {
  const box = svg.getBoundingClientRect();
  const view = svg.viewBox.baseVal;
  return {
    x: ((event.clientX - box.left) * view.width) / box.width,
    y: ((event.clientY - box.top) * view.height) / box.height,
  };
}
