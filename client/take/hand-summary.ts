/** What the hand tells of a take, in words: where it stood, what it left, how far it went, what it could have done. */
import type { AccountNote, Analysis } from "../../src/account.ts";
import { degreeName } from "../../src/chart/index.ts";
import { capital, count, percent, placeInWords, withAccidentals } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { h } from "../shell/dom.ts";
import type { SelectionStore } from "../shell/selection.ts";
import { type Place, type ToldRow, toldSection } from "./summary-section.ts";

type Fit = Analysis["handFit"];
type Named = Fit["byChord"][number]["used"][number];

export function handTold(index: AccountIndex, store: SelectionStore): HTMLElement {
  const { handFit: fit, placements } = index.analysis;
  return toldSection(
    "hand-told",
    "What the hand tells",
    "Fingers and placements are inferred from the notes, not observed. Choose a place to see it in the pictures, and play it with Play.",
    [
      inPlacements(fit),
      ...(placements.length === 0 ? [] : [late(index, fit), shared(fit), travelled(fit)]),
      moved(index, fit),
      registers(fit),
      ...(placements.length === 0 ? [] : [slides(index, fit)]),
      comfort(index, fit),
      others(index, fit),
    ],
    store,
    placements.length === 0 ? [] : [byChord(fit)],
  );
}

function inPlacements(fit: Fit): ToldRow {
  const shapes = Object.entries(fit.byShape)
    .sort((a, b) => b[1] - a[1])
    .map(([shape, share]) => `${percent(share)} in ${shape}`);
  const choruses = fit.byChorus.map(({ chorus, share }) => `${percent(share)} in chorus ${chorus}`);
  return {
    name: "In a placement",
    words:
      fit.share === 0
        ? "No note lies in a placement of the shapes that were asked about."
        : `${percent(fit.share)} of the notes${shapes.length > 1 ? `: ${shapes.join(", ")}` : `, all in ${Object.keys(fit.byShape)[0]}`}. ${choruses.length > 1 ? `${choruses.join(", ")}. ` : ""}${judged(fit)}`,
  };
}

/** By what odds a placement is told at all. */
function judged({ margin }: Fit): string {
  return margin === undefined
    ? ""
    : `A placement is named only where the keys are ${Math.floor(Math.exp(margin))} times likelier under it than under fingers that move freely.`;
}

function late(index: AccountIndex, fit: Fit): ToldRow {
  const { late: ids } = fit.shifts;
  const notes = notesOf(index, ids);
  // Neighbouring late notes are one late shift.
  const runs: AccountNote[][] = [];
  for (const note of notes) {
    const before = runs.at(-1)?.at(-1);
    if (before && index.order.get(note.id)! - index.order.get(before.id)! <= 1) runs.at(-1)!.push(note);
    else runs.push([note]);
  }
  return {
    name: "Late shifts",
    words:
      ids.length === 0
        ? "None: the hand was never still in the last chord's placement after the change."
        : `${capital(count(ids.length, "note"))} still in the last chord's placement after the change, in ${count(runs.length, "place")}.`,
    places: runs.map((run) => stretch(run, placeInWords(run[0]!))),
  };
}

function shared(fit: Fit): ToldRow {
  const { common } = fit.shifts;
  const taken = common.filter((one) => one.taken);
  const left = common.filter((one) => !one.taken);
  return {
    name: "Shared by two chords",
    words:
      common.length === 0
        ? "No chord change that was played over has a placement common to both chords."
        : `At ${count(common.length, "change")} one placement serves both chords; it was ${taken.length === 0 ? "never kept" : `kept ${times(taken.length)}`}${left.length === 0 ? "" : ` and left ${times(left.length)}`}.`,
    places: left.map((one) => ({
      words: `chorus ${one.chorus}, bar ${one.bar}: ${withAccidentals(one.placement)}`,
      select: { kind: "bar", chorus: one.chorus, bar: one.bar },
    })),
  };
}

function travelled(fit: Fit): ToldRow {
  const { count: moves, distance, median } = fit.shifts;
  return {
    name: "Distance",
    words:
      moves === 0
        ? "The hand stayed where it was."
        : `The hand moves ${count(moves, "time")}, ${count(distance, "semitone")} in all; half of the moves are ${count(median ?? 0, "semitone")} or less.`,
  };
}

function moved(index: AccountIndex, fit: Fit): ToldRow {
  return {
    name: "Same fingers elsewhere",
    words:
      fit.moved.length === 0
        ? "No fingering of four notes or more was moved to another placement."
        : `${capital(count(fit.moved.length, "fingering"))} of four notes or more ${fit.moved.length === 1 ? "was" : "were"} moved to another placement.`,
    places: fit.moved.flatMap(({ firstNotes, fingers }) =>
      notesOf(index, firstNotes).map((first) => {
        const from = index.order.get(first.id)!;
        const notes = index.solo.slice(from, from + fingers.length);
        return stretch(notes, `${fingers.join(" ")} in ${placeInWords(first)}`);
      }),
    ),
  };
}

