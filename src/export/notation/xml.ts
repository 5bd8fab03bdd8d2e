/** An element as text: its attributes that are not null, and its content, which is already XML. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string | number | null>>,
  ...content: readonly string[]
): string {
  let open = name;
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== null) open += ` ${key}="${escapeXml(String(value))}"`;
  }
  return content.length === 0 ? `<${open}/>` : `<${open}>${content.join("")}</${name}>`;
}

/** An element that holds only text. */
export function textElement(name: string, text: string | number): string {
  return `<${name}>${escapeXml(String(text))}</${name}>`;
}

const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** Text for XML 1.0: markup escaped, characters that the standard forbids left out. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\P{Cc}]|\p{Cs}|[\ufffe\uffff]/gu, "")
    .replace(/[&<>"]/g, (sign) => ESCAPES[sign]!);
}
