import type { Analysis, Finding } from "../account.ts";
import type { PracticeSheet } from "../practice/index.ts";
import type { Feedback } from "./feedback-schema.ts";
import { withEdits } from "./teacher-edits.ts";

export type { Feedback } from "./feedback-schema.ts";
export { isRemark } from "./teacher-edits.ts";

/** Everything that a page of one take shows, in one piece: for a reader, or for a file that opens without a server. */
export interface Lesson {
  readonly take: {
    readonly title: string;
    readonly player: string | null;
    /** ISO date or null. */
    readonly date: string | null;
    readonly chartName: string | null;
    readonly key: string;
  };
  readonly analysis: Analysis;
  readonly feedback: Feedback;
  readonly sheet: PracticeSheet;
  /** Exercises as engraved, by exercise id; those that are missing are shown without notation. */
  readonly staves: Readonly<Record<string, EngravedExercise>>;
}

/** One exercise as SVG text, as wide as paper and as wide as a phone. */
export interface EngravedExercise {
  /** "Swing, ♩ = 66", to be written above both; empty for none. */
  readonly head: string;
  readonly wide: string;
  readonly narrow: string;
}

export const NO_FEEDBACK: Feedback = {
  hidden: [],
  edited: {},
  added: [],
  signed: "",
  own: "",
  askFirst: false,
  asked: false,
};

/** The findings as the teacher wants them: goals first, hidden ones gone, own words in place, own remarks added. */
export function shownFindings(analysis: Analysis, feedback: Feedback): Finding[] {
  return withEdits(analysis.findings, {
    hidden: feedback.hidden,
    texts: feedback.edited,
    added: feedback.added.map(({ kind, heading, text }) => ({
      kind,
      heading: heading ?? "phrasing and shape",
      text,
      evidence: [],
      bars: [],
    })),
  });
}
