import { element, textElement } from "./xml.ts";

/** A `<direction>` above the staff. */
export function directionElement(type: string, offset: number, staff: number | null, sound = ""): string {
  return element(
    "direction",
    { placement: "above" },
    element("direction-type", {}, type),
    offset === 0 ? "" : textElement("offset", offset),
    staff === null ? "" : textElement("staff", staff),
    sound,
  );
}
