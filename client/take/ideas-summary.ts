/** What becomes of the ideas, in words: where each is first heard, what it is carried into, which phrase answers which. */
import type { AccountMotif } from "../../src/account.ts";
import { capital, count, listInWords, percent, placeInWords } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { type Place, type ToldRow, toldSection } from "./summary-section.ts";

export function ideasTold(index: AccountIndex, store: SelectionStore): HTMLElement {
  const { motifs, phrases } = index.analysis;
  return toldSection(
    "ideas-told",
    "What becomes of the ideas",
    "A motif's life over the choruses, and phrases that take up what the one before them said.",
    [...motifs.map((motif) => lifeOf(index, motif)), callsAndAnswers(index, phrases.length)],
    store,
  );
}

function lifeOf(index: AccountIndex, motif: AccountMotif): ToldRow {
  const { firstHeard, carriedOver, droppedFrom, byChorus } = motif.development;
  const first = motif.occurrences[0];
  const counts = byChorus.map(({ chorus, occurrences }) => `${occurrences} in chorus ${chorus}`);
  const life = [
    `First heard in chorus ${firstHeard.chorus}, ${firstHeard.bar < 1 ? "in the pickup" : `bar ${firstHeard.bar}`}`,
    carriedOver.length > 0
      ? `carried over into ${choruses(carriedOver)}`
      : index.choruses.length > 1
        ? "not carried over into another chorus"
        : "",
    droppedFrom === null ? "" : `not heard any more from chorus ${droppedFrom} on`,
  ].filter(Boolean);
  const answered = motif.answers.length;
  return {
    name: `Motif ${motif.id.replace(/^m/, "")}`,
    words: `${life.join(", ")}: ${counts.join(", ")}. It covers ${percent(motif.coverage)} of the notes${
      answered > 0
        ? `, and ${count(answered, "phrase")} ${answered === 1 ? "takes" : "take"} it up from the phrase before`
        : ""
    }.`,
    places: [
      { words: "all its places", select: { kind: "motif", motif: motif.id } },
      ...(first
        ? [
            {
              words: "where it is first heard",
              select: { kind: "stretch", first: first.firstNote, last: first.lastNote },
            } satisfies Place,
          ]
        : []),
      ...motif.answers.flatMap(({ call, answer }) => pair(index, call, answer)),
    ],
  };
}

function callsAndAnswers(index: AccountIndex, phrases: number): ToldRow {
  const answers = index.analysis.phrases.filter((phrase) => phrase.answers !== null);
  return {
    name: "Question and answer",
    words:
      answers.length === 0
        ? phrases < 2
          ? "There is one phrase, so none answers another."
          : `None of the ${count(phrases, "phrase")} answers the one before it.`
        : `${capital(count(answers.length, "phrase"))} of ${phrases} ${answers.length === 1 ? "answers" : "answer"} the one before.`,
    places: answers.flatMap((phrase) => pair(index, phrase.answers!, phrase.id)),
  };
}

/** Two phrases to be heard one after the other. */
function pair(index: AccountIndex, call: string, answer: string): Place[] {
  const [a, b] = [index.phrase.get(call), index.phrase.get(answer)];
  if (!a || !b) return [];
  return [
    {
      words: `${placeInWords(a)}, answered in ${placeInWords(b)}`,
      select: { kind: "stretch", first: a.firstNote, last: b.lastNote },
    },
  ];
}

function choruses(list: readonly number[]): string {
  if (list.length === 1) return `chorus ${list[0]}`;
  return `choruses ${listInWords(list.map(String))}`;
}
