/** What was understood rather than read in a chart's text: one warning for each kind, with its first place. */
import type { Warning } from "../take/index.ts";
import { type Place, placeText } from "./chart-place.ts";

export class ChartWarnings {
  private readonly found = new Map<string, { readonly message: string; readonly places: string[] }>();

  /** Only the first message of a code is kept; later places of it are counted. */
  add(code: string, place: Place | null, message: string): void {
    const where = place === null ? "" : placeText(place);
    const before = this.found.get(code);
    if (before === undefined) this.found.set(code, { message, places: [where] });
    else before.places.push(where);
  }

  list(): Warning[] {
    return [...this.found].map(([code, { message, places }]) => ({
      code,
      message: places.length === 1 ? message : `${message} (${places.length} places)`,
      where: places[0] === "" ? null : places[0]!,
    }));
  }
}
