/**
 * Two ways in which the program says that something is not as it should be:
 * a `Warning` (the work went on, this is what was repaired or left out) and a `Problem` (the work stopped).
 */

/** Something that was repaired, left out or decided by default. The work went on. */
export interface Warning {
  /** Stable, kebab-case, for programs. */
  readonly code: string;
  /** One sentence for people: what, and what was done about it. */
  readonly message: string;
  /** Place in the source ("track 2, tick 480", "part P1, bar 12", "byte 214"), or null when it is all of it. */
  readonly where: string | null;
}

/** Input that cannot be worked with. `message` says what is wrong, `where` the place, `todo` the way on. */
export class Problem extends Error {
  readonly code: string;
  readonly where: string | null;
  readonly todo: string;

  constructor(code: string, message: string, where: string | null, todo: string) {
    super(message);
    this.name = "Problem";
    this.code = code;
    this.where = where;
    this.todo = todo;
  }
}

/** One line for a terminal or a log: "what (where): what to do". */
export function describeProblem(problem: Problem): string {
  const place = problem.where === null ? "" : ` (${problem.where})`;
  return `${problem.message}${place}. ${problem.todo}`;
}
