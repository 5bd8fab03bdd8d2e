/** A problem as data: between threads and in the store an error would lose what it knows. */
import { Problem } from "../src/take/index.ts";

export type ProblemFacts = Pick<Problem, "code" | "message" | "where" | "todo">;

export function problemFacts({ code, message, where, todo }: Problem): ProblemFacts {
  return { code, message, where, todo };
}

export function problemFrom({ code, message, where, todo }: ProblemFacts): Problem {
  return new Problem(code, message, where, todo);
}
