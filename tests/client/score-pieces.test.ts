/** Scores cut for paper: each piece states divisions, key, time and clef, as a score must (MusicXML 4.0, attributes). */
import { describe, expect, it } from "vitest";
import { type ScorePiece, scorePieces } from "../../client/staff/score-pieces.ts";

const FIRST =
  "<attributes><divisions>48</divisions><key><fifths>-1</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>";

/** Choruses of so many bars, four on a line, each bar with a note of its own. */
function score(choruses: number, bars: number, more: (bar: number) => string = () => ""): string {
  const measures = Array.from({ length: choruses * bars }, (_, i) => {
    const line = i > 0 && (i % bars) % 4 === 0 ? '<print new-system="yes"/>' : "";
    const chorus =
      i % bars === 0
        ? "<direction><direction-type><rehearsal>Chorus</rehearsal></direction-type></direction>"
        : "";
    return `<measure number="${i + 1}">${line}${i === 0 ? FIRST : ""}${more(i + 1)}${chorus}<note id="n${i + 1}"/></measure>`;
  });
  return `<score-partwise><part-list/><part id="P1">${measures.join("")}</part></score-partwise>`;
}
const numbers = ({ xml: piece }: ScorePiece) =>
  [...piece.matchAll(/measure number="(\d+)"/g)].map(([, n]) => Number(n));

describe("a score in pieces", () => {
  it("holds every bar once and in order, at most so many lines in each", () => {
    const pieces = scorePieces(score(5, 12), 6);
    expect(pieces.flatMap(numbers)).toEqual(Array.from({ length: 60 }, (_, i) => i + 1));
    expect(pieces.map((piece) => numbers(piece).length)).toEqual([24, 24, 12]);
  });

  it("lets a chorus begin the next one where it does not end in this one, and breaks one that fits in none", () => {
    expect(scorePieces(score(3, 16), 6).map((piece) => numbers(piece)[0])).toEqual([1, 17, 33]);
    expect(scorePieces(score(2, 32), 6).map((piece) => numbers(piece)[0])).toEqual([1, 25, 49]);
  });

  it("states in each what holds there: divisions, the last key and clef, the meter unprinted", () => {
    const pieces = scorePieces(
      score(4, 12, (bar) => (bar === 13 ? "<attributes><key><fifths>3</fifths></key></attributes>" : "")),
      6,
    );
    expect(pieces[0]!.xml).toContain(FIRST);
    expect(pieces[0]!.xml).not.toContain("print-object");
    expect(pieces[1]!.xml).toContain(
      '<measure number="25"><attributes><divisions>48</divisions><key><fifths>3</fifths></key><time print-object="no"><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>',
    );
    expect(pieces[1]!.xml.match(/new-system/g)).toHaveLength(5);
    for (const piece of pieces)
      expect(piece.xml).toMatch(
        /^<score-partwise><part-list\/><part id="P1"><measure.*<\/measure><\/part><\/score-partwise>$/s,
      );
  });

  it("leaves whole what says nothing of lines", () => {
    const plain = score(1, 3);
    expect(scorePieces(plain, 6)).toEqual([{ xml: plain, fillsLast: false }]);
  });

  it("makes the last line of a piece as wide as the others where it has as many bars, and no other", () => {
    expect(scorePieces(score(2, 14), 4).map((piece) => piece.fillsLast)).toEqual([false, false]);
    expect(scorePieces(score(2, 16), 4).map((piece) => piece.fillsLast)).toEqual([true, true]);
  });
});
