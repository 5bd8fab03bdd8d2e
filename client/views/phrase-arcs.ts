/** The breath of the solo: each phrase an arc over its bars, the rests between them, and which phrase answers which. */
import type { AccountPhrase } from "../../src/account.ts";
import { capital, count, placeInWords } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import { s } from "../shell/dom.ts";
import type { Drawing, Scene, View } from "./view.ts";

const ROW = 72;

export function phraseArcs(): View {
  return {
    id: "phrase-arcs",
    title: (index) => {
      const { phrases, rhythm } = index.analysis;
      return `${capital(count(phrases.length, "phrase"))}, and rests for ${Math.round(rhythm.rests * 100)} % of the time`;
    },
    units: () =>
      "Across: bars of the chart, one chorus a row. An arc reaches from a phrase's first note to its last; the more notes, the higher. Below the line: a bow from a phrase to the one that answers it.",
    empty: (index) => (index.analysis.phrases.length === 0 ? "The solo has no phrase to draw." : null),
    draw,
    table: (index) => ({
      columns: [
        "Phrase",
        "From",
        "Notes",
        "Bars",
        "Seconds",
        "Shape",
        "Range",
        "Rest after (beats)",
        "Answers",
      ],
      rows: index.analysis.phrases.map((phrase, i) => [
        i + 1,
        placeInWords(phrase),
        phrase.notes,
        phrase.bars === null ? "no beat" : phrase.bars.toFixed(1),
        phrase.seconds.toFixed(1),
        phrase.shape,
        rangeOf(index, phrase),
        phrase.restBeats === null ? "no beat" : phrase.restBeats.toFixed(1),
        phrase.answers === null
          ? ""
          : `phrase ${index.analysis.phrases.findIndex((p) => p.id === phrase.answers) + 1}`,
      ]),
    }),
  };
}

