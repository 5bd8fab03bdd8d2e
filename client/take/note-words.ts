/** What a note is, in words: beside the picture while it is pointed at or selected. */

import { restsOn } from "../../src/account/rests-on.ts";
import type { AccountNote } from "../../src/account.ts";
import { isSure } from "../../src/take/index.ts";
import { fingerName, placeInWords, withAccidentals } from "../../src/words/index.ts";
import { roleClass, roleMark, signPath } from "../draw/role-marks.ts";
import { printedText } from "../findings/finding-words.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h, s } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { placementName } from "../views/readings/hand.ts";
import { facts } from "./facts.ts";

export function noteWords(index: AccountIndex, note: AccountNote, store: SelectionStore): Node[] {
  const placement = note.placement ? index.placement.get(note.placement) : undefined;
  const finger =
    note.finger === null ? "none given" : `${note.finger}, ${fingerName(note.finger)} (${note.fingerSource})`;
  const condition = restsOn(index.analysis, note);
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
    ...(condition === null ? [] : [h("p", { class: "hint", "data-spoken": "" }, `${condition}:`)]),
    h("p", { class: "sentence", "data-spoken": "" }, printedText(note.account)),
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
      ...(note.certainty === undefined ? [] : [["Heard", heardWords(note)] as const]),
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

/** "surely, 97 in 100" or "61 in 100, it may be overtones of another note". */
function heardWords({ certainty = 1, doubt }: AccountNote): string {
  const share = `${Math.round(100 * certainty)} in 100`;
  const instead =
    doubt === undefined
      ? ""
      : doubt === "octave ghost"
        ? "; it may be overtones of another note"
        : "; it may be the key before it, ringing on";
  return isSure({ certainty }) ? `surely, ${share}` : `unsurely, ${share}${instead}`;
}

function lateness(timing: number): string {
  if (Math.abs(timing) < 0.005) return "on the grid";
  return `${Math.abs(timing).toFixed(2)} beats ${timing > 0 ? "late" : "early"}`;
}
