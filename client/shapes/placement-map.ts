/** The placement map: where the hand may stand on each chord of a chart, and the shortest way through the form. */
import { BUILT_IN_SHAPES } from "../../src/hands/built-in-shapes.ts";
import type { MappedChord, MappedPlacement, PlacementMap } from "../../src/hands/placement-map-schema.ts";
import { capital, count, withAccidentals } from "../../src/words/index.ts";
import { type KeyRange, mapPicture, shapeOfPlacement } from "../draw/map-picture.ts";
import { chartFields } from "../parts/chart-fields.ts";
import { fetchJson, forms, shapes } from "../shell/api.ts";
import { h } from "../shell/dom.ts";
import type { PageMaker } from "../shell/page.ts";
import { showIn } from "../shell/show-in.ts";
import { saveButtons, tableBelow } from "../views/picture-tools.ts";
import { placementTable } from "../views/placement-table.ts";

export const placementMapPage: PageMaker = async (_parameters, query, shell) => {
  const [formRows, own] = await Promise.all([forms(), shapes.list()]);
  const chart = chartFields(formRows, {
    text: query.get("chart") ?? "",
    form: query.get("form") ?? "",
    key: query.get("key") ?? "",
    fromTake: false,
    legend: "The chart",
  });
  const wanted = query.getAll("shape");
  const names = [...BUILT_IN_SHAPES.map((shape) => shape.name), ...own.map((row) => row.shape.name)];
  const boxes = names.map((name, i) => ({
    name,
    input: h("input", {
      type: "checkbox",
      checked: wanted.length > 0 ? wanted.includes(name) : i === 0,
    }),
  }));
  const hand = h(
    "select",
    {},
    h("option", { value: "right" }, "right hand"),
    h("option", { value: "left", selected: query.get("hand") === "left" }, "left hand"),
  );
  const result = h("div", { class: "map" });
  const show = async () => {
    const question = new URLSearchParams(chart.read());
    for (const { name, input } of boxes) if (input.checked) question.append("shape", name);
    if (hand.value === "left") question.set("hand", "left");
    shell.replaceQuery(question.toString());
    await showIn(result, async () => {
      const map = await fetchJson<PlacementMap>(`/placements?${question}`);
      const form = formRows.find((row) => row.id === question.get("form"))?.name;
      return mapWords(map, `${form ?? map.chart.name ?? "Chart"} in ${withAccidentals(map.chart.key)}`);
    });
  };
  const form = h(
    "form",
    { class: "sheet no-print" },
    h("h1", {}, "Placement map"),
    chart.element,
    h(
      "fieldset",
      {},
      h("legend", {}, "Hand shapes"),
      h(
        "div",
        { class: "choices" },
        ...boxes.map(({ name, input }) => h("label", { class: "choice" }, input, ` ${name}`)),
      ),
      h("label", {}, "Hand ", hand),
    ),
    h(
      "div",
      { class: "take-ways" },
      h("button", { class: "main", type: "submit" }, "Draw the map"),
      h("button", { type: "button", onClick: () => window.print() }, "Print"),
    ),
  );
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    void show();
  });
  await show();
  return { title: "Placement map", element: h("div", { class: "stack" }, form, result) };
};

/** A drawing takes its styles from the page, so it stands there while it is saved, out of sight. */
function offstage(svg: SVGSVGElement): SVGSVGElement {
  const host = h("div", { class: "offstage", "aria-hidden": "true" }, svg);
  document.body.append(host);
  setTimeout(() => host.remove(), 2000);
  return svg;
}

