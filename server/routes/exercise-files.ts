/** The files of one exercise: notation, and MIDI to play along with. */
import { z } from "zod";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import {
  type Exercise,
  exerciseMidi,
  exerciseScore,
  lessonMidi,
  lessonScore,
  type PreparedLesson,
} from "../../src/practice/index.ts";

export const playAlongFields = z.object({
  tempo: z.coerce.number().min(20).max(300).default(80).describe("quarter notes a minute, 20 to 300"),
  click: z
    .enum(["none", "every beat", "two and four"])
    .default("every beat")
    .describe("where the click falls"),
  backing: z.enum(["none", "walking bass", "shells"]).default("walking bass").describe("what accompanies it"),
  countIn: z.coerce.number().int().min(0).max(4).default(1).describe("number of bars counted in, 0 to 4"),
  rightHand: z.enum(["yes", "no"]).default("yes").describe("whether the exercise itself is played"),
});

export const SCORE = { description: "MusicXML", type: "application/vnd.recordare.musicxml+xml" } as const;
export const PLAY_ALONG = { description: "MIDI", type: "audio/midi" } as const;

/** @param name of the file, without its ending */
export const scoreFile = (exercise: Exercise, name: string) => ({
  status: 200 as const,
  type: SCORE.type,
  fileName: `${name}.musicxml`,
  body: writeMusicXml(exerciseScore(exercise)),
});

/** @param name of the file, without its ending */
export const playAlongFile = (exercise: Exercise, name: string, query: z.infer<typeof playAlongFields>) => {
  return {
    status: 200 as const,
    type: PLAY_ALONG.type,
    fileName: `${name}.mid`,
    body: exerciseMidi(exercise, playAlongOf(query)),
  };
};

/** All exercises of a lesson as one score. */
export const lessonScoreFile = ({ title, exercises }: PreparedLesson) => ({
  status: 200 as const,
  type: SCORE.type,
  fileName: "lesson.musicxml",
  body: writeMusicXml(lessonScore(title, exercises)),
});

/** All exercises of a lesson as one MIDI file. */
export const lessonPlayAlongFile = (
  { title, exercises }: PreparedLesson,
  query: z.infer<typeof playAlongFields>,
) => ({
  status: 200 as const,
  type: PLAY_ALONG.type,
  fileName: "lesson.mid",
  body: lessonMidi(title, exercises, playAlongOf(query)),
});

const playAlongOf = ({ rightHand, ...query }: z.infer<typeof playAlongFields>) => {
  const { tempo, click, backing, countIn } = query;
  return { tempo, click, backing, countIn, rightHand: rightHand === "yes" };
};
