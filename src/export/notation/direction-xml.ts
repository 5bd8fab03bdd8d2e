import { element, textElement } from "./xml.ts";

/** A `<direction>`, above the staff unless `placement` says otherwise. */
export function directionElement(
  type: string,
  offset: number,
  staff: number | null,
  sound = "",
  placement: "above" | "below" = "above",
): string {
  return element(
    "direction",
    { placement },
    element("direction-type", {}, type),
    offset === 0 ? "" : textElement("offset", offset),
    staff === null ? "" : textElement("staff", staff),
    sound,
  );
}
