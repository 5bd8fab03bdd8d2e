/** Where lines of a score end in a window that is narrower than its own lines. */

const NEW_LINE = '<print new-system="yes"/>';

/**
 * The score with lines of so many bars, in place of its own. Left to itself, the engraver puts one bar on the first line
 * and all others on the second where words stand under most bars, at half of their width.
 *
 * @param musicXml as this room writes it, of one part
 * @param bars on a line, 1 or more
 */
export function inLinesOf(musicXml: string, bars: number): string {
  let bar = 0;
  return musicXml.replaceAll(NEW_LINE, "").replaceAll(/<measure [^>]*>/g, (opening) => {
    const begins = bar > 0 && bar % bars === 0;
    bar++;
    return begins ? opening + NEW_LINE : opening;
  });
}
