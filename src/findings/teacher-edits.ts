import type { Finding } from "../account.ts";

/** What a teacher changes before a page is handed out. */
export interface TeacherEdits {
  /** Ids of findings that are not to be shown. */
  readonly hidden: readonly string[];
  /** Own words for a finding, by id. */
  readonly texts: Readonly<Record<string, string>>;
  /** Findings of the teacher's own; shown after the others of their kind. */
  readonly added: readonly Pick<Finding, "heading" | "kind" | "text" | "evidence" | "bars">[];
}

const REMARK = "teacher-";

/** Whether a finding is a remark of the teacher's own. */
export const isRemark = ({ id }: Pick<Finding, "id">): boolean => id.startsWith(REMARK);

/** The findings as the teacher wants them: in the same order, hidden ones gone, own words in place, own ones added. */
export function withEdits(findings: readonly Finding[], edits: TeacherEdits): Finding[] {
  const hidden = new Set(edits.hidden);
  const kept = findings
    .filter((finding) => !hidden.has(finding.id))
    .map((finding) => ({ ...finding, text: edits.texts[finding.id] ?? finding.text }));
  const added = edits.added.map(
    (one, i): Finding => ({ ...one, id: `${REMARK}${i + 1}`, weight: 1, practice: null }),
  );
  const kinds = ["works", "practise", "notice"] as const;
  const goals = kept.filter((finding) => finding.id.startsWith("goal-"));
  const others = [...kept.filter((finding) => !finding.id.startsWith("goal-")), ...added];
  return [...goals, ...kinds.flatMap((kind) => others.filter((finding) => finding.kind === kind))];
}
