/** The margin of a take's page: what the selection is, in words. */
import type { AccountNote } from "../../src/account.ts";
import {
  beatInFigures,
  capital,
  count,
  fingerName,
  percent,
  placeInWords,
  withAccidentals,
} from "../../src/words/index.ts";
import { roleClass, roleMark, signPath } from "../draw/role-marks.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h, s } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { placementName } from "../views/readings/hand.ts";
import { patternText } from "../views/readings/ideas.ts";

/** The panel; it follows the pointer, and falls back to the selection. Spoken when the selection changes. */
export function readingPanel(
  index: AccountIndex,
  store: SelectionStore,
): { element: HTMLElement; end(): void } {
  const body = h("div", { class: "reading-body" });
  const spoken = h("p", { class: "visually-hidden", "aria-live": "polite" });
  const element = h("section", { class: "reading", "aria-label": "What is selected" }, body, spoken);
  const show = () => {
    const note = store.hover ?? (store.selection.kind === "note" ? store.selection.note : null);
    const known = note === null ? undefined : index.note.get(note);
    body.replaceChildren(...(known ? noteWords(index, known, store) : selectionWords(index, store)));
    element.classList.toggle("idle", known === undefined && store.selection.kind === "none");
  };
  const unwatch = store.watch((change) => {
    if (change === "playing") return;
    show();
    if (change === "selection") {
      spoken.textContent = [...body.querySelectorAll("[data-spoken]")]
        .map((part) => part.textContent)
        .join(" ");
    }
  });
  show();
  return {
    element,
    end: unwatch,
  };
}

function noteWords(index: AccountIndex, note: AccountNote, store: SelectionStore): Node[] {
  const placement = note.placement ? index.placement.get(note.placement) : undefined;
  const finger =
    note.finger === null ? "none given" : `${note.finger}, ${fingerName(note.finger)} (${note.fingerSource})`;
  return [
    h(
      "p",
      { class: "reading-head", "data-spoken": "" },
      s(
        "svg",
        { class: "reading-sign", viewBox: "-10 -10 20 20", width: 26, height: 26, "aria-hidden": "true" },
        s("path", { class: roleClass(note.role), d: signPath(roleMark(note.role), 6.4) }),
      ),
      h("strong", {}, withAccidentals(note.spelling)),
      h("span", {}, ` ${placeInWords(note)}`),
    ),
    h("p", { class: "sentence", "data-spoken": "" }, note.account),
    facts([
      ["Chord", note.chord ? withAccidentals(note.chord) : "no chord"],
      ["Degree", note.degree ? withAccidentals(note.degree) : "–"],
      [
        "Against the chord",
        note.role ? `${roleMark(note.role).word}${note.guideTone ? ", guide tone" : ""}` : "–",
      ],
      ["In the line", note.lineRole ?? "–"],
      ["Finger", finger],
      ["Fingers as good", othersFor(index, note)],
      [
        "Placement",
        placement
          ? h(
              "button",
              {
                type: "button",
                class: "link",
                onClick: () => store.select({ kind: "placement", placement: placement.id }),
              },
              placementName(placement),
            )
          : "outside every placement",
      ],
      [
        "Time",
        note.timing === null
          ? `${note.onset.toFixed(2)} s`
          : `${note.onset.toFixed(2)} s, ${lateness(note.timing)}`,
      ],
    ]),
    ...(note.motifs.length > 0
      ? [
          h(
            "p",
            { class: "reading-links" },
            "In ",
            ...note.motifs.slice(0, 4).flatMap((id, i) => [
              i > 0 ? ", " : "",
              h(
                "button",
                {
                  type: "button",
                  class: "link",
                  onClick: () => store.select({ kind: "motif", motif: id }),
                },
                `motif ${id.replace(/^m/, "")}`,
              ),
            ]),
            note.motifs.length > 4 ? ` and ${note.motifs.length - 4} more` : "",
          ),
        ]
      : []),
  ];
}

