/** A finished drawing as a file of its own: SVG with its styles written in, PNG painted from the same shapes. */

const STYLED = [
  "fill",
  "fill-opacity",
  "fill-rule",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "stroke-linecap",
  "stroke-linejoin",
  "opacity",
  "font-family",
  "font-size",
  "font-weight",
  "font-style",
  "text-anchor",
  "paint-order",
] as const;

/** The drawing as SVG text that looks the same without the page's style sheet. */
export function svgText(svg: SVGSVGElement, title: string): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const from = [svg, ...svg.querySelectorAll<SVGElement>("*")];
  const to = [copy, ...copy.querySelectorAll<SVGElement>("*")];
  const gone: Element[] = [];
  from.forEach((element, i) => {
    const target = to[i]!;
    const style = getComputedStyle(element);
    if (style.display === "none" || element.classList.contains("handle")) {
      gone.push(target);
      return;
    }
    for (const name of STYLED) {
      const value = style.getPropertyValue(name);
      if (value !== "") target.setAttribute(name, value);
    }
    target.removeAttribute("class");
    target.removeAttribute("tabindex");
  });
  for (const element of gone) element.remove();
  const box = svg.viewBox.baseVal;
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  copy.setAttribute("width", String(box.width));
  copy.setAttribute("height", String(box.height));
  const doc = document.createElementNS("http://www.w3.org/2000/svg", "title");
  doc.textContent = title;
  const paper = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  paper.setAttribute("width", "100%");
  paper.setAttribute("height", "100%");
  paper.setAttribute("fill", paperColour());
  copy.prepend(doc, paper);
  return new XMLSerializer().serializeToString(copy);
}

/**
 * The drawing as PNG at `scale` pixels to a CSS pixel. The shapes are painted one by one, since a picture that
 * is loaded as SVG may not use the page's own fonts.
 */
export async function pngBlob(svg: SVGSVGElement, scale = 2): Promise<Blob> {
  const box = svg.viewBox.baseVal;
  const canvas = document.createElement("canvas");
  canvas.width = Math.ceil(box.width * scale);
  canvas.height = Math.ceil(box.height * scale);
  const pen = canvas.getContext("2d");
  if (!pen) throw new Error("This browser gives no canvas to paint on.");
  pen.fillStyle = paperColour();
  pen.fillRect(0, 0, canvas.width, canvas.height);
  const base = svg.getCTM()?.inverse() ?? new DOMMatrix();
  paint(svg, pen, new DOMMatrix([scale, 0, 0, scale, 0, 0]), base, 1);
  return new Promise((resolve, reject) =>
    canvas.toBlob(
      (blob) => (blob ? resolve(blob) : reject(new Error("The picture could not be made."))),
      "image/png",
    ),
  );
}

function paint(
  element: SVGElement,
  pen: CanvasRenderingContext2D,
  scale: DOMMatrix,
  base: DOMMatrix,
  opacity: number,
): void {
  const style = getComputedStyle(element);
  if (style.display === "none" || style.visibility === "hidden" || element.classList.contains("handle"))
    return;
  const alpha = opacity * Number(style.opacity || 1);
  if (element instanceof SVGGraphicsElement && !(element instanceof SVGSVGElement)) {
    const matrix = element.getCTM();
    if (matrix) {
      pen.setTransform(scale.multiply(base).multiply(DOMMatrix.fromMatrix(matrix)));
      const shape = outline(element);
      if (shape) stain(shape, style, pen, alpha);
      else if (element instanceof SVGTextElement) write(element, style, pen, alpha);
    }
  }
  if (element instanceof SVGTextElement) return;
  for (const child of element.children) {
    if (child instanceof SVGElement && child.tagName !== "defs" && child.tagName !== "title") {
      paint(child, pen, scale, base, alpha);
    }
  }
}

function outline(element: SVGElement): Path2D | null {
  const number = (name: string) => Number(element.getAttribute(name) ?? 0);
  const path = new Path2D();
  switch (element.tagName) {
    case "path":
      return new Path2D(element.getAttribute("d") ?? "");
    case "rect":
      path.roundRect(number("x"), number("y"), number("width"), number("height"), number("rx"));
      return path;
    case "circle":
      path.arc(number("cx"), number("cy"), number("r"), 0, 2 * Math.PI);
      return path;
    case "ellipse":
      path.ellipse(number("cx"), number("cy"), number("rx"), number("ry"), 0, 0, 2 * Math.PI);
      return path;
    case "line":
      path.moveTo(number("x1"), number("y1"));
      path.lineTo(number("x2"), number("y2"));
      return path;
    default:
      return null;
  }
}

function stain(
  shape: Path2D,
  style: CSSStyleDeclaration,
  pen: CanvasRenderingContext2D,
  alpha: number,
): void {
  if (style.fill !== "none") {
    pen.globalAlpha = alpha * Number(style.fillOpacity || 1);
    pen.fillStyle = style.fill;
    pen.fill(shape, style.fillRule as CanvasFillRule);
  }
  if (style.stroke !== "none") {
    pen.globalAlpha = alpha;
    pen.strokeStyle = style.stroke;
    pen.lineWidth = Number.parseFloat(style.strokeWidth) || 1;
    pen.lineCap = (style.strokeLinecap as CanvasLineCap) || "butt";
    pen.setLineDash(
      style.strokeDasharray === "none"
        ? []
        : style.strokeDasharray.split(/[\s,]+/).map((n) => Number.parseFloat(n)),
    );
    pen.stroke(shape);
  }
}

function write(
  element: SVGTextElement,
  style: CSSStyleDeclaration,
  pen: CanvasRenderingContext2D,
  alpha: number,
): void {
  pen.globalAlpha = alpha;
  pen.fillStyle = style.fill;
  pen.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  pen.textAlign = style.textAnchor === "middle" ? "center" : style.textAnchor === "end" ? "right" : "left";
  pen.fillText(
    element.textContent ?? "",
    Number(element.getAttribute("x") ?? 0),
    Number(element.getAttribute("y") ?? 0) + Number(element.getAttribute("dy") ?? 0),
  );
}

function paperColour(): string {
  return getComputedStyle(document.documentElement).getPropertyValue("--sheet").trim() || "#fffaf0";
}

/** Hands a file to the browser to keep. */
export function download(name: string, blob: Blob): void {
  const link = document.createElement("a");
  const address = URL.createObjectURL(blob);
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** PNG of SVG text that needs nothing from outside (an engraved staff carries its own glyphs). */
export async function pngOfImage(svg: string, width: number, height: number, scale = 2): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = Math.ceil(width * scale);
    canvas.height = Math.ceil(height * scale);
    const pen = canvas.getContext("2d");
    if (!pen) throw new Error("This browser gives no canvas to paint on.");
    pen.fillStyle = "#fff";
    pen.fillRect(0, 0, canvas.width, canvas.height);
    pen.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) =>
      canvas.toBlob(
        (blob) => (blob ? resolve(blob) : reject(new Error("The picture could not be made."))),
        "image/png",
      ),
    );
  } finally {
    URL.revokeObjectURL(address);
  }
}
