/** Several small pictures with their captions as one, row after row, so that they can be saved together. */
import { s } from "../shell/dom.ts";

export interface Part {
  readonly caption: string;
  readonly svg: SVGSVGElement;
}

const GAP = 24;
const CAPTION = 22;

/**
 * The parts in `columns`, each under its caption. The result stands outside the window, since only what stands in the
 * page has its styles; whoever saves it takes it out again (`leaveStage`).
 */
export function gather(parts: readonly Part[], columns: number): SVGSVGElement | null {
  if (parts.length === 0) return null;
  const width = Math.max(...parts.map((part) => part.svg.viewBox.baseVal.width));
  const height = Math.max(...parts.map((part) => part.svg.viewBox.baseVal.height));
  const [stepX, stepY] = [width + GAP, height + CAPTION + GAP];
  const rows = Math.ceil(parts.length / columns);
  const across = Math.min(columns, parts.length);
  const svg = s("svg", {
    viewBox: `0 0 ${across * stepX + GAP} ${rows * stepY + GAP}`,
    width: across * stepX + GAP,
    height: rows * stepY + GAP,
  });
  parts.forEach((part, i) => {
    const x = GAP + (i % columns) * stepX;
    const y = GAP + Math.floor(i / columns) * stepY;
    const group = s("g", {
      class: part.svg.getAttribute("class") ?? "",
      transform: `translate(${x},${y + CAPTION})`,
    });
    for (const child of part.svg.childNodes) group.append(child.cloneNode(true));
    svg.append(s("text", { class: "label strong", x, y: y + 12 }, part.caption), group);
  });
  const stage = document.createElement("div");
  stage.className = "off-stage";
  stage.setAttribute("aria-hidden", "true");
  stage.append(svg);
  document.body.append(stage);
  return svg;
}

/** Takes a gathered picture out of the page again; any other picture stays where it is. */
export function leaveStage(svg: SVGSVGElement): void {
  svg.closest(".off-stage")?.remove();
}
