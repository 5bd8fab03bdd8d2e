/** Lists and templates. */

/** "a, b and c"; empty for nothing. */
export function listInWords(items: readonly string[]): string {
  if (items.length <= 1) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}

/** The text with a capital at its beginning. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Fills the braces of a template; a brace without a word is an error of the rule, not of the take. */
export function fill(template: string, words: Readonly<Record<string, string>>): string {
  const text = template.replace(/\{(\w+)\}/g, (_, name: string) => {
    const word = words[name];
    if (word === undefined) throw new Error(`no word for {${name}} in "${template}"`);
    return word;
  });
  // A filled word may open a sentence.
  return text.replace(
    /(^|[.?!] )([a-z])/g,
    (_, before: string, letter: string) => before + letter.toUpperCase(),
  );
}
