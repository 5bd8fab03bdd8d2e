/** Hears an exercise that is played by a student: on a MIDI keyboard, the computer's keys or the keys that are drawn. */

import { keptDelay } from "../record/delay-panel.ts";
import { momentOf } from "../record/heard-clock.ts";
import { listenToKeys, type Played } from "../record/key-input.ts";
import { listenToMidi, type MidiInput } from "../record/midi-input.ts";
import { type StageKeys, stageKeys } from "../record/stage-keys.ts";
import { h } from "../shell/dom.ts";
import { bareKeyName } from "../shell/words.ts";
import type { Stage } from "../sound/stage.ts";
import {
  type Answer,
  type Asked,
  judgedWords,
  metWords,
  pressed,
  unanswered,
  whatWasMet,
} from "./answer-model.ts";

export interface AnswerDesk {
  readonly element: HTMLElement;
  /** Listens and shows the keys until it is closed. */
  open(): void;
  /** A round begins: what was met of the one before is told. */
  begin(stage: Stage, start: number, asked: AskedRound): void;
  /** Tells what was met. */
  close(): void;
}

export interface AskedRound {
  readonly asked: readonly Asked[];
  readonly quartersPerMinute: number;
}

/** A round under way. */
interface Round extends AskedRound {
  readonly stage: Stage;
  /** Seconds of the sound's clock at its first click. */
  readonly start: number;
  answer: Answer;
  /** Whether the delay of what is played on is known. */
  measured: boolean;
}

/** Loudness of keys that make no sound of their own, and seconds that they sound. */
const OWN = { velocity: 84, seconds: 0.6 };

export function answerDesk(): AnswerDesk {
  const said = h("p", { class: "answer-said", role: "status", "aria-live": "off" });
  const told = h("p", { class: "answer-told", role: "status" });
  const place = h("div", {});
  let round: Round | null = null;
  let keys: StageKeys | null = null;
  let midi: MidiInput | null = null;
  let endKeys = () => {};
  let opened = false;

  const hear = ({ pitch, velocity, at, from }: Played) => {
    keys?.press(pitch, velocity > 0);
    if (round === null || velocity === 0) return;
    const { stage, start, asked, quartersPerMinute } = round;
    // A MIDI keyboard sounds by itself.
    if (midi?.names().includes(from) !== true)
      stage.piano.strike(pitch, OWN.velocity, stage.context.currentTime, OWN.seconds);
    const delay = keptDelay(from);
    const seconds = (at - momentOf(stage.context, start)) / 1000 - (delay ?? 0);
    const next = pressed(round.answer, asked, pitch, seconds, 60 / quartersPerMinute);
    round.answer = next.answer;
    round.measured = delay !== null;
    said.dataset.judged = next.judged.kind;
    said.textContent = `${bareKeyName(pitch)}: ${judgedWords(next.judged, round.measured)}`;
  };
  const tell = () => {
    if (round !== null) told.textContent = metWords(whatWasMet(round.answer, round.measured), round.measured);
    round = null;
  };
  return {
    element: h("div", { class: "answering" }, said, place, told),
    open() {
      opened = true;
      said.textContent = "";
      told.textContent = "";
      endKeys = listenToKeys(hear, () => {});
      keys = stageKeys(hear);
      place.replaceChildren(keys.element);
      // Nobody waits for it: the other keys play meanwhile, and without it.
      listenToMidi(
        hear,
        () => {},
        () => {},
      ).then(
        (input) => {
          if (opened) midi = input;
          else input.end();
        },
        () => {},
      );
    },
    begin(stage, start, asked) {
      tell();
      void stage.piano.ready(asked.asked.map(({ pitch }) => pitch));
      round = { ...asked, stage, start, answer: unanswered(asked.asked), measured: false };
    },
    close() {
      opened = false;
      tell();
      endKeys();
      keys?.end();
      midi?.end();
      midi = null;
      place.replaceChildren();
    },
  };
}
