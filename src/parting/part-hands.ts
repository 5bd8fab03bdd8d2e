/**
 * Solo hand and comping hand: by the part or staff that the user names, by the parts and staves that the source
 * has, and otherwise by following two hands through the notes of one track.
 */
import { median } from "d3-array";
import type { Hand, Note, NoteHand, Take, Warning } from "../take/index.ts";
import { Problem } from "../take/index.ts";
import { doubtfulWarning } from "./doubtful.ts";
import { needsTwoHands } from "./one-hand.ts";
import { partByPath } from "./viterbi.ts";
import {
  doubledQuestion,
  isLineUnderChords,
  leftHandQuestion,
  lowLineQuestion,
  sharedLine,
  twoHandsQuestion,
} from "./which-hand.ts";

export { partByPath } from "./viterbi.ts";

export interface PartingOptions {
  /** Part that carries the solo, or null to let the program choose. */
  readonly soloPart: string | null;
  /** Staff of that part, from 1, or null. */
  readonly soloStaff: number | null;
  /** Hand that carries the line; "both" when all notes of the part are solo; null to let the program choose. */
  readonly soloHand: "right" | "left" | "both" | null;
}

export interface PartedHands {
  /** Parallel to `take.notes`. */
  readonly hands: readonly NoteHand[];
  readonly warnings: readonly Warning[];
}

/** A voice of the source that may carry the solo: a part, or one staff of it. */
interface Voice {
  readonly part: string;
  readonly staff: number | null;
  readonly name: string;
  /** Indices into `take.notes`. */
  readonly notes: readonly number[];
}

/**
 * Gives every note of a take a hand, says whether it belongs to the solo, and how clear that is (0 to 1).
 *
 * @throws Problem `no-such-part`, `no-such-staff` when the named part or staff is not in the take
 * @example partHands(take, { soloPart: "t2", soloStaff: null, soloHand: null }).hands[0]?.solo
 */
export function partHands(take: Take, options: PartingOptions): PartedHands {
  const warnings: Warning[] = [];
  const solo = chooseVoice(take, options, warnings);
  const hands = new Array<NoteHand>(take.notes.length);
  const inSolo = new Set(solo.notes);
  const soloHand: Hand = options.soloHand === "left" || (solo.staff ?? 1) > 1 ? "left" : "right";
  const otherHand: Hand = soloHand === "right" ? "left" : "right";
  take.notes.forEach((_, i) => {
    if (!inSolo.has(i)) hands[i] = { hand: otherHand, solo: false, margin: 1 };
  });

  const alone = inSolo.size === take.notes.length;
  const twoHanded =
    solo.staff === null &&
    (options.soloHand === "both" || needsTwoHands(solo.notes.map((i) => take.notes[i]!)));
  if (!twoHanded || (!alone && hasComping(take, solo) && options.soloHand !== "both")) {
    for (const i of solo.notes) hands[i] = { hand: soloHand, solo: true, margin: 1 };
    followCorrections(take, solo, options.soloHand === "both" ? null : soloHand, hands);
    return { hands, warnings: [...warnings, ...questions(take, solo, options, hands)] };
  }

  const notes = solo.notes.map((i) => take.notes[i]!);
  const path = partByPath(notes);
  const parted = notes.map(({ onset, pitch }, k) => ({
    onset,
    pitch,
    hand: path.right[k] === 1 ? ("right" as const) : ("left" as const),
    margin: path.margin[k]!,
  }));
  solo.notes.forEach((i, k) => {
    const hand: Hand = path.right[k] === 1 ? "right" : "left";
    const isSolo = options.soloHand === "both" || hand === soloHand;
    hands[i] = { hand, solo: isSolo, margin: path.margin[k]! };
  });
  followCorrections(take, solo, options.soloHand === "both" ? null : soloHand, hands);
  if (options.soloHand !== "both") {
    warnings.push({
      code: "hands-parted",
      message:
        `${solo.name} carries both hands; they were parted note by note, and the ${soloHand} hand` +
        ` was taken as the solo${options.soloHand === null ? "; choose the other hand, or both, if that is wrong" : ""}`,
      where: solo.name,
    });
  }
  return {
    hands,
    warnings: [...warnings, ...doubtfulWarning(parted), ...questions(take, solo, options, hands)],
  };
}

