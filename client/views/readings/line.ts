/** What each note does in the line, the phrases as bows, named figures as brackets. */

import type { AccountPhrase, Analysis } from "../../../src/account.ts";
import { placeInWords } from "../../../src/words/index.ts";
import { printedText } from "../../findings/finding-words.ts";
import type { AccountIndex } from "../../shell/account-index.ts";
import { s } from "../../shell/dom.ts";
import { LINE_ROLE_LETTERS, LINE_ROLE_NAMES } from "../line-role-letters.ts";
import { dataOf, letterSign, levelsOf, type Mark, type Paper, piecesOf, type Reading } from "./reading.ts";

const BOW = 15;
const STEP = 14;
/** Levels of figures at most: what would stand higher is told in the table alone. */
const MOST_LEVELS = 3;

type Device = Analysis["devices"][number];

export const line: Reading = {
  name: "line",
  word: "Line",
  units: () =>
    "The letters of a note: what it does between its neighbours. A bow spans a phrase; a bracket a named figure.",
  above: (index) => BOW + (index.analysis.devices.length > 0 ? MOST_LEVELS * STEP : 0),
  joined: true,
  sign: (note, at) =>
    note.lineRole === "chord tone"
      ? s("circle", {
          ...dataOf(note),
          class: "sign chord-dot",
          cx: at.x.toFixed(1),
          cy: at.y.toFixed(1),
          r: 2.6,
        })
      : letterSign(note, at, note.lineRole ? LINE_ROLE_LETTERS[note.lineRole] : "–"),
  over: (paper) => [...phraseBows(paper), ...figures(paper)],
  key: (index) => {
    const used = new Set(index.solo.map((note) => note.lineRole));
    return [
      ...LINE_ROLE_NAMES.filter((name) => used.has(name)).map((name) => ({
        sign:
          name === "chord tone"
            ? s("circle", { class: "chord-dot", r: 3 })
            : s("text", { class: "sign letter", y: 4, "text-anchor": "middle" }, LINE_ROLE_LETTERS[name]),
        words: name,
      })),
      { sign: s("path", { class: "arc-line", d: bow(-11, 11, 4, 7) }), words: "phrase" },
      ...(index.analysis.phrases.some((phrase) => phrase.answers !== null)
        ? [
            {
              sign: s("path", { class: "answer", d: "M0,-6v12m-3,-4l3,4l3,-4" }),
              words: "answers the phrase before",
            },
          ]
        : []),
    ];
  },
  table: (index) => ({
    columns: ["What", "From", "Notes", "Bars", "Shape", "Range", "Rest after (beats)", "Answers", "In words"],
    rows: [
      ...index.analysis.phrases.map((phrase, i) => phraseRow(index, phrase, i)),
      ...index.analysis.devices.map((one) => [
        one.name,
        placeInWords(one),
        one.notes.length,
        "",
        "",
        "",
        "",
        "",
        printedText(one.account),
      ]),
    ],
  }),
};

function phraseBows(paper: Paper): Mark[] {
  const { index, store } = paper;
  return index.analysis.phrases.flatMap((phrase) => {
    const notes = index.between(phrase.firstNote, phrase.lastNote);
    return piecesOf(paper, notes).map((piece) => {
      const element = s(
        "g",
        { class: "arc", "data-phrase": phrase.id, "data-notes": phrase.notes, "data-rest": phrase.restBeats },
        s("rect", {
          class: "arc-hit",
          x: piece.x1.toFixed(1),
          y: piece.y + 1,
          width: (piece.x2 - piece.x1).toFixed(1),
          height: BOW,
        }),
        s("path", { class: "arc-line", d: bow(piece.x1, piece.x2, piece.y + BOW - 1, BOW - 5) }),
        phrase.answers !== null && piece.begins
          ? s("path", {
              class: "answer",
              d: `M${(piece.x1 - 1).toFixed(1)},${piece.y + 4}v${BOW - 4}m-3,-4l3,4l3,-4`,
            })
          : null,
      );
      element.addEventListener("click", (event) => {
        event.stopPropagation();
        store.select({ kind: "phrase", phrase: phrase.id });
      });
      return { element, notes: notes.map((note) => note.id), y: piece.y };
    });
  });
}

function figures(paper: Paper): Mark[] {
  const { index } = paper;
  const all = index.analysis.devices.flatMap((device) => {
    const pieces = piecesOf(paper, device.notes.map((id) => index.note.get(id)!).filter(Boolean));
    return pieces.map((piece) => ({
      device,
      ...piece,
      x2: Math.max(piece.x2, piece.x1 + wordWidth(device)),
    }));
  });
  const levels = levelsOf(all);
  return all.flatMap(({ device, x1, x2, y, begins }, i) => {
    const level = levels[i]!;
    if (level >= MOST_LEVELS) return [];
    const top = y + BOW + level * STEP + 3;
    const element = s(
      "g",
      { class: "figure-bracket", "data-device": device.name },
      s("path", { class: "bracket-edge", d: `M${x1.toFixed(1)},${top + 10}v-9H${x2.toFixed(1)}v4` }),
      begins ? s("text", { class: "figure-name", x: (x1 + 3).toFixed(1), y: top + 10 }, device.name) : null,
    );
    element.addEventListener("click", (event) => {
      event.stopPropagation();
      paper.store.select({ kind: "stretch", first: device.firstNote, last: device.lastNote });
    });
    return [{ element, notes: device.notes, y }];
  });
}

/** Pixels that the name of a figure takes at the size of the page's small letters. */
const wordWidth = (device: Device) => 6 + device.name.length * 5;

function phraseRow(index: AccountIndex, phrase: AccountPhrase, i: number): (string | number)[] {
  const notes = index.between(phrase.firstNote, phrase.lastNote);
  const { answers } = phrase;
  return [
    `phrase ${i + 1}`,
    placeInWords(phrase),
    phrase.notes,
    phrase.bars === null ? "no beat" : phrase.bars.toFixed(1),
    phrase.shape,
    `${index.keyName(phrase.low, notes)} to ${index.keyName(phrase.high, notes)}`,
    phrase.restBeats === null ? "no beat" : phrase.restBeats.toFixed(1),
    answers === null ? "" : `phrase ${index.analysis.phrases.findIndex((one) => one.id === answers) + 1}`,
    "",
  ];
}

/** A slur that is thick in the middle, as engravers draw it. */
function bow(x1: number, x2: number, y: number, tall: number): string {
  const [a, b] = [x1.toFixed(1), x2.toFixed(1)];
  const high = (y - tall * 1.3).toFixed(1);
  const low = (y - tall * 1.3 + 2.6).toFixed(1);
  return `M${a},${y}C${a},${high} ${b},${high} ${b},${y}C${b},${low} ${a},${low} ${a},${y}Z`;
}
