/**
 * The account: all that the analysis says of a take. One schema feeds the types, the checks and the published
 * JSON Schema. Fields are only ever added. Units: seconds, quarter-note beats (beats of the bar where said so),
 * semitones, MIDI numbers.
 */
import { z } from "zod";
import { ALIGNMENT_METHODS } from "./align/types.ts";
import { DEGREES, QUALITIES } from "./chart/types.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "./harmony/roles.ts";

export const SCHEMA_VERSION = 1;

const share = z.number().min(0).max(1);
const noteId = z.string();
const finger = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]);
const hand = z.enum(["right", "left"]);

export const warningSchema = z.object({
  code: z.string(),
  message: z.string(),
  where: z.string().nullable(),
});

export const anchorSchema = z.object({
  seconds: z.number(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number(),
});

export const handShapeSchema = z.object({
  name: z.string().min(1).max(60),
  fingers: z.array(finger).min(1).max(5),
  semitones: z.array(z.int()).min(1).max(5),
  anchorFinger: finger,
  anchorDegrees: z.array(z.object({ degree: z.enum(DEGREES), qualities: z.array(z.enum(QUALITIES)) })),
});

/**
 * Something that teacher and student agreed to work on, which the take is checked against first. `check` null is a
 * goal in words only, which nobody but the teacher can judge.
 */
export const goalSchema = z.object({
  /** In the teacher's own words: "second placement on the IV chord". */
  text: z.string().min(1).max(300),
  check: z
    .discriminatedUnion("kind", [
      /** Notes played with the anchor finger on this degree, on chords of this numeral ("IV"; null for all). */
      z.object({
        kind: z.literal("placement"),
        anchorDegree: z.enum(DEGREES),
        numeral: z.string().nullable().default(null),
        shape: z.string().nullable().default(null),
        least: z.int().min(1).default(4),
      }),
      /** Share of the time in which the solo rests. */
      z.object({ kind: z.literal("rests"), least: share }),
      /** Share of the notes in stepwise runs. */
      z.object({ kind: z.literal("runs"), most: share }),
      /** Times that one motif of four notes or more is heard. */
      z.object({ kind: z.literal("motif"), least: z.int().min(2) }),
      /** Slides from a black key. */
      z.object({ kind: z.literal("slides"), least: z.int().min(1) }),
      /** Semitones between the lowest and the highest note. */
      z.object({ kind: z.literal("range"), least: z.int().min(1) }),
      /** Share of chord changes met with a third or seventh within the first beat. */
      z.object({ kind: z.literal("guide tones"), least: share }),
      /** Share of phrases that answer the one before. */
      z.object({ kind: z.literal("answers"), least: share }),
    ])
    .nullable()
    .default(null),
});

/** What the caller may decide; everything has a default, and the account says what was decided. */
export const optionsSchema = z.object({
  /** Name of the file, for the account and for telling formats apart when the bytes do not. */
  name: z.string().default("take"),
  /** Part that carries the solo (`Part.id`); null lets the program choose. */
  soloPart: z.string().nullable().default(null),
  /** Staff of that part, from 1; null lets the program choose. */
  soloStaff: z.int().min(1).nullable().default(null),
  /** Hand that carries the line; "both" for two-hand lines; null lets the program choose. */
  soloHand: z.enum(["right", "left", "both"]).nullable().default(null),
  /** Pattern of a format 2 MIDI file, from 1. */
  pattern: z.int().min(1).nullable().default(null),
  method: z.enum(["auto", "notated", "click", "tracked", "rubato"]).default("auto"),
  /** Known tempo in quarter notes a minute, or null. */
  tempo: z.number().min(20).max(400).nullable().default(null),
  anchors: z.array(anchorSchema).default([]),
  key: z.string().nullable().default(null),
  idiom: z.enum(["blues", "standard"]).nullable().default(null),
  /** Scales chosen by the user for single chords of the chart. */
  scales: z.array(z.object({ bar: z.int().min(1), beat: z.number().min(1), scale: z.string() })).default([]),
  /** Names of the shapes that the hand is explained by; empty for all known. */
  shapes: z.array(z.string()).default([]),
  /** Shapes of the teacher's own, beside the built-in ones. */
  ownShapes: z.array(handShapeSchema).default([]),
  /** Seed of the permutation and bootstrap statistics. */
  seed: z.int().default(1),
  /** Added: what the teacher asked for; checked before anything else is said. */
  goals: z.array(goalSchema).max(12).default([]),
});

export const noteSchema = z.object({
  id: noteId,
  pitch: z.int().min(0).max(127),
  spelling: z.string(),
  onset: z.number(),
  duration: z.number(),
  beats: z.number().nullable(),
  velocity: z.int(),
  hand,
  solo: z.boolean(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  chord: z.string().nullable(),
  degree: z.enum(DEGREES).nullable(),
  role: z.enum(HARMONIC_ROLES).nullable(),
  guideTone: z.boolean(),
  blueInKey: z.boolean(),
  lineRole: z.enum(LINE_ROLES).nullable(),
  target: noteId.nullable(),
  strength: share,
  placement: z.string().nullable(),
  finger: finger.nullable(),
  fingerSource: z.enum(["printed", "inferred"]),
  /** Added: all that is printed as fingering, in order; left out where nothing is. */
  printedFingers: z.array(z.object({ finger, substitution: z.boolean(), alternate: z.boolean() })).optional(),
  /** Added: how a grace note is notated; left out for all other notes. */
  grace: z.enum(["acciaccatura", "appoggiatura"]).optional(),
  slide: noteId.nullable(),
  phrase: z.string().nullable(),
  motifs: z.array(z.string()),
  timing: z.number().nullable(),
  account: z.string(),
  /** Added: chart position in quarter-note beats from the first bar line; null in rubato. */
  position: z.number().nullable(),
  /** Added: 0 to 1, how clearly the note belongs to its hand. */
  handMargin: share,
});

export const placementSchema = z.object({
  id: z.string(),
  shape: z.string(),
  anchorPitch: z.int(),
  anchorFinger: finger,
  anchorDegree: z.enum(DEGREES).nullable(),
  chord: z.string().nullable(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  firstNote: noteId,
  lastNote: noteId,
  notes: z.int(),
  shift: z.number().nullable(),
  fitsChord: z.boolean(),
});

/** A placement as named on a chord: "third-and-steps, index on the fifth". */
export const namedPlacementSchema = z.object({
  shape: z.string(),
  anchorDegree: z.enum(DEGREES),
  /** Pitch class under the anchor finger, spelled. */
  anchor: z.string(),
  notes: z.int(),
});

export const handFitSchema = z.object({
  /** Share of solo notes in a placement. */
  share,
  byShape: z.record(z.string(), share),
  byChorus: z.array(z.object({ chorus: z.int(), share })),
  byChord: z.array(
    z.object({
      chord: z.string(),
      share,
      used: z.array(namedPlacementSchema),
      unused: z.array(namedPlacementSchema),
    }),
  ),
  shifts: z.object({
    count: z.int(),
    /** Sum of distances in semitones. */
    distance: z.number(),
    median: z.number().nullable(),
    /** Notes still in the last chord's placement after the change. */
    late: z.array(noteId),
    /** Chord changes at which a placement common to both chords was kept, or could have been. */
    common: z.array(
      z.object({
        chorus: z.int(),
        bar: z.int(),
        beat: z.number(),
        taken: z.boolean(),
        placement: z.string(),
      }),
    ),
  }),
  slides: z.object({
    taken: z.array(z.object({ from: noteId, to: noteId, idiomatic: z.boolean() })),
    /** Slides that the keys allow in the placements used but that were not played, as note ids of the fourth finger. */
    missed: z.array(noteId),
    possible: z.int(),
  }),
  /** The same fingering moved to another placement. */
  moved: z.array(z.object({ firstNotes: z.array(noteId), fingers: z.array(finger) })),
  cost: z.number(),
  alternatives: z.array(
    z.object({
      firstNote: noteId,
      lastNote: noteId,
      fingers: z.array(finger.nullable()),
      /** How much dearer than the account that was chosen. */
      cost: z.number(),
      /** Added: the other placement. */
      shape: z.string(),
      anchorPitch: z.int(),
    }),
  ),
  /** Added: other fingers, at most two points dearer, of notes outside every placement; parallel to those notes. */
  freeAlternatives: z
    .array(z.object({ firstNote: noteId, lastNote: noteId, fingers: z.array(finger), cost: z.number() }))
    .optional(),
  /** Stretches beyond the comfortable span of a pair of fingers. */
  stretches: z.array(
    z.object({ from: noteId, to: noteId, fingers: z.tuple([finger, finger]), semitones: z.number() }),
  ),
  /** The usual caution when a stretch or a wide shape occurs, else null. */
  caution: z.string().nullable(),
  /** Added: notes in each register of the keyboard; those with 0 were never visited. */
  registers: z.array(z.object({ name: z.string(), low: z.int(), high: z.int(), notes: z.int() })).optional(),
});

export const phraseSchema = z.object({
  id: z.string(),
  firstNote: noteId,
  lastNote: noteId,
  notes: z.int(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  /** Length in bars of the chart; null in rubato. */
  bars: z.number().nullable(),
  seconds: z.number(),
  /** Silence after it, in seconds and quarter-note beats. */
  restSeconds: z.number(),
  restBeats: z.number().nullable(),
  low: z.int(),
  high: z.int(),
  shape: z.enum(["arch", "valley", "rising", "falling", "level", "wave"]),
  /** Id of the phrase that this one answers, or null. */
  answers: z.string().nullable(),
  /** 0 to 1: how clear the boundary after it is. */
  boundary: share,
  /** Added: what ends it: a rest, a held note, a change of pace or register, or the end of the solo. */
  ends: z.enum(["rest", "long note", "change", "end"]),
});

export const runSchema = z.object({
  firstNote: noteId,
  lastNote: noteId,
  direction: z.enum(["up", "down"]),
  length: z.int(),
  /** Added: where it starts. */
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  /** Added: the leap of three or more semitones right after it, up +, down -; null when no leap follows. */
  leap: z.int().nullable(),
});

export const MOTIF_VIEWPOINTS = [
  "chromatic interval",
  "interval and rhythm",
  "degree",
  "contour",
  "rhythm",
  "finger",
] as const;

export const MOTIF_RELATIONS = ["exact", "transposed", "same fingering", "rhythm", "varied"] as const;

export const motifSchema = z.object({
  id: z.string(),
  viewpoint: z.enum(MOTIF_VIEWPOINTS),
  pattern: z.array(z.union([z.number(), z.string()])),
  /** Number of notes. */
  length: z.int(),
  occurrences: z.array(
    z.object({
      firstNote: noteId,
      lastNote: noteId,
      chorus: z.int(),
      bar: z.int(),
      beat: z.number().nullable(),
      relation: z.enum(MOTIF_RELATIONS),
      /** What was changed: "one note added", "inverted", ...; "" when nothing. */
      change: z.string(),
      /** Semitones from the first occurrence, or null when it is no transposition. */
      transposition: z.number().nullable(),
      /** Added: number of notes, which a varied occurrence may have more or fewer of. */
      notes: z.int(),
      /** Added: id of the phrase in which it starts, or null. */
      phrase: z.string().nullable(),
    }),
  ),
  /** Number of occurrences that chance alone would give. */
  expected: z.number(),
  /** False-discovery rate at which it is kept. */
  q: z.number(),
  /** Added: share of the solo's notes that its occurrences cover. */
  coverage: share,
  /** Added: share of the notes from the first to the last note of an occurrence that belong to it, taken over all. */
  compactness: share,
  /** Added: rank weight, the greater the more it says of the solo. */
  weight: z.number(),
  /** Added: its life over the choruses. */
  development: z.object({
    firstHeard: z.object({ chorus: z.int(), bar: z.int() }),
    byChorus: z.array(z.object({ chorus: z.int(), occurrences: z.int() })),
    /** Choruses after the first in which it returns. */
    carriedOver: z.array(z.int()),
    /** Chorus from which on it is not heard any more; null when it lasts to the end. */
    droppedFrom: z.int().nullable(),
  }),
  /** Added: neighbouring phrases of which the second takes up the idea of the first. */
  answers: z.array(z.object({ call: z.string(), answer: z.string() })),
});

export const swingSchema = z.object({
  /** First part over second part. */
  median: z.number(),
  q1: z.number(),
  q3: z.number(),
  /** Number of beats measured. */
  beats: z.int(),
  /** Added: median tempo of those beats, in quarter notes a minute. */
  tempo: z.number().nullable(),
  /** Added: median length of the short part, in milliseconds. */
  short: z.number().nullable(),
});

export const registerSchema = z.object({
  low: z.int().nullable(),
  high: z.int().nullable(),
  /** 10, 25, 50, 75 and 90 %, MIDI numbers. */
  quantiles: z.array(z.number()),
  histogram: z.array(z.object({ pitch: z.int(), notes: z.int() })),
});

const shares = z.record(z.string(), share);

export const chorusSchema = z.object({
  chorus: z.int(),
  notes: z.int(),
  roles: shares,
  lineRoles: shares,
  degrees: shares,
  register: registerSchema,
  /** Notes a bar and notes a second. */
  density: z.object({ perBar: z.number(), perSecond: z.number() }),
  swing: swingSchema.nullable(),
  placements: z.array(z.string()),
  placementShare: share,
  motifs: z.array(z.string()),
  /** Share of notes in stepwise runs. */
  runShare: share,
  /** Share of the chorus's time in which the solo rests. */
  rests: share,
  phrases: z.int(),
});

export const rhythmSchema = z.object({
  swing: swingSchema.nullable(),
  swingByBeat: z.array(z.object({ beat: z.number(), swing: swingSchema })),
  /** In milliseconds; null when not measurable. `against`: what early and late are measured from. */
  timing: z
    .object({
      against: z.enum(["grid", "other hand"]),
      median: z.number(),
      q1: z.number(),
      q3: z.number(),
      notes: z.int(),
      /** Below it a difference cannot be heard; nothing under it is reported. */
      threshold: z.number(),
      heard: z.boolean(),
      /** Added: change of it over the take, in milliseconds a minute; null when too short to say or not heard. */
      drift: z.number().nullable(),
    })
    .nullable(),
  /** Standard deviation of bar tempos over their mean, and drift in percent a minute; null in rubato and notation. */
  tempoStability: z.object({ variation: z.number(), drift: z.number() }).nullable(),
  density: z.object({ perBar: z.number().nullable(), perSecond: z.number() }),
  /** Share of onsets by the subdivision that they fall on. */
  subdivisions: shares,
  /** Share of onsets on weak places that are held over the next stronger place. */
  syncopation: share.nullable(),
  /** Share of the time of the solo in which it rests. */
  rests: share,
  /** Share of steps between notes by size: "repeat", "step", "third", "fourth-fifth", "wide". */
  intervals: shares,
  /** Added: stepwise runs: share of the solo's notes in them, how many, and how many are followed by a leap. */
  runs: z.object({ share, count: z.int(), leapsAfter: z.int() }),
  /** Added: the longest rest inside the solo. */
  longestRest: z.object({ seconds: z.number(), beats: z.number().nullable(), after: noteId }).nullable(),
});

export const practiceSchema = z.object({
  title: z.string(),
  text: z.string(),
  kind: z.string(),
});

export const FINDING_HEADINGS = [
  "time and feel",
  "harmonic awareness",
  "melodic and motivic development",
  "phrasing and shape",
  "range",
  "keyboard technique",
] as const;

export const findingSchema = z.object({
  id: z.string(),
  heading: z.enum(FINDING_HEADINGS),
  kind: z.enum(["works", "practise", "notice"]),
  weight: z.number(),
  text: z.string(),
  evidence: z.array(noteId),
  bars: z.array(z.object({ chorus: z.int(), bar: z.int() })),
  practice: practiceSchema.nullable(),
});

export const analysisSchema = z.object({
  schemaVersion: z.literal(SCHEMA_VERSION),
  analysisVersion: z.string(),
  source: z.object({
    name: z.string(),
    format: z.enum(["midi", "musicxml"]),
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    notes: z.int(),
    seconds: z.number(),
    title: z.string().nullable(),
    parts: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        staves: z.int(),
        program: z.int().nullable(),
        notes: z.int(),
      }),
    ),
  }),
  chart: z.object({
    name: z.string().nullable(),
    key: z.string(),
    meter: z.object({ beats: z.int(), unit: z.int() }),
    idiom: z.enum(["blues", "standard"]),
    bars: z.array(
      z.object({
        number: z.int(),
        chords: z.array(
          z.object({
            symbol: z.string(),
            beat: z.number(),
            beats: z.number(),
            function: z.string(),
            numeral: z.string(),
            scale: z.string(),
          }),
        ),
      }),
    ),
    /** Where the chart came from: given by the caller, or read from or proposed for the take. */
    source: z.enum(["given", "source harmony", "source text", "proposed"]),
    /** The chart as text, in the chart format. */
    text: z.string(),
  }),
  options: optionsSchema,
  alignment: z.object({
    method: z.enum(ALIGNMENT_METHODS),
    confidence: share,
    choruses: z.int(),
    pickupBeats: z.number(),
    tempo: z.object({ median: z.number(), slowest: z.number(), fastest: z.number() }).nullable(),
    bars: z.array(
      z.object({ chorus: z.int(), bar: z.int(), start: z.number(), end: z.number(), confidence: share }),
    ),
    anchors: z.array(anchorSchema),
  }),
  notes: z.array(noteSchema),
  placements: z.array(placementSchema),
  handFit: handFitSchema,
  phrases: z.array(phraseSchema),
  runs: z.array(runSchema),
  motifs: z.array(motifSchema),
  choruses: z.array(chorusSchema),
  register: registerSchema,
  rhythm: rhythmSchema,
  findings: z.array(findingSchema),
  warnings: z.array(warningSchema),
});

/** An account is never changed once it is made. */
type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;

export type Analysis = Frozen<z.infer<typeof analysisSchema>>;
export type Goal = Frozen<z.infer<typeof goalSchema>>;
export type AnalyseOptions = Frozen<z.infer<typeof optionsSchema>>;
/** Options as a caller gives them: any of them may be left out. */
export type AnalyseOptionsInput = z.input<typeof optionsSchema>;
export type AccountNote = Frozen<z.infer<typeof noteSchema>>;
export type AccountPlacement = Frozen<z.infer<typeof placementSchema>>;
/** Not frozen: it is filled in step by step before it becomes part of an account. */
export type HandFit = z.infer<typeof handFitSchema>;
export type AccountPhrase = Frozen<z.infer<typeof phraseSchema>>;
export type AccountRun = Frozen<z.infer<typeof runSchema>>;
export type AccountMotif = Frozen<z.infer<typeof motifSchema>>;
export type MotifViewpoint = (typeof MOTIF_VIEWPOINTS)[number];
export type MotifRelation = (typeof MOTIF_RELATIONS)[number];
export type ChorusSummary = Frozen<z.infer<typeof chorusSchema>>;
export type RegisterSummary = Frozen<z.infer<typeof registerSchema>>;
export type SwingSummary = Frozen<z.infer<typeof swingSchema>>;
export type RhythmSummary = Frozen<z.infer<typeof rhythmSchema>>;
export type Finding = Frozen<z.infer<typeof findingSchema>>;
export type FindingHeading = (typeof FINDING_HEADINGS)[number];
