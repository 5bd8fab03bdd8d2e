/** What the teacher and the player add to the findings of a take; kept in this browser, beside the take. */
export interface FeedbackNotes {
  hidden: string[];
  /** The teacher's wording by finding id. */
  edited: Record<string, string>;
  added: { kind: "works" | "practise" | "notice"; text: string }[];
  signed: string;
  /** The player's own evaluation. */
  own: string;
  /** Show the findings only after the player has written. */
  askFirst: boolean;
  /** The player has written. */
  asked: boolean;
}

const key = (takeId: string) => `ledgerline-feedback-${takeId}`;

export function readNotes(takeId: string): FeedbackNotes {
  const empty: FeedbackNotes = {
    hidden: [],
    edited: {},
    added: [],
    signed: "",
    own: "",
    askFirst: false,
    asked: false,
  };
  try {
    return { ...empty, ...(JSON.parse(localStorage.getItem(key(takeId)) ?? "{}") as Partial<FeedbackNotes>) };
  } catch {
    return empty;
  }
}

export function keepNotes(takeId: string, notes: FeedbackNotes): void {
  localStorage.setItem(key(takeId), JSON.stringify(notes));
}