function registers(fit: Fit): ToldRow {
  const never = (fit.registers ?? []).filter((one) => one.notes === 0).map(({ name }) => registerWords(name));
  const most = [...(fit.registers ?? [])].sort((a, b) => b.notes - a.notes)[0];
  return {
    name: "Registers",
    words: `${most && most.notes > 0 ? `Most notes lie ${registerWords(most.name)}. ` : ""}${
      never.length === 0 ? "Every register was used." : `Nothing was played ${oneOf(never)}.`
    }`,
  };
}

/** "in the bass, below middle C or in the top" */
const oneOf = (places: readonly string[]): string =>
  places.length < 2 ? places.join("") : `${places.slice(0, -1).join(", ")} or ${places.at(-1)}`;

const registerWords = (name: string) => (name === "bass" || name === "top" ? `in the ${name}` : name);

function slides(index: AccountIndex, fit: Fit): ToldRow {
  const { taken, missed: tried, possible } = fit.slides;
  const idiomatic = taken.filter((one) => one.idiomatic).length;
  const takenNotes = taken.flatMap(({ from, to }) => {
    const [first, last] = notesOf(index, [from, to]);
    return first && last ? [stretch([first, last], `taken in ${placeInWords(first)}`)] : [];
  });
  const triedNotes = notesOf(index, tried).map(
    (note): Place => ({
      words: `could be tried in ${placeInWords(note)}`,
      select: { kind: "note", note: note.id },
    }),
  );
  return {
    name: "Slides",
    words:
      possible === 0
        ? "The placements that were used offer no slide from a black key."
        : `${capital(count(taken.length, "slide"))} from a black key taken${taken.length > 0 ? `, ${idiomatic} of them into a note of the chord's scale` : ""}; the placements allow ${possible}.${tried.length === 0 ? "" : ` ${capital(count(tried.length, "place"))} more where one could be tried.`}`,
    places: [...takenNotes, ...triedNotes],
  };
}

function comfort(index: AccountIndex, fit: Fit): ToldRow {
  return {
    name: "Comfort",
    words: h(
      "div",
      {},
      h(
        "p",
        {},
        fit.stretches.length === 0
          ? "No pair of fingers reaches beyond its comfortable span."
          : `${capital(count(fit.stretches.length, "reach", "reaches"))} beyond the comfortable span of two fingers.`,
      ),
      fit.caution === null ? null : h("p", { class: "caution" }, fit.caution),
    ),
    places: fit.stretches.flatMap(({ from, to, fingers, semitones }) => {
      const notes = notesOf(index, [from, to]);
      const first = notes[0];
      return first
        ? [stretch(notes, `fingers ${fingers.join(" and ")}, ${semitones} semitones, ${placeInWords(first)}`)]
        : [];
    }),
  };
}

function others(index: AccountIndex, fit: Fit): ToldRow {
  const placed = fit.alternatives.map((one) => ({
    ...one,
    words: `${one.shape}, ${one.fingers.map((finger) => finger ?? "–").join(" ")}`,
  }));
  const free = (fit.freeAlternatives ?? []).map((one) => ({ ...one, words: one.fingers.join(" ") }));
  const all = [...placed, ...free].sort(
    (a, b) => (index.order.get(a.firstNote) ?? 0) - (index.order.get(b.firstNote) ?? 0) || a.cost - b.cost,
  );
  return {
    name: "As good as these",
    words:
      all.length === 0
        ? "No other placement or fingering is nearly as good."
        : `${capital(count(all.length, "other fingering"))} ${all.length === 1 ? "is" : "are"} nearly as good.`,
    places: all.flatMap((one) => {
      const notes = index.between(one.firstNote, one.lastNote);
      return notes[0] ? [stretch(notes, `${one.words}, ${placeInWords(notes[0])}`)] : [];
    }),
  };
}

function byChord(fit: Fit): HTMLElement {
  const names = (list: readonly Named[], withNotes: boolean) =>
    list.length === 0
      ? "–"
      : list
          .map(
            (one) =>
              `${one.shape} on ${withAccidentals(one.anchor)}, the ${degreeName(one.anchorDegree)}${withNotes ? `: ${count(one.notes, "note")}` : ""}`,
          )
          .join("; ");
  return h(
    "div",
    { class: "table-scroll", tabindex: 0, role: "group", "aria-label": "Placements by chord" },
    h(
      "table",
      { class: "by-chord" },
      h("caption", {}, "By chord: where the anchor finger stands, and how many notes were played there"),
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          ...["Chord", "In a placement", "Used", "Never used"].map((name) => h("th", { scope: "col" }, name)),
        ),
      ),
      h(
        "tbody",
        {},
        ...fit.byChord.map(({ chord, share, used, unused }) =>
          h(
            "tr",
            { "data-chord": chord },
            h("th", { scope: "row" }, withAccidentals(chord)),
            h("td", {}, percent(share)),
            h("td", {}, names(used, true)),
            h("td", {}, names(unused, false)),
          ),
        ),
      ),
    ),
  );
}

function notesOf(index: AccountIndex, ids: readonly string[]): AccountNote[] {
  return ids.flatMap((id) => index.note.get(id) ?? []);
}

function stretch(notes: readonly AccountNote[], words: string): Place {
  const [first, last] = [notes[0]!, notes.at(-1)!];
  return { words, select: { kind: "stretch", first: first.id, last: last.id } };
}

const times = (n: number) => (n === 1 ? "once" : n === 2 ? "twice" : `${count(n, "time")}`);
