/** A very small way of making elements; styles go by class or CSSOM, since the security policy allows no inline ones. */

export type Child = Node | string | number | null | undefined | false | readonly Child[];

export type Properties = {
  readonly [name: string]: string | number | boolean | null | undefined | ((event: never) => void);
};

/**
 * An element with attributes, listeners (`onClick`) and children.
 *
 * @example h("button", { class: "quiet", onClick: save }, "Save")
 */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  properties: Properties = {},
  ...children: Child[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  assign(element, properties);
  append(element, children);
  return element;
}

const SVG = "http://www.w3.org/2000/svg";

/** The same for SVG. */
export function s<K extends keyof SVGElementTagNameMap>(
  tag: K,
  properties: Properties = {},
  ...children: Child[]
): SVGElementTagNameMap[K] {
  const element = document.createElementNS(SVG, tag);
  assign(element, properties);
  append(element, children);
  return element;
}

/** Puts `children` in place of what the element held. */
export function fill(element: Element, ...children: Child[]): void {
  element.replaceChildren();
  append(element, children);
}

function assign(element: Element, properties: Properties): void {
  for (const [name, value] of Object.entries(properties)) {
    if (value === null || value === undefined || value === false) continue;
    if (typeof value === "function") {
      element.addEventListener(name.slice(2).toLowerCase(), value as EventListener);
    } else element.setAttribute(name, value === true ? "" : String(value));
  }
}

function append(element: Element, children: readonly Child[]): void {
  for (const child of children) {
    if (child === null || child === undefined || child === false) continue;
    if (Array.isArray(child)) append(element, child);
    else element.append(typeof child === "number" ? String(child) : (child as Node | string));
  }
}