function draw(scene: Scene): Drawing {
  const { index, store, width } = scene;
  const { phrases } = index.analysis;
  const margin = width < 600 ? 24 : 64;
  const first = Math.min(1, ...index.bars);
  const bars = index.chartBars - first + 1;
  const unit = (width - margin - 8) / bars;
  const rowOf = new Map(index.choruses.map((chorus, i) => [chorus, i]));
  const height = index.choruses.length * ROW + 8;
  const svg = s("svg", { viewBox: `0 0 ${width} ${height}`, class: "phrase-arcs" });
  const base = (chorus: number) => (rowOf.get(chorus) ?? 0) * ROW + 50;
  const most = Math.max(1, ...phrases.map((phrase) => phrase.notes));

  for (const chorus of index.choruses) {
    const y = base(chorus);
    svg.append(
      s("text", { class: "row-name", x: 0, y: y + 4 }, width < 600 ? String(chorus) : `Chorus ${chorus}`),
      s("path", { class: "rule strong", d: `M${margin},${y}H${width - 4}` }),
      s("path", {
        class: "rule",
        d: Array.from({ length: bars + 1 }, (_, i) => `M${(margin + i * unit).toFixed(1)},${y - 4}v8`).join(
          "",
        ),
      }),
    );
    if (width >= 600) {
      for (let bar = 1; bar <= index.chartBars; bar += 4) {
        svg.append(s("text", { class: "bar-number", x: margin + (bar - first) * unit + 3, y: y + 13 }, bar));
      }
    }
  }

  const arcs = new Map<string, SVGGElement>();
  const middle = new Map<string, { x: number; y: number; chorus: number }>();
  for (const phrase of phrases) {
    const parts = partsOf(index, phrase);
    const arc = s("g", {
      class: "arc",
      "data-phrase": phrase.id,
      "data-notes": phrase.notes,
      "data-rest": phrase.restBeats,
    });
    for (const part of parts) {
      const x1 = margin + (part.from - first) * unit;
      const x2 = Math.max(x1 + 4, margin + (part.to - first) * unit);
      const y = base(part.chorus) - 3;
      const tall = 8 + (phrase.notes / most) * 32;
      arc.append(
        s("path", {
          class: "arc-hit",
          d: `M${x1.toFixed(1)},${y}C${x1.toFixed(1)},${y - tall * 1.3} ${x2.toFixed(1)},${y - tall * 1.3} ${x2.toFixed(1)},${y}Z`,
        }),
        s("path", { class: "arc-line", d: slur(x1, x2, y, tall) }),
      );
      middle.set(phrase.id, { x: (x1 + x2) / 2, y: y - tall, chorus: part.chorus });
      if (part === parts[0]) {
        arc.append(
          s(
            "text",
            { class: "figure faint", x: ((x1 + x2) / 2).toFixed(1), y: y - 3, "text-anchor": "middle" },
            phrase.notes,
          ),
        );
      }
    }
    arc.addEventListener("click", (event) => {
      event.stopPropagation();
      store.select({ kind: "phrase", phrase: phrase.id });
    });
    arcs.set(phrase.id, arc);
    svg.append(arc);
  }
  for (const phrase of phrases) {
    const answer = middle.get(phrase.id);
    const call = phrase.answers === null ? undefined : middle.get(phrase.answers);
    if (!answer || !call || answer.chorus !== call.chorus) continue;
    const y = base(answer.chorus) + 5;
    svg.append(
      s("path", {
        class: "answer",
        d: `M${call.x.toFixed(1)},${y}C${call.x.toFixed(1)},${y + 20} ${answer.x.toFixed(1)},${y + 20} ${answer.x.toFixed(1)},${y}m-4,5l4,-5l3,5`,
      }),
    );
  }
  const cursor = s("path", { class: "cursor", display: "none" });
  svg.append(cursor);
  let on: Element[] = [];
  return {
    svg,
    mark(marked, change) {
      if (change === "selection") {
        for (const arc of on) arc.classList.remove("on");
        const ids = new Set<string>();
        if (marked.selection.kind === "phrase") ids.add(marked.selection.phrase);
        else if (marked.selection.kind !== "chorus") {
          for (const id of marked.notes ?? []) {
            const phrase = index.note.get(id)?.phrase;
            if (phrase) ids.add(phrase);
          }
        }
        on = [...ids].flatMap((id) => arcs.get(id) ?? []);
        for (const arc of on) arc.classList.add("on");
        return;
      }
      const id = marked.playing ?? marked.hover;
      const note = id === null ? undefined : index.note.get(id);
      if (note && rowOf.has(note.chorus)) {
        const x = margin + (note.bar + index.within(note) - first) * unit;
        cursor.setAttribute("d", `M${x.toFixed(1)},${base(note.chorus) - 44}v52`);
        cursor.removeAttribute("display");
      } else cursor.setAttribute("display", "none");
    },
  };
}

function rangeOf(index: AccountIndex, phrase: AccountPhrase): string {
  const notes = index.between(phrase.firstNote, phrase.lastNote);
  return `${index.keyName(phrase.low, notes)} to ${index.keyName(phrase.high, notes)}`;
}

/** A slur that is thick in the middle, as engravers draw it. */
function slur(x1: number, x2: number, y: number, tall: number): string {
  const thick = 2.6;
  const [a, b] = [x1.toFixed(1), x2.toFixed(1)];
  const high = (y - tall * 1.3).toFixed(1);
  const low = (y - tall * 1.3 + thick).toFixed(1);
  const [c, d] = [(x1 + (x2 - x1) * 0.2).toFixed(1), (x2 - (x2 - x1) * 0.2).toFixed(1)];
  return `M${a},${y}C${c},${high} ${d},${high} ${b},${y}C${d},${low} ${c},${low} ${a},${y}Z`;
}

/** A phrase that runs on into the next chorus stands in both rows. */
function partsOf(index: AccountIndex, phrase: AccountPhrase): { chorus: number; from: number; to: number }[] {
  const notes = index.between(phrase.firstNote, phrase.lastNote);
  const parts: { chorus: number; from: number; to: number }[] = [];
  for (const note of notes) {
    const at = Math.min(index.chartBars + 1, note.bar + index.within(note));
    const last = parts.at(-1);
    if (last && last.chorus === note.chorus) last.to = Math.max(last.to, at);
    else {
      if (last) last.to = index.chartBars + 1;
      parts.push({ chorus: note.chorus, from: at, to: at });
    }
  }
  return parts;
}
