/** The findings of a take as somebody reads them: first the player's own view where the teacher asks for it. */
import type { Finding } from "../../src/account.ts";
import { type Feedback, type Lesson, shownFindings } from "../../src/findings/lesson.ts";
import { FINDING_KINDS, isGoal } from "../findings/finding-words.ts";
import type { Selection } from "../shell/selection.ts";

export interface LessonReading {
  /** Nothing of the findings is shown until the player has written. */
  readonly waiting: boolean;
  /** The player's own view. */
  readonly own: string;
  /** Id of the finding whose notes are chosen. */
  readonly chosen: string | null;
}

export interface FindingGroup {
  readonly kind: Finding["kind"] | "goals";
  readonly heading: string;
  readonly findings: readonly Finding[];
  /** What is said where there is none. */
  readonly none: string;
}

export function openedLesson(feedback: Feedback): LessonReading {
  return { waiting: feedback.askFirst && !feedback.asked, own: feedback.own, chosen: null };
}

export function writeOwn(state: LessonReading, own: string): LessonReading {
  return { ...state, own };
}

export function showFindings(state: LessonReading): LessonReading {
  return { ...state, own: state.own.trim(), waiting: false };
}

export function followSelection(state: LessonReading, selection: Selection): LessonReading {
  return { ...state, chosen: selection.kind === "finding" ? selection.finding : null };
}

/** Goals, where there are any. */
export function goalGroup({ analysis, feedback }: Lesson): FindingGroup | null {
  const findings = shownFindings(analysis, feedback).filter(isGoal);
  return findings.length === 0 ? null : { kind: "goals", heading: "Goals", findings, none: "" };
}

/** What works, what to practise, what to notice. */
export function findingGroups({ analysis, feedback }: Lesson): FindingGroup[] {
  const shown = shownFindings(analysis, feedback).filter((finding) => !isGoal(finding));
  return FINDING_KINDS.map((group) => ({
    ...group,
    findings: shown.filter(({ kind }) => kind === group.kind),
  }));
}
