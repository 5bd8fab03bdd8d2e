import type { Finding } from "../account.ts";

/** How many findings of each kind a page carries: a student can work on three things, not on ten. [practice] */
const MOST = { works: 3, practise: 3, notice: 3 } as const;

/** Care of the hand is said once, last, and takes no other notice's place. */
const CARE = "wide-stretch";

/** A finding of a rule may not be outweighed by more than this because its heading has been used already. */
const SAME_HEADING = 0.5;

/**
 * The findings that are said, by kind, heaviest first; a heading that was used already counts half, so that the
 * three speak of different things when there are different things to say. Goals always come first.
 */
export function chooseFindings(all: readonly Finding[]): Finding[] {
  const goals = all.filter((finding) => finding.id.startsWith("goal-"));
  const care = all.filter((finding) => finding.id === CARE);
  const rest = all.filter((finding) => !finding.id.startsWith("goal-") && finding.id !== CARE);
  return [
    ...goals,
    ...chooseKind(rest, "works"),
    ...chooseKind(rest, "practise"),
    ...chooseKind(rest, "notice"),
    ...care,
  ];
}

function chooseKind(all: readonly Finding[], kind: Finding["kind"]): Finding[] {
  const left = all.filter((finding) => finding.kind === kind);
  const chosen: Finding[] = [];
  while (chosen.length < MOST[kind] && left.length > 0) {
    const used = new Set(chosen.map((finding) => finding.heading));
    const worth = (finding: Finding) => finding.weight * (used.has(finding.heading) ? SAME_HEADING : 1);
    left.sort((a, b) => worth(b) - worth(a) || (a.id < b.id ? -1 : 1));
    chosen.push(left.shift()!);
  }
  return chosen;
}
