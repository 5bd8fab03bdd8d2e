/** Files on their way to being takes, without a page. */
import { describe, expect, it } from "vitest";
import * as add from "../../client/class/add-model.ts";

const file = (name: string): File => new File(["MThd"], name);
const [one, two, three] = [file("one.mid"), file("two.mid"), file("three.mid")];
const REASON = new Error("This is no MIDI file.");
const names = (state: add.AddState) => state.files.map((chosen) => chosen.file.name);
const stages = (state: add.AddState) => state.files.map(({ stage }) => stage.name);

/** Sends all, as the page does: `outcome` says what became of each. */
function sentAll(
  state: add.AddState,
  outcome: (state: add.AddState, file: File) => add.AddState,
): add.AddState {
  let now = add.startSending(state);
  for (let next = add.nextFile(now); next !== null; next = add.nextFile(now)) {
    now = outcome(add.sentSoFar(now, next, 0.5), next);
  }
  return now;
}

describe("choosing", () => {
  it("adds to what is there; what is left out goes, whatever its name", () => {
    const twins = [file("solo.mid"), file("solo.mid")];
    const state = add.chooseFiles(add.chooseFiles(add.NOTHING_CHOSEN, twins), [one]);
    expect(names(add.leaveOut(state, twins[0]!))).toEqual(["solo.mid", "one.mid"]);
  });

  it("puts old refusals away; a recording that was heard meanwhile does not", () => {
    const refused = sentAll(add.chooseFiles(add.NOTHING_CHOSEN, [one]), (now, sent) =>
      add.refused(now, sent, REASON),
    );
    expect(add.addHeard(refused, [two]).refusals).toHaveLength(1);
    expect(add.chooseFiles(refused, [two]).refusals).toEqual([]);
  });

  it("names the button by what it will do", () => {
    const single = add.chooseFiles(add.NOTHING_CHOSEN, [one]);
    expect(add.sendWords(single)).toBe("Analyse");
    expect(add.sendWords(add.confirmable(single, true))).toBe("Confirm the chart and analyse");
    expect(add.sendWords(add.addHeard(single, [two, three]))).toBe("Analyse three files");
  });

  it("has a title, and a chart to propose, for one file alone", () => {
    const single = add.chooseFiles(add.NOTHING_CHOSEN, [one]);
    expect(add.onlyFile(single)).toBe(one);
    expect(add.onlyFile(add.addHeard(single, [two]))).toBeNull();
    expect(add.onlyFile(add.NOTHING_CHOSEN)).toBeNull();
  });

  it("tells sizes as file managers do, a kB of 1024 bytes", () => {
    expect([812, 1023, 1024, 1536, 20_480].map(add.sizeWords)).toEqual([
      "812 bytes",
      "1023 bytes",
      "1.0 kB",
      "1.5 kB",
      "20 kB",
    ]);
  });
});

describe("sending", () => {
  const threeChosen = add.chooseFiles(add.NOTHING_CHOSEN, [one, two, three]);

  it("takes the files in their order, each once; what is chosen meanwhile waits for the next press", () => {
    const order: string[] = [];
    const state = sentAll(threeChosen, (now, sent) => {
      order.push(sent.name);
      return add.addHeard(add.stored(now, sent, `take-of-${sent.name}`), [file(`after-${sent.name}`)]);
    });
    expect(order).toEqual(["one.mid", "two.mid", "three.mid"]);
    expect(names(add.endSending(state))).toEqual(["after-one.mid", "after-two.mid", "after-three.mid"]);
  });

  it("skips what was left out before its turn; what is under way cannot be left out", () => {
    let state = add.sentSoFar(add.startSending(threeChosen), one, 0);
    state = add.leaveOut(add.leaveOut(state, one), two);
    expect(names(state)).toEqual(["one.mid", "three.mid"]);
    expect(add.nextFile(state)).toBe(three);
  });

  it("says how far each is: on its way until all has gone, then being analysed", () => {
    const begun = add.sentSoFar(add.startSending(threeChosen), one, 0.25);
    expect(begun.files[0]!.stage).toEqual({ name: "on its way", share: 0.25 });
    const gone = add.sentSoFar(begun, one, 1);
    expect(gone.files.map(({ stage }) => add.stageWords(stage))).toEqual(["being analysed", "", ""]);
    expect(stages(add.refused(gone, one, REASON))).toEqual(["not taken", "waiting", "waiting"]);
  });

  it("keeps what was refused, with its reason under its name, to be sent again", () => {
    const state = sentAll(threeChosen, (now, sent) =>
      sent === two ? add.refused(now, sent, REASON) : add.stored(now, sent, sent.name),
    );
    expect(add.outcomeWords(state)).toBe("two takes analysed. one file could not be taken.");
    expect(add.takeToOpen(state)).toBeNull();
    const after = add.endSending(state);
    expect(after.sending).toBe(false);
    expect(names(after)).toEqual(["two.mid"]);
    expect(after.refusals).toEqual([{ file: "two.mid", error: REASON }]);
    expect(add.nextFile(add.startSending(after))).toBe(two);
  });

  it("opens the take of a single file", () => {
    const single = add.chooseFiles(add.NOTHING_CHOSEN, [one]);
    const state = sentAll(single, (now, sent) => add.stored(now, sent, "t1"));
    expect(add.takeToOpen(state)).toBe("t1");
    expect(names(add.endSending(state))).toEqual([]);
  });

  it("does not offer a file again whose take stands without its recording, and stays to say so", () => {
    const single = add.chooseFiles(add.NOTHING_CHOSEN, [one]);
    const state = sentAll(single, (now, sent) => add.soundNotKept(add.stored(now, sent, "t1"), sent, REASON));
    expect(add.outcomeWords(state)).toBe("one take analysed.");
    expect(add.takeToOpen(state)).toBeNull();
    expect(add.endSending(state)).toMatchObject({ files: [], refusals: [{ file: null, error: REASON }] });
  });

  it("says nothing of an outcome where nothing was taken", () => {
    const state = sentAll(threeChosen, (now, sent) => add.refused(now, sent, REASON));
    expect(add.outcomeWords(state)).toBeNull();
    expect(state.refusals).toHaveLength(3);
  });
});
