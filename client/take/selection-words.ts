/** What a selection is, in words: one function for each kind of it. */
import {
  beatInFigures,
  capital,
  count,
  percent,
  placeInWords,
  withAccidentals,
} from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { Selection, SelectionStore } from "../shell/selection.ts";
import { placementName, shiftFigure } from "../views/readings/hand.ts";
import { patternText } from "../views/readings/ideas.ts";
import { VIEWPOINT_WORDS } from "../views/viewpoint-words.ts";
import { facts } from "./facts.ts";

type Of<Kind extends Selection["kind"]> = Extract<Selection, { kind: Kind }>;

export function selectionWords(index: AccountIndex, store: SelectionStore): Node[] {
  const { selection } = store;
  switch (selection.kind) {
    case "none":
      return nothingWords();
    case "note":
      return [
        head("This note is not in the take"),
        says("It may have been put right since this address was kept."),
        all(store),
      ];
    case "bar":
      return barWords(index, store, selection);
    case "chorus":
      return chorusWords(index, store, selection);
    case "motif":
      return motifWords(index, store, selection);
    case "placement":
      return placementWords(index, selection);
    case "phrase":
      return phraseWords(index, selection);
    case "stretch":
      return stretchWords(index, selection);
    case "finding":
      return findingWords(index, selection);
  }
}

const head = (text: string): HTMLElement =>
  h("p", { class: "reading-head", "data-spoken": "" }, h("strong", {}, text));
const says = (text: string): HTMLElement => h("p", { class: "sentence" }, text);

function nothingWords(): Node[] {
  return [
    head("Nothing selected"),
    says(
      "Point at a note to read what it is; click to keep it. A click beside the notes selects the bar, a chorus's name the chorus. By keyboard: 1 to 6, then the arrow keys.",
    ),
  ];
}

function barWords(index: AccountIndex, store: SelectionStore, selection: Of<"bar">): Node[] {
  const stray = notThere(index, selection);
  if (stray !== null) return [head("There is no such bar"), says(stray), all(store)];
  const notes = index.notesOf(selection)?.size ?? 0;
  const time = selection.chorus === null ? null : index.bar(selection.chorus, selection.bar);
  const chords = index.chords(selection.bar);
  return [
    head(
      `${selection.bar < 1 ? "Pickup" : `Bar ${selection.bar}`}${selection.chorus === null ? " of every chorus" : `, chorus ${selection.chorus}`}`,
    ),
    facts([
      ["Chords", chords.map((chord) => withAccidentals(chord.symbol)).join(", ") || "–"],
      ["In the key", chords.map((chord) => withAccidentals(chord.numeral)).join(", ") || "–"],
      ["Scale", chords.map((chord) => chord.scale).join(", ") || "–"],
      ["Notes", String(notes)],
      ...(time
        ? ([
            ["From", `${time.start.toFixed(2)} s to ${time.end.toFixed(2)} s`],
            ["Place", `${percent(time.confidence)} sure`],
          ] as const)
        : []),
    ]),
  ];
}

function chorusWords(index: AccountIndex, store: SelectionStore, selection: Of<"chorus">): Node[] {
  const chorus = index.analysis.choruses.find((one) => one.chorus === selection.chorus);
  if (!chorus) {
    const stray = `This take has ${count(index.choruses.length, "chorus", "choruses")}.`;
    return [head(`There is no chorus ${selection.chorus}`), says(stray), all(store)];
  }
  return [
    head(`Chorus ${chorus.chorus}`),
    facts([
      ["Notes", `${chorus.notes}, ${chorus.density.perBar.toFixed(1)} a bar`],
      ["Rests", `${percent(chorus.rests)} of the time`],
      ["In placements", percent(chorus.placementShare)],
      ["In stepwise runs", percent(chorus.runShare)],
      ["Swing", chorus.swing ? `${chorus.swing.median.toFixed(2)} : 1` : "too few beats to say"],
      ["Phrases", String(chorus.phrases)],
    ]),
  ];
}

