/** The frame for pictures that stand outside a take's selection: comparison, progress, placements, corpora. */
import { h } from "../shell/dom.ts";
import { LEAST_WIDTH } from "./canvas.ts";
import { onPaper, PAPER_WIDTH } from "./on-paper.ts";
import { saveButtons, tableBelow } from "./picture-tools.ts";
import type { Table } from "./view.ts";

export interface PlainPicture {
  readonly id: string;
  readonly title: string;
  readonly units: string;
  /** Why there is nothing to draw, or null. */
  readonly empty: string | null;
  readonly draw: (width: number) => SVGSVGElement;
  readonly table: () => Table;
}

/** `controls` are choices that belong to this picture alone; they stay when there is nothing to draw. */
export function framePlain(picture: PlainPicture, controls: readonly Node[] = []): HTMLElement {
  const headingId = `${picture.id}-title`;
  const section = h("section", {
    class: `view view-${picture.id}`,
    id: picture.id,
    "aria-labelledby": headingId,
  });
  const heading = h("h2", { id: headingId }, picture.title);
  if (picture.empty !== null) {
    section.append(h("header", {}, heading), ...choices(controls), h("p", { class: "empty" }, picture.empty));
    return section;
  }
  let drawing: SVGSVGElement | null = null;
  let width = 0;
  const plot = h("div", { class: "plot" });
  // Room for the picture before it is drawn, so that what stands below does not jump.
  const guess = roomInPage();
  if (guess > 0) plot.style.minHeight = `${picture.draw(guess).viewBox.baseVal.height}px`;
  const sized = new ResizeObserver(() => {
    if (!plot.isConnected) {
      sized.disconnect();
      return;
    }
    const next = plot.clientWidth;
    if (next < LEAST_WIDTH || next === width) return;
    width = next;
    drawing = drawn(picture, width);
    plot.replaceChildren(drawing);
    plot.classList.add("drawn");
    plot.style.minHeight = "";
    // Whoever marks what is chosen does so anew.
    plot.dispatchEvent(new CustomEvent("drawn", { bubbles: true }));
  });
  sized.observe(plot);
  const endPaper = onPaper(
    () => {
      if (!plot.isConnected) endPaper();
      else if (width > PAPER_WIDTH) plot.replaceChildren(drawn(picture, PAPER_WIDTH));
    },
    () => {
      if (drawing !== null && drawing.parentElement !== plot) plot.replaceChildren(drawing);
    },
  );
  section.append(
    h(
      "header",
      {},
      heading,
      saveButtons(picture.id, picture.title, (use) => (drawing ? use(drawing) : null)),
    ),
    h("p", { class: "units" }, picture.units),
    ...choices(controls),
    plot,
    tableBelow(picture.title, picture.table),
  );
  return section;
}

/** The picture at its own size, with its words for those who do not see it. */
function drawn({ draw, title, units }: PlainPicture, width: number): SVGSVGElement {
  const svg = draw(width);
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", `${title}. ${units} The numbers stand in the table below.`);
  svg.setAttribute("width", String(svg.viewBox.baseVal.width));
  svg.setAttribute("height", String(svg.viewBox.baseVal.height));
  return svg;
}

const choices = (controls: readonly Node[]) =>
  controls.length === 0 ? [] : [h("div", { class: "controls" }, controls)];

/** Width of a picture that spans the page, in CSS pixels; 0 before there is a page. */
function roomInPage(): number {
  const main = document.querySelector("main");
  if (!main) return 0;
  const { paddingLeft, paddingRight } = getComputedStyle(main);
  const own = Math.min(19.2, Math.max(11.2, window.innerWidth * 0.014));
  return main.clientWidth - Number.parseFloat(paddingLeft) - Number.parseFloat(paddingRight) - 2 * own - 2;
}