/** What is asked of the choice of hands, where nobody made it, and what is told of a line of both. */
function questions(
  take: Take,
  solo: Voice,
  { soloPart, soloHand, soloStaff }: PartingOptions,
  hands: readonly NoteHand[],
): Warning[] {
  const handsOf = (indices: readonly number[]) => indices.map((i) => hands[i]!.hand);
  if (soloHand === "both") return sharedLine(handsOf(solo.notes));
  if (soloHand !== null || soloStaff !== null) return [];
  const pair = soloPart === null ? handsInParts(take) : null;
  if (pair !== null) {
    const [left, right] = pair.map(({ notes }) => notes.map((i) => take.notes[i]!)) as [Note[], Note[]];
    const asked = leftHandQuestion(
      [...left, ...right],
      [...left.map(() => "left" as const), ...right.map(() => "right" as const)],
    );
    if (asked.length > 0) return asked;
  }
  const ofPart = take.notes.flatMap((note, i) => (note.part === solo.part ? [i] : []));
  const line = solo.notes.filter((i) => hands[i]!.solo).map((i) => take.notes[i]!);
  const asked = leftHandQuestion(
    ofPart.map((i) => take.notes[i]!),
    handsOf(ofPart),
  );
  if (asked.length > 0 || new Set(handsOf(solo.notes)).size > 1) return asked;
  const forTwo = [...twoHandsQuestion(line), ...doubledQuestion(line)].slice(0, 1);
  return forTwo.length > 0 || handsOf(solo.notes).includes("left") ? forTwo : lowLineQuestion(line);
}

/** The lower and the higher of two parts, where the take has two and each is printed on one staff or none; else null. */
function handsInParts(take: Take): readonly [lower: Voice, higher: Voice] | null {
  const voices = voicesOf(take);
  if (voices.length !== 2 || voices.some(({ staff }) => staff !== null)) return null;
  const [a, b] = voices as [Voice, Voice];
  const middle = ({ notes }: Voice) => median(notes, (i) => take.notes[i]!.pitch) ?? 0;
  return middle(a) <= middle(b) ? [a, b] : [b, a];
}

/**
 * Gives every corrected note its hand. Where the hands have staves of their own, a note changes sides with its hand
 * (`soloHand`; null where both hands play the line); a line that stands alone is then one that both hands share.
 */
function followCorrections(take: Take, solo: Voice, soloHand: Hand | null, hands: NoteHand[]): void {
  take.notes.forEach((note, i) => {
    const hand = note.corrected?.hand;
    if (hand === undefined) return;
    const shared = solo.staff === null || soloHand === null || note.part !== solo.part;
    hands[i] = { hand, solo: shared ? hands[i]!.solo : hand === soloHand, margin: 1 };
  });
}

/** The named voice, or the likeliest one with a warning that says why. */
function chooseVoice(take: Take, options: PartingOptions, warnings: Warning[]): Voice {
  const voices = voicesOf(take);
  if (options.soloPart !== null && !take.parts.some((part) => part.id === options.soloPart)) {
    const known = take.parts.map((part) => part.id).join(", ");
    throw new Problem(
      "no-such-part",
      `The take has no part "${options.soloPart}"`,
      null,
      `Choose one of: ${known}`,
    );
  }
  let candidates = voices.filter((voice) => options.soloPart === null || voice.part === options.soloPart);
  if (options.soloStaff !== null) {
    candidates = candidates.filter((voice) => voice.staff === options.soloStaff);
    if (candidates.length === 0) {
      throw new Problem(
        "no-such-staff",
        `The ${options.soloPart === null ? "take" : `part "${options.soloPart}"`} has no staff ${options.soloStaff} with notes`,
        null,
        "Choose a staff that carries notes, or leave the staff open",
      );
    }
  }
  if (options.soloHand === "both" && options.soloStaff === null) candidates = joinStaves(take, candidates);
  if (options.soloHand === "left" && options.soloStaff === null && candidates.some((v) => v.staff !== null)) {
    // The left hand's line stands in the lowest staff of its part.
    const last = Math.max(...candidates.map((voice) => voice.staff ?? 0));
    candidates = candidates.filter((voice) => voice.staff === last);
  }
  const pair = options.soloHand === "left" && options.soloPart === null ? handsInParts(take) : null;
  if (pair !== null) {
    // Where hands have parts of their own, the left hand's line under the other's chords is the lower one.
    const [left, right] = pair.map(({ notes }) => notes.map((i) => take.notes[i]!)) as [Note[], Note[]];
    if (isLineUnderChords(left, right)) return pair[0];
  }
  if (candidates.length === 0) return { part: "", staff: null, name: "the take", notes: [] };
  const ranked = candidates
    .map((voice) => ({ voice, score: soloLikeness(take, voice) }))
    .sort((a, b) => b.score - a.score);
  const best = ranked[0]!.voice;
  if (ranked.length > 1) {
    warnings.push({
      code: "solo-chosen",
      message:
        `${voices.length} parts or staves carry notes; ${best.name} was taken as the solo because its line is the` +
        " highest and most single-voiced; choose another part or staff if that is wrong",
      where: best.name,
    });
  }
  return best;
}