/** @param name of the chart, with its key */
function mapWords(map: PlacementMap, name: string): HTMLElement[] {
  const step = new Map(map.way.steps.map((one) => [one.span, one]));
  const pitches = map.chords.flatMap((chord) =>
    chord.placements.flatMap((p) => p.keys.map((key) => key.pitch)),
  );
  const range = { low: Math.min(60, ...pitches) - 1, high: Math.max(76, ...pitches) + 1 };
  const stays = map.way.kept;
  const runs = runsOf(map.chords);
  const title = `${name}, ${map.hand} hand: ${map.shapes.join(", ")}`;
  const rows = () =>
    runs.map((run) => ({
      name: `${withAccidentals(run[0]!.symbol)}, ${barsOf(run)}`,
      placements: run.at(-1)!.placements,
      onWay: step.get(run.at(-1)!.span)?.placement ?? null,
    }));
  return [
    h(
      "section",
      { class: "sheet map-head" },
      h("p", { class: "map-what" }, title),
      h(
        "h2",
        {},
        `The shortest way through the form moves the hand ${count(map.way.distance, "semitone")} in all`,
      ),
      h(
        "p",
        {},
        `${capital(count(stays, "chord is", "chords are"))} reached without moving. The placements on that way are framed; numbers are fingers, the ringed one is the anchor; underlined notes belong to the next chord too; a bow is a slide from a black key, dashed when bold.`,
      ),
      map.caution ? h("p", { class: "hint" }, map.caution) : null,
      saveButtons("placement-map", title, (use) => use(offstage(mapPicture(title, map, rows(), range)))),
      tableBelow(title, () => placementTable(map)),
    ),
    ...runs.map((run) => chordBlock(run, step, range)),
  ];
}

/** Neighbouring bars of one chord are one stay of the hand. */
function runsOf(chords: readonly MappedChord[]): MappedChord[][] {
  const runs: MappedChord[][] = [];
  for (const chord of chords) {
    const last = runs.at(-1);
    if (last && last[0]?.symbol === chord.symbol) last.push(chord);
    else runs.push([chord]);
  }
  return runs;
}

function chordBlock(
  run: readonly MappedChord[],
  steps: ReadonlyMap<number, PlacementMap["way"]["steps"][number]>,
  range: KeyRange,
): HTMLElement {
  const first = run[0]!;
  // What is common with the next chord is asked at the change, so the last bar's placements are shown.
  const last = run.at(-1)!;
  const shift = steps.get(first.span)?.shift;
  const move =
    shift === null || shift === undefined
      ? ""
      : shift === 0
        ? "the hand stays"
        : `the hand moves ${count(Math.abs(shift), "semitone")} ${shift > 0 ? "up" : "down"}`;
  const bars = barsOf(run);
  const onWay = steps.get(last.span)?.placement ?? null;
  return h(
    "section",
    { class: "map-chord", "aria-label": `${withAccidentals(last.symbol)}, ${bars}` },
    h(
      "header",
      {},
      h("h3", {}, withAccidentals(last.symbol)),
      h("span", { class: "faint" }, bars),
      h("span", { class: "faint" }, [last.scale, move].filter(Boolean).join("; ")),
    ),
    last.placements.length === 0
      ? h("p", { class: "empty" }, "None of these shapes has a place on this chord; the hand waits.")
      : h(
          "div",
          { class: "map-placements" },
          ...last.placements.map((placement) => placementCard(placement, onWay === placement.id, range)),
        ),
  );
}

function barsOf(run: readonly MappedChord[]): string {
  const [first, last] = [run[0]!, run.at(-1)!];
  return first.bar === last.bar
    ? `bar ${first.bar}${first.beat > 1 ? `, beat ${first.beat}` : ""}`
    : `bars ${first.bar} to ${last.bar}`;
}

function placementCard(placement: MappedPlacement, onWay: boolean, range: KeyRange): HTMLElement {
  const svg = shapeOfPlacement(placement, range, 250);
  const keys = placement.keys.map((key) => `${key.finger} on ${withAccidentals(key.name)}`).join(", ");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", `${placement.name}: ${keys}`);
  const left = placement.leftOut.map(
    (note) => `${withAccidentals(note.name)}${note.avoid ? " (to be avoided)" : ""}`,
  );
  return h(
    "article",
    { class: `map-placement${onWay ? " on-way" : ""}`, "data-placement": placement.id },
    h("h4", {}, withAccidentals(placement.name)),
    svg,
    h(
      "p",
      { class: "hint" },
      [
        left.length > 0 ? `Leaves out ${left.join(", ")}.` : "Leaves nothing of the scale out.",
        placement.slides.length > 0
          ? `Slide ${placement.slides.map((s) => `${withAccidentals(s.fromName)}–${withAccidentals(s.toName)} (${s.manner})`).join(", ")}.`
          : "",
        placement.sharedWithNext ? "The hand may stay for the next chord." : "",
      ]
        .filter(Boolean)
        .join(" "),
    ),
  );
}