function motifWords(index: AccountIndex, store: SelectionStore, selection: Of<"motif">): Node[] {
  const motif = index.motif.get(selection.motif);
  if (!motif) return [head("This motif is not in the take")];
  return [
    head(`Motif ${motif.id.replace(/^m/, "")}, played ${count(motif.occurrences.length, "time")}`),
    facts([
      ["Alike in", VIEWPOINT_WORDS[motif.viewpoint]],
      ["Pattern", patternText(motif)],
      ["By chance", byChance(motif.expected)],
    ]),
    h(
      "ol",
      { class: "places" },
      ...motif.occurrences.map((occurrence) =>
        h(
          "li",
          {},
          h(
            "button",
            {
              type: "button",
              class: "link",
              onClick: () => store.select({ kind: "note", note: occurrence.firstNote }),
            },
            capital(placeInWords(occurrence)),
          ),
          ` ${occurrence.relation}${occurrence.change ? `, ${occurrence.change}` : ""}`,
        ),
      ),
    ),
  ];
}

/** "about 1.3 times"; of what chance hardly ever brings no figure is printed. */
function byChance(expected: number): string {
  return expected < 0.05 ? "hardly ever" : `about ${expected.toFixed(1)} times`;
}

function placementWords(index: AccountIndex, selection: Of<"placement">): Node[] {
  const placement = index.placement.get(selection.placement);
  if (!placement) return [head("This placement is not in the take")];
  return [
    head(capital(placementName(placement))),
    facts([
      ["Over", placement.chord ? withAccidentals(placement.chord) : "no chord"],
      ["From", placeInWords(placement)],
      ["Notes", String(placement.notes)],
      [
        "Shift into it",
        placement.shift === null ? "first placement" : `${shiftFigure(placement.shift)} semitones`,
      ],
      ["Fits its chord", placement.fitsChord ? "yes" : "no"],
    ]),
  ];
}

function phraseWords(index: AccountIndex, selection: Of<"phrase">): Node[] {
  const phrase = index.phrase.get(selection.phrase);
  if (!phrase) return [head("This phrase is not in the take")];
  return [
    head(`Phrase from ${placeInWords(phrase)}`),
    facts([
      ["Notes", String(phrase.notes)],
      ["Shape", phrase.shape],
      ["Length", phrase.bars === null ? `${phrase.seconds.toFixed(1)} s` : `${phrase.bars.toFixed(1)} bars`],
      [
        "Rest after",
        phrase.restBeats === null
          ? `${phrase.restSeconds.toFixed(1)} s`
          : `${beatInFigures(Number(phrase.restBeats.toFixed(2)))} beats`,
      ],
    ]),
  ];
}

function stretchWords(index: AccountIndex, selection: Of<"stretch">): Node[] {
  const stretch = index.between(selection.first, selection.last);
  const [first, last] = [stretch[0], stretch.at(-1)];
  if (!first || !last) return [head("These notes are not in the take")];
  return [
    head(`${capital(count(stretch.length, "note"))} from ${placeInWords(first)}`),
    facts([
      ["To", placeInWords(last)],
      ["Notes", stretch.map((note) => withAccidentals(note.spelling)).join(" ")],
      ["Fingers", stretch.map((note) => note.finger ?? "–").join(" ")],
      ["Degrees", stretch.map((note) => withAccidentals(note.degree ?? "–")).join(" ")],
    ]),
  ];
}

function findingWords(index: AccountIndex, selection: Of<"finding">): Node[] {
  const finding = index.finding.get(selection.finding);
  if (!finding) return [head("This finding is not in the take")];
  return [
    head(capital(finding.heading)),
    h("p", { class: "sentence", "data-spoken": "" }, finding.text),
    finding.practice !== null
      ? h("p", {}, h("em", {}, finding.practice.title), ` ${finding.practice.text}`)
      : h("span"),
  ];
}

/** Why a bar is none of this take; null where it is one. */
function notThere(
  index: AccountIndex,
  { chorus, bar }: { readonly chorus: number | null; readonly bar: number },
): string | null {
  if (index.bars.includes(bar) && (chorus === null || index.choruses.includes(chorus))) return null;
  return `This take has ${count(index.choruses.length, "chorus", "choruses")} of ${count(index.chartBars, "bar")}; bar ${bar}${chorus === null ? "" : ` of chorus ${chorus}`} is not among them.`;
}

/** The way on from what is not there. */
const all = (store: SelectionStore): HTMLElement =>
  h("button", { type: "button", onClick: () => store.select({ kind: "none" }) }, "Show the whole take");
