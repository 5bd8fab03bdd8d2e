/** The account as plain text for a terminal: what a teacher reads in a minute, then every note. */

import { likelyReadings, placeIsAsked } from "../account/asked-place.ts";
import { restsOn } from "../account/rests-on.ts";
import type { Analysis } from "../account.ts";
import { clock, counted, percent } from "../words/index.ts";

export function accountText(analysis: Analysis): string {
  const { source, chart, alignment } = analysis;
  const solo = analysis.notes.filter((note) => note.solo);
  const lines = [
    `${source.name}: ${solo.length} solo notes of ${source.notes}, ${clock(source.seconds)}`,
    `Chart: ${chart.name ?? "untitled"} in ${chart.key}, ${chart.bars.length} bars, ${chart.meter.beats}/${chart.meter.unit}`,
    `Bars: ${alignment.method}, ${counted(alignment.choruses, "chorus", "choruses")}${tempoWords(analysis)}, sure to ${percent(alignment.confidence)}`,
    ...askedPlace(analysis),
    `Hand: ${percent(analysis.handFit.share)} of notes in a placement`,
    "",
  ];
  for (const warning of analysis.warnings) {
    lines.push(`Note: ${forTerminal(warning.message)}${warning.where === null ? "" : ` (${warning.where})`}`);
  }
  if (analysis.warnings.length > 0) lines.push("");
  const corrected = analysis.corrections.filter(({ became }) => became === "applied");
  if (corrected.length > 0) lines.push("Put right", ...corrected.map(({ text }) => `- ${text}`), "");
  for (const [kind, heading] of [
    ["works", "What works"],
    ["practise", "To practise"],
    ["notice", "To notice"],
  ] as const) {
    const findings = analysis.findings.filter((finding) => finding.kind === kind);
    if (findings.length === 0) continue;
    lines.push(heading, ...findings.map((finding) => `- ${finding.text}`), "");
  }
  const condition = restsOn(analysis);
  if (condition !== null) lines.push(`${condition}:`, "");
  for (const note of solo) {
    const place = `${note.chorus}:${note.bar}${note.beat === null ? "" : `:${Number(note.beat.toFixed(2))}`}`;
    lines.push(
      [
        place.padEnd(10),
        note.spelling.padEnd(5),
        (note.chord ?? "N.C.").padEnd(9),
        (note.degree ?? "").padEnd(4),
        (note.role ?? "").padEnd(8),
        (note.lineRole ?? "").padEnd(13),
        String(note.finger ?? "-"),
        ` ${note.account}`,
      ].join(" "),
    );
  }
  return `${lines.join("\n")}\n`;
}

/** An answer by its name in the options is one of the command line here. */
function forTerminal(message: string): string {
  return message.replace(/\(soloHand: (\w+)\)/, "(--solo-hand $1)");
}

/** Where the place is not sure: what else it may be, and how to settle it. */
function askedPlace(analysis: Analysis): string[] {
  if (!placeIsAsked(analysis)) return [];
  const first = analysis.alignment.bars.find((bar) => bar.bar === 1);
  const others = likelyReadings(analysis).map(
    (one) => `${Math.round(one.tempo)} a minute (${one.why}, ${percent(one.score)} likely)`,
  );
  const other = others.length === 0 ? "" : ` It may also be ${others.join(" or ")}.`;
  const heard = first === undefined ? "" : ` Bar 1 is heard at ${first.start.toFixed(1)} s.`;
  const todo = analysis.options.tempo === null ? "say the tempo (--tempo), or play it" : "play it";
  return [`Is this where you are?${heard}${other} If not, ${todo} to a click, or pin bar lines on the page.`];
}

function tempoWords({ alignment }: Analysis): string {
  return alignment.tempo === null
    ? ", no steady beat"
    : ` at ${Math.round(alignment.tempo.median)} quarter notes a minute`;
}
