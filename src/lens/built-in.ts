/**
 * The built-in lenses, as a teacher reads them: what each asks, why its bounds stand where they do, how it is said, and
 * what is played for it. Bounds are [practice] where no source is named.
 */
import type { Lens } from "../account.ts";

export const LENSES: readonly Lens[] = [
  {
    id: "one-shape-both-places",
    name: "One shape in both its places",
    about:
      "Every chord has two places for the same hand shape: index on the root and index on the fifth. Play both, so that the same fingers speak at two heights.",
    // Half of the solo is a way of playing; three notes in ten are one or two chords on which it was tried.
    asks: [{ measure: "both-places", least: 0.5, most: null, partly: 0.3 }],
    said: {
      reached: "The shape is played in both its places, through half of the solo or more.",
      partly: "The shape finds its second place here and there, or no more often than chance would put it.",
      notYet:
        "The hand keeps to one place on each chord. The second place is a fifth away, with the same fingers.",
    },
    exercises: [
      {
        kind: "placements",
        title: "Both places of every chord",
        text: "Chord by chord, the shape first with its anchor on the root, then on the fifth; say the place before you play.",
      },
      {
        kind: "shared placements",
        title: "The place that two chords share",
        text: "Keep the hand where it is while the chord changes, and hear the same keys turn into other degrees.",
      },
    ],
  },
  {
    id: "same-fingering-moved",
    name: "The same fingering moved",
    about: "A figure of your fingers, played again with the same fingers at another place of the keyboard.",
    // Twice is an echo, three places are a way of working. Partly from two on.
    asks: [{ measure: "fingering-moved", least: 3, most: null, partly: 2 }],
    said: {
      reached: "One fingering travels: it is played at three places of the keyboard or more.",
      partly: "A fingering is played at another place, once or where chance would put it too.",
      notYet: "No fingering of five notes is heard at a second place.",
    },
    exercises: [
      {
        kind: "motif to every placement",
        title: "One figure, every place",
        text: "The same fingers on every place of the form; do not change the figure, let the chord change what it says.",
      },
    ],
  },
  {
    id: "blue-third",
    name: "The blue third and its slide",
    about:
      "The minor third over a dominant chord, and its way up the half step into the third, slid or stepped.",
    // Two resolutions show that it was not the one lucky finger; three blue thirds give them something to come from.
    asks: [
      { measure: "blue-third-to-third", least: 2, most: null, partly: 1 },
      { measure: "blue-thirds", least: 3, most: null, partly: 2 },
    ],
    said: {
      reached: "The blue third goes home into the third, more than once.",
      partly: "The blue third is there, and goes up into the third now and then.",
      notYet: "No blue third goes up into the third. Slide the finger off the black key, or step.",
    },
    exercises: [
      {
        kind: "slides",
        title: "Off the black key",
        text: "The blue third as the shortest of notes, the third as the long one; same finger, falling off the key.",
      },
      {
        kind: "placements",
        title: "Where the blue third lies",
        text: "The shape with its anchor on the root: find the finger that has the blue third on each chord.",
      },
    ],
  },
  {
    id: "avoid-note",
    name: "Leaving out the avoid note",
    about:
      "The note a half step above a chord tone rubs when it is held: the fourth over a major or dominant chord, most of all. Pass through it, or leave it out.",
    // Nine in ten of the improvised solos that were measured lean on it in at most one note of a hundred; from three on
    // it is heard as a habit.
    asks: [{ measure: "avoid-leaned", least: null, most: 0.01, partly: 0.03 }],
    said: {
      reached: "The line does not lean on the avoid note.",
      partly: "The avoid note is seldom leaned on, or no more seldom than chance would have it.",
      notYet: "The line leans on the avoid note again and again. Move it on by a step, or leave it out.",
    },
    exercises: [
      {
        kind: "approach notes",
        title: "From the rub to the rest",
        text: "Play the rubbing note on purpose, short, and resolve it by step, on every chord of the form.",
      },
    ],
  },
  {
    id: "guide-tones",
    name: "Thirds and sevenths at the change",
    about: "Meet each new chord with its third or its seventh: then the line alone tells which chord it is.",
    // Two of the seven notes of a scale are guide tones, .29: more than that is aimed at. Improvised solos that were
    // measured meet .2 in the middle and .29 in the upper tenth.
    asks: [{ measure: "guide-tones-at-changes", least: 0.3, most: null, partly: 0.2 }],
    said: {
      reached: "The changes are heard in the line: it meets them with thirds and sevenths.",
      partly:
        "Some changes are met with a third or a seventh; not yet more than the line would have by itself.",
      notYet:
        "Thirds and sevenths at the change are left to chance. Aim for the next chord's third a beat ahead.",
    },
    exercises: [
      {
        kind: "guide tones",
        title: "Thirds and sevenths through the form",
        text: "One note a chord, the nearest third or seventh each time; then a step before it.",
      },
      {
        kind: "approach notes",
        title: "A half step into the change",
        text: "The note before the bar line a half step from the guide tone that follows.",
      },
    ],
  },
  {
    id: "rests-and-answers",
    name: "Rests, call and answer",
    about: "Say something, wait, and answer it: with the same rhythm, or with the same ending.",
    // A quarter of rest is the breath that a conversation needs; one phrase in ten answers the one before in the upper
    // tenth of the improvised solos that were measured, fewer than one in twenty in most.
    asks: [
      { measure: "rests", least: 0.25, most: null, partly: 0.15 },
      { measure: "answers", least: 0.1, most: null, partly: 0.05 },
    ],
    said: {
      reached: "Phrases answer one another, and there is room between them.",
      partly:
        "There is room, or the beginning of it; the answers are few, or no more than chance would give.",
      notYet:
        "The line leaves no room for an answer. Play a short call, wait as long, answer with its rhythm.",
    },
    exercises: [
      {
        kind: "call and answer",
        title: "Ask and answer",
        text: "The printed bar asks; answer in the empty bar, first with the same rhythm, then with the same last three notes.",
      },
      {
        kind: "rests",
        title: "Two bars on, two bars off",
        text: "Count the rest aloud; the silence is part of it.",
      },
    ],
  },
  {
    id: "one-idea",
    name: "One idea through a chorus",
    about:
      "One idea kept from the beginning of a chorus to its end: played, moved, shortened, turned, and still itself.",
    // Once is an event, twice an echo, three times an idea; over six bars in ten it reaches from one half into the other.
    asks: [
      { measure: "idea-in-one-chorus", least: 3, most: null, partly: 2 },
      { measure: "idea-through-chorus", least: 0.6, most: null, partly: 0.3 },
    ],
    said: {
      reached:
        "One idea is kept through a chorus: it comes back, and it reaches from one half into the other.",
      partly: "An idea comes back, and is dropped again before the chorus is over.",
      notYet: "No idea of four notes or more comes back within a chorus. Choose one and stay with it.",
    },
    exercises: [
      {
        kind: "motif to every placement",
        title: "One idea, twelve bars",
        text: "The idea in every other bar of the form, at the place that the chord gives it; nothing else.",
      },
      {
        kind: "call and answer",
        title: "Keep the beginning",
        text: "Start each phrase like the one before and end it otherwise.",
      },
    ],
  },
  {
    id: "register",
    name: "Register",
    about: "The whole keyboard tells a story: one chorus low, one high, or the line that climbs.",
    // A fifth between two parts is heard as another place; nineteen semitones, an octave and a fifth, is two hand positions.
    asks: [
      { measure: "register-change", least: 7, most: null, partly: 4 },
      { measure: "range", least: 19, most: null, partly: 14 },
    ],
    said: {
      reached: "The parts of the solo lie at different heights, and one hears it.",
      partly: "The line moves through the register a little, or wanders as any line does.",
      notYet: "All parts of the solo lie at one height. Begin the next chorus an octave away.",
    },
    exercises: [
      {
        kind: "register ladder",
        title: "Up the ladder",
        text: "One idea, one octave higher each time, with the hand moving in the rest.",
      },
    ],
  },
  {
    id: "swing-and-placing",
    name: "Swing and placing",
    about:
      "Long and short eighths that agree with one another, and every note at its place in the beat. Never a fixed ratio: it goes with the tempo.",
    // Soloists' ratios scatter widely in good playing (Corcoran & Frieler 2021 [memory]); under half of the middle the
    // ear takes the pairs for one feel. Practised players place notes within 30 to 60 ms; 90 is a habit of rushing.
    asks: [
      { measure: "swing-spread", least: null, most: 0.45, partly: 0.7 },
      { measure: "placing-spread", least: null, most: 60, partly: 90 },
    ],
    said: {
      reached: "The eighths keep one feel, and the notes stand where they are meant.",
      partly: "The feel settles in places and comes apart in others.",
      notYet: "Long and short eighths change from beat to beat. Slower, with the click on two and four.",
    },
    exercises: [
      {
        kind: "even pairs",
        title: "Every pair alike",
        text: "Four bars on one placement, one length of pairs, then the next tempo.",
      },
      {
        kind: "steady time",
        title: "Every note in its place",
        text: "The click on two and four only; one clean round before a step faster.",
      },
    ],
  },
  {
    id: "approach-and-enclosure",
    name: "Approach notes and enclosures",
    about: "Lead into a chord tone by a step, and circle it from above and below before you land.",
    // Twice is in the vocabulary; seven approaches in a hundred notes is the middle of the improvised solos that were
    // measured, five the lower quarter.
    asks: [
      { measure: "enclosures", least: 2, most: null, partly: 1 },
      { measure: "approaches", least: 0.07, most: null, partly: 0.05 },
    ],
    said: {
      reached: "Chord tones are led into and circled: the line is heard to arrive.",
      partly:
        "Some chord tones are led into; the circle around them is still rare, or where chance would put it too.",
      notYet:
        "No chord tone is reached from both sides. Choose one target a bar, and take the note above and the note below first.",
    },
    exercises: [
      {
        kind: "approach notes",
        title: "Into each chord tone",
        text: "A half step from below into every tone of the chord; say the tone before you land.",
      },
      {
        kind: "enclosures",
        title: "Around each chord tone",
        text: "The scale step above, the half step below, then the tone on the beat and held; the other way round when it runs.",
      },
    ],
  },
  {
    id: "outside-and-back",
    name: "Playing outside and back",
    about: "Leave the chord's scale on purpose, and come home by a step so that it is heard as a way.",
    // Four notes are a figure; fewer are single slips. Of the improvised solos that were measured the upper quarter
    // brings three in five of them home by step, the lower quarter fewer than .45.
    asks: [
      { measure: "outside-notes", least: 4, most: null, partly: 2 },
      { measure: "outside-and-back", least: 0.6, most: null, partly: 0.45 },
    ],
    said: {
      reached: "The line goes outside and comes back by step.",
      partly: "The line goes outside; the way back by step is still missing, or no surer than chance.",
      notYet: "The line stays inside the scale. Take one figure a half step away, and bring it home.",
    },
    exercises: [
      {
        kind: "approach notes",
        title: "A half step away and home",
        text: "The figure a half step above its place, then resolved into the chord by step.",
      },
    ],
  },
];