function voicesOf(take: Take): Voice[] {
  const byVoice = new Map<string, { part: string; staff: number | null; notes: number[] }>();
  const staves = new Map(take.parts.map((part) => [part.id, part.staves]));
  take.notes.forEach((note, i) => {
    const staff = (staves.get(note.part) ?? 1) > 1 ? (note.printed?.staff ?? null) : null;
    const key = `${note.part} ${staff}`;
    const voice = byVoice.get(key);
    if (voice) voice.notes.push(i);
    else byVoice.set(key, { part: note.part, staff, notes: [i] });
  });
  return [...byVoice.values()].map((voice) => ({ ...voice, name: voiceName(take, voice) }));
}

function joinStaves(take: Take, voices: readonly Voice[]): Voice[] {
  const parts = [...new Set(voices.map((voice) => voice.part))];
  return parts.map((part) => {
    const notes = voices.filter((voice) => voice.part === part).flatMap((voice) => voice.notes);
    return {
      part,
      staff: null,
      name: voiceName(take, { part, staff: null }),
      notes: notes.sort((a, b) => a - b),
    };
  });
}

function voiceName(take: Take, voice: { part: string; staff: number | null }): string {
  const name = take.parts.find((part) => part.id === voice.part)?.name ?? "";
  const part = name === "" ? `part ${voice.part}` : `part ${voice.part} (${name})`;
  return voice.staff === null ? part : `staff ${voice.staff} of ${part}`;
}

/** Higher for a voice that sounds like a line: high, single-voiced, with enough notes [practice]. */
function soloLikeness(take: Take, voice: Voice): number {
  const notes = voice.notes.map((i) => take.notes[i]!);
  const pitch = notes.reduce((sum, note) => sum + note.pitch, 0) / notes.length;
  const share = notes.length / take.notes.length;
  const named = /solo|lead|melody|right/i.test(voice.name)
    ? 2
    : /left|bass|drum|comp/i.test(voice.name)
      ? -2
      : 0;
  return named + pitch / 12 - 2 * sharedOnsets(notes) + 2 * Math.min(share, 0.3);
}

/** Share of notes that are struck together with another one. */
function sharedOnsets(notes: readonly Note[]): number {
  let shared = 0;
  for (let i = 0; i < notes.length; i++) {
    const before = i > 0 && notes[i]!.onset - notes[i - 1]!.onset < 0.03;
    const after = i + 1 < notes.length && notes[i + 1]!.onset - notes[i]!.onset < 0.03;
    if (before || after) shared++;
  }
  return notes.length === 0 ? 0 : shared / notes.length;
}

/** True when other notes of the source accompany the voice, so that it need not be parted itself. */
function hasComping(take: Take, solo: Voice): boolean {
  const others = take.notes.length - solo.notes.length;
  // A part with both hands beside a bass or drum track is still to be parted: it is wide and many-voiced itself.
  const notes = solo.notes.map((i) => take.notes[i]!);
  return others > 0 && sharedOnsets(notes) < 0.35;
}
