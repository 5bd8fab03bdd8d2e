/** A problem as data: between threads and in the store an error would lose what it knows. */
import { Problem } from "../src/take/index.ts";

export type SerialisedProblem = Pick<Problem, "code" | "message" | "where" | "todo">;

export function serialiseProblem({ code, message, where, todo }: Problem): SerialisedProblem {
  return { code, message, where, todo };
}

export function problemFrom({ code, message, where, todo }: SerialisedProblem): Problem {
  return new Problem(code, message, where, todo);
}
