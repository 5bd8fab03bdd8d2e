/**
 * The tempo and the manner of a score ("Swing, ♩ = 66"), taken out of its first bar: the engraver sets them through the
 * first chord symbol, so the page writes them on a line of their own.
 */

const DIRECTION = /<direction\b[\s\S]*?<\/direction>/g;

/** @returns the line, empty where the score has none, and the score without those words; its sounds stay */
export function partHead(xml: string): { readonly head: string; readonly rest: string } {
  const end = xml.indexOf("</measure>");
  if (end < 0) return { head: "", rest: xml };
  const words: string[] = [];
  const first = xml.slice(0, end).replace(DIRECTION, (direction) => {
    const tempo = /<per-minute>([^<]*)<\/per-minute>/.exec(direction);
    if (tempo !== null) words.push(`♩ = ${Math.round(Number(tempo[1]))}`);
    else if (/<words[^>]*>Swing<\/words>/.test(direction)) words.unshift("Swing");
    else return direction;
    return "";
  });
  return { head: words.join(", "), rest: first + xml.slice(end) };
}
