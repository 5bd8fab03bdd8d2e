/** Saving what the engraver drew: its glyphs are in the picture, only the colours of the page have to be written in. */
import { download, pngOfImage } from "../draw/picture.ts";
import { h } from "../shell/dom.ts";

/** "Save picture: SVG PNG" for engraved pages, one file a page. `what` is the file's name and the buttons' word. */
export function keepStaffButtons(what: string, pages: () => readonly SVGSVGElement[]): HTMLElement {
  const keep = async (kind: "svg" | "png") => {
    const all = pages();
    for (const [i, page] of all.entries()) {
      const text = standalone(page);
      const name = `${what.replace(/\s+/g, "-")}${all.length > 1 ? `-${i + 1}` : ""}.${kind}`;
      const box = page.getBoundingClientRect();
      download(
        name,
        kind === "svg"
          ? new Blob([text], { type: "image/svg+xml" })
          : await pngOfImage(text, box.width, box.height),
      );
    }
  };
  const button = (kind: "svg" | "png") =>
    h(
      "button",
      {
        type: "button",
        class: "quiet",
        "aria-label": `Save ${what} as ${kind.toUpperCase()}`,
        onClick: () => void keep(kind),
      },
      kind.toUpperCase(),
    );
  return h(
    "div",
    { class: "save" },
    h("span", { class: "save-word" }, "Save picture: "),
    button("svg"),
    button("png"),
  );
}

/** The page as SVG text that looks the same without the style sheet. */
export function standalone(svg: SVGSVGElement): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const box = svg.getBoundingClientRect();
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  copy.setAttribute("width", String(Math.round(box.width)));
  copy.setAttribute("height", String(Math.round(box.height)));
  // Ink on white, whatever the screen shows: the engraver's strokes and glyphs take the colour of the text.
  copy.setAttribute("color", "#000");
  copy.setAttribute("fill", "#000");
  const from = svg.querySelectorAll("g.note .notehead");
  copy.querySelectorAll("g.note .notehead").forEach((head, i) => {
    const note = head.closest("g.note");
    if (note && /\brole-/.test(note.getAttribute("class") ?? ""))
      head.setAttribute("fill", getComputedStyle(from[i]!).fill);
  });
  const paper = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  paper.setAttribute("width", "100%");
  paper.setAttribute("height", "100%");
  paper.setAttribute("fill", "#fff");
  copy.prepend(paper);
  return new XMLSerializer().serializeToString(copy);
}
