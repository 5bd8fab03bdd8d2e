/** A place where a law of the house is broken. */
export interface Breach {
  /** Path from the root, with ":LINE" where a line can be named. */
  readonly where: string;
  /** What is so, and what to do. */
  readonly text: string;
}
