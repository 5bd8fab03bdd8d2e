/** Saving what the engraver drew: its glyphs are in the picture, only the colours of the page have to be written in. */
import { download, pngOfImage } from "../draw/picture.ts";
import { s } from "../shell/dom.ts";
import { type SavedKind, saveBar } from "../views/picture-tools.ts";
import { engravedFonts } from "./engraved.ts";

/** "Save picture: SVG PNG" for engraved pages, one file a page. `what` is the file's name and the buttons' word. */
export function saveStaffButtons(what: string, pages: () => readonly SVGSVGElement[]): HTMLElement {
  const keep = async (kind: SavedKind) => {
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
  return saveBar(what, (kind) => void keep(kind));
}

/** The page as SVG text that looks the same without the style sheet: ink on white, whatever the screen shows. */
function standalone(svg: SVGSVGElement): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const box = svg.getBoundingClientRect();
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  copy.setAttribute("width", String(Math.round(box.width)));
  copy.setAttribute("height", String(Math.round(box.height)));
  // Lines have their own widths; what has none is not stroked.
  for (const [name, value] of [
    ["color", "#000"],
    ["fill", "#000"],
    ["stroke", "#000"],
    ["stroke-width", "0"],
  ] as const)
    copy.setAttribute(name, value);
  for (const text of copy.querySelectorAll("text")) text.setAttribute("stroke", "none");
  for (const text of copy.querySelectorAll(".mNum text, .reh text, .worked-out text"))
    text.setAttribute("font-style", "italic");
  for (const frame of copy.querySelectorAll(".reh path, .reh rect")) frame.remove();
  const tones = onPaper(() =>
    [...svg.querySelectorAll(".head-sign")].map((head) => getComputedStyle(head).stroke),
  );
  copy.querySelectorAll(".head-sign").forEach((head, i) => {
    head.setAttribute("stroke", tones[i]!);
    if (head.classList.contains("filled")) head.setAttribute("fill", tones[i]!);
  });
  inLettersOfThePage(copy, svg);
  for (const part of copy.querySelectorAll("[class]")) part.removeAttribute("class");
  const paper = s("rect", { width: "100%", height: "100%", fill: "#fff" });
  const fonts = engravedFonts();
  copy.prepend(...(fonts === "" ? [] : [s("style", {}, fonts)]), paper);
  return new XMLSerializer().serializeToString(copy);
}

/** Writes into the copy what the style sheet says of the letters. */
function inLettersOfThePage(copy: SVGSVGElement, svg: SVGSVGElement): void {
  for (const kind of ["text", ":is(.dir, .verse) tspan"]) {
    const seen = [...svg.querySelectorAll(kind)].map((one) => getComputedStyle(one));
    copy.querySelectorAll(kind).forEach((one, i) => {
      const { fontFamily, fontSize, fontWeight } = seen[i]!;
      one.setAttribute("font-size", fontSize);
      if (kind !== "text") return;
      one.setAttribute("font-family", fontFamily);
      one.setAttribute("font-weight", fontWeight);
    });
  }
}

/** Reads something in the light colours; nothing is painted in between. */
function onPaper<T>(read: () => T): T {
  const { dataset } = document.documentElement;
  const theme = dataset.theme;
  dataset.theme = "light";
  try {
    return read();
  } finally {
    if (theme === undefined) delete dataset.theme;
    else dataset.theme = theme;
  }
}
