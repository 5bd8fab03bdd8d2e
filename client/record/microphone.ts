/** Recording the room: a microphone, its level, and what it heard as a file. */
import { h } from "../shell/dom.ts";

export interface Microphone {
  readonly element: HTMLElement;
  /** Whether it was asked for and allowed. */
  readonly on: boolean;
  /** Whether the recording itself is to be kept beside its notes. */
  readonly keeps: boolean;
  /** Begins to record; nothing happens while it is not on. `part` is given each second's piece, in order. */
  start(part?: (sound: Blob) => void): void;
  /** What was recorded since `start`; null when nothing was. */
  stop(): Promise<File | null>;
  /** Gives the microphone back. */
  end(): void;
}

/** The browser's help for speech changes a piano: every one of them is switched off. */
const PLAIN: MediaTrackConstraints = {
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
  channelCount: 1,
};
/** Peaks from here on are cut off by most microphones. */
const TOO_LOUD = 0.98;

export function microphone(): Microphone {
  const words = h(
    "p",
    { class: "hint", role: "status" },
    "A piano without MIDI can be recorded by the microphone.",
  );
  const level = h("meter", { min: 0, max: 1, low: 0.05, high: 0.9, optimum: 0.5, "aria-label": "Level" });
  const keep = h("input", { type: "checkbox" });
  const whenOn = h(
    "span",
    { hidden: true },
    level,
    h("label", { class: "choice" }, keep, " keep the recording beside its notes"),
  );
  const button = h("button", { type: "button", onClick: () => void ask() }, "Use the microphone");
  let open: OpenMicrophone | null = null;
  let recorder: MediaRecorder | null = null;
  let parts: Blob[] = [];

  const show = (text: string) => {
    whenOn.hidden = open === null;
    button.textContent = open === null ? "Use the microphone" : "Without the microphone";
    words.textContent = text;
  };
  const end = () => {
    open?.end();
    open = null;
    show("The microphone is off.");
  };
  const ask = async () => {
    if (open !== null) {
      end();
      return;
    }
    try {
      open = await openMicrophone((peak) => {
        level.value = peak;
        if (peak > TOO_LOUD) words.textContent = "Too loud: move the microphone away a little.";
      });
      show(
        "The microphone listens. Play to headphones, or without click and bass: it hears what the speakers play.",
      );
    } catch (error) {
      show(troubleWords(error as Error));
    }
  };

  return {
    element: h(
      "fieldset",
      {},
      h("legend", {}, "Your microphone"),
      h("div", { class: "row" }, button, whenOn, words),
    ),
    get on() {
      return open !== null;
    },
    get keeps() {
      return keep.checked;
    },
    start(part) {
      if (open === null) return;
      parts = [];
      recorder = new MediaRecorder(open.stream, { audioBitsPerSecond: 192_000 });
      recorder.ondataavailable = (event) => {
        parts.push(event.data);
        part?.(event.data);
      };
      recorder.start(1000);
    },
    async stop() {
      const running = recorder;
      recorder = null;
      return running === null ? null : finish(running, parts);
    },
    end,
  };
}

interface OpenMicrophone {
  readonly stream: MediaStream;
  end(): void;
}

/** @param heard told the highest peak of the last moment, 0 to 1, ten times a second */
async function openMicrophone(heard: (peak: number) => void): Promise<OpenMicrophone> {
  const stream = await navigator.mediaDevices.getUserMedia({ audio: PLAIN });
  const context = new AudioContext();
  const analyser = context.createAnalyser();
  context.createMediaStreamSource(stream).connect(analyser);
  const samples = new Float32Array(analyser.fftSize);
  const timer = window.setInterval(() => {
    analyser.getFloatTimeDomainData(samples);
    heard(samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0));
  }, 100);
  return {
    stream,
    end() {
      clearInterval(timer);
      for (const track of stream.getTracks()) track.stop();
      void context.close();
    },
  };
}

async function finish(running: MediaRecorder, parts: readonly Blob[]): Promise<File> {
  await new Promise<void>((done) => {
    running.onstop = () => done();
    running.stop();
  });
  const type = running.mimeType;
  return new File([...parts], `recording.${type.includes("mp4") ? "mp4" : "webm"}`, { type });
}

function troubleWords(error: Error): string {
  switch (error.name) {
    case "NotAllowedError":
      return "The browser was not allowed to use the microphone. Allow it for this page, or send a recording of a phone.";
    case "NotFoundError":
      return "No microphone is connected. Connect one, or send a recording of a phone.";
    default:
      return `The microphone cannot be used (${error.message}). Send a recording of a phone instead.`;
  }
}