/** Other fingers for the note that cost at most two points more. */
function othersFor(index: AccountIndex, note: AccountNote): string {
  const { alternatives, freeAlternatives = [] } = index.analysis.handFit;
  const at = index.order.get(note.id) ?? -1;
  const fingers = new Set<number>();
  for (const other of [...alternatives, ...freeAlternatives]) {
    const from = index.order.get(other.firstNote) ?? 0;
    if (at < from || at > (index.order.get(other.lastNote) ?? -1)) continue;
    const finger = other.fingers[at - from];
    if (finger && finger !== note.finger) fingers.add(finger);
  }
  return fingers.size === 0 ? "no other" : [...fingers].sort((a, b) => a - b).join(" or ");
}

function lateness(timing: number): string {
  if (Math.abs(timing) < 0.005) return "on the grid";
  return `${Math.abs(timing).toFixed(2)} beats ${timing > 0 ? "late" : "early"}`;
}

function selectionWords(index: AccountIndex, store: SelectionStore): Node[] {
  const { selection } = store;
  const head = (text: string) => h("p", { class: "reading-head", "data-spoken": "" }, h("strong", {}, text));
  const notes = index.notesOf(selection)?.size ?? 0;
  switch (selection.kind) {
    case "none":
    case "note":
      return [
        head("Nothing selected"),
        h(
          "p",
          { class: "sentence" },
          "Point at a note to read what it is; click to keep it. A click beside the notes selects the bar, a chorus's name the chorus. By keyboard: 1 to 6, then the arrow keys.",
        ),
      ];
    case "bar": {
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
                ["Place is", `${percent(time.confidence)} sure`],
              ] as const)
            : []),
        ]),
      ];
    }
    case "chorus": {
      const chorus = index.analysis.choruses.find((one) => one.chorus === selection.chorus);
      if (!chorus) return [head(`Chorus ${selection.chorus}`)];
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
    case "motif": {
      const motif = index.motif.get(selection.motif);
      if (!motif) return [head("This motif is not in the take")];
      return [
        head(`Motif ${motif.id.replace(/^m/, "")}, played ${count(motif.occurrences.length, "time")}`),
        facts([
          ["Alike in", motif.viewpoint],
          ["Pattern", patternText(motif)],
          ["By chance", `about ${motif.expected.toFixed(1)} times`],
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
    case "placement": {
      const placement = index.placement.get(selection.placement);
      if (!placement) return [head("This placement is not in the take")];
      return [
        head(capital(placementName(placement))),
        facts([
          ["Over", placement.chord ? withAccidentals(placement.chord) : "no chord"],
          ["From", placeInWords(placement)],
          ["Notes", String(placement.notes)],
          ["Shift into it", placement.shift === null ? "first placement" : `${placement.shift} semitones`],
          ["Fits its chord", placement.fitsChord ? "yes" : "no"],
        ]),
      ];
    }
    case "phrase": {
      const phrase = index.phrase.get(selection.phrase);
      if (!phrase) return [head("This phrase is not in the take")];
      return [
        head(`Phrase from ${placeInWords(phrase)}`),
        facts([
          ["Notes", String(phrase.notes)],
          ["Shape", phrase.shape],
          [
            "Length",
            phrase.bars === null ? `${phrase.seconds.toFixed(1)} s` : `${phrase.bars.toFixed(1)} bars`,
          ],
          [
            "Rest after",
            phrase.restBeats === null
              ? `${phrase.restSeconds.toFixed(1)} s`
              : `${beatInFigures(Number(phrase.restBeats.toFixed(2)))} beats`,
          ],
        ]),
      ];
    }
    case "stretch": {
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
    case "finding": {
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
  }
}

function facts(rows: readonly (readonly [string, Node | string])[]): HTMLElement {
  return h(
    "dl",
    { class: "facts" },
    ...rows.map(([name, value]) => h("div", {}, h("dt", {}, name), h("dd", {}, value))),
  );
}
