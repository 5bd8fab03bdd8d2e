/** What stands otherwise on paper than on the screen and cannot be said by a style sheet alone. */

/** CSS pixels between the margins of A4 (210 mm less twice 14), the narrower paper: what is drawn wider is printed smaller than it was drawn. */
export const PAPER_WIDTH = 688;

/** Does one thing before the page is printed and another one after it. @returns the way to end that */
export function onPaper(before: () => void, after: () => void): () => void {
  addEventListener("beforeprint", before);
  addEventListener("afterprint", after);
  return () => {
    removeEventListener("beforeprint", before);
    removeEventListener("afterprint", after);
  };
}
