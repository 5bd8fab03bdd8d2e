import { ids } from "../facts.ts";
import { beyond, type Rule } from "../rule.ts";
import { countInWords, intervalInWords, placesInWords } from "../words.ts";

export const RANGE: readonly Rule[] = [
  {
    id: "range-wide",
    heading: "range",
    kind: "works",
    measure: "semitones between the 10 % and the 90 % quantile of pitch",
    threshold: 17,
    reason:
      "An octave and a fourth in daily use, beyond one position of the hand and its neighbours [practice].",
    least: { notes: 32 },
    importance: 0.5,
    find({ account, solo }, threshold) {
      const { quantiles, low, high } = account.register;
      const [bottom, , , , top] = quantiles;
      if (bottom === undefined || top === undefined || low === null || high === null) return null;
      if (top - bottom < threshold) return null;
      const extremes = solo.filter((note) => note.pitch === low || note.pitch === high);
      return {
        strength: beyond(top - bottom, threshold, 12),
        evidence: ids(extremes),
        words: {
          range: intervalInWords(high - low),
          places: placesInWords(extremes, account.alignment.choruses),
        },
      };
    },
    wording: [
      "You use the keyboard: {range} from lowest to highest note ({places}), and the middle of it is in real use.",
    ],
    practice: null,
  },
  {
    id: "range-narrow",
    heading: "range",
    kind: "practise",
    measure: "semitones between the 10 % and the 90 % quantile of pitch",
    threshold: 10,
    reason: "One position of the hand (a shape and its neighbour) spans about that [practice].",
    least: { notes: 40 },
    importance: 0.6,
    find({ account, solo }, threshold) {
      const { quantiles } = account.register;
      const [bottom, , , , top] = quantiles;
      if (bottom === undefined || top === undefined || top - bottom > threshold) return null;
      const highest = solo.filter((note) => note.pitch === account.register.high);
      return {
        strength: beyond(top - bottom, threshold, -5),
        evidence: ids(highest),
        words: {
          range: intervalInWords(Math.round(top - bottom)),
          top: highest[0]?.spelling ?? "your highest note",
        },
      };
    },
    wording: [
      "Most of the solo stays within {range}. Take the same phrase an octave higher in the second half of the chorus, beyond {top}.",
      "The hand has found a place, {range} wide, and likes it there. Let the next chorus begin an octave above.",
    ],
    practice: {
      kind: "register ladder",
      title: "Up the ladder",
      text: "One idea, one octave higher each time, with the shift played in the rest.",
    },
  },
  {
    id: "register-climbs",
    heading: "range",
    kind: "works",
    measure: "semitones between the median pitch of the last chorus and of the first",
    threshold: 4,
    reason: "A third higher on the whole is heard as climbing [practice].",
    least: { notes: 40, choruses: 2 },
    importance: 0.45,
    find({ account, solo }, threshold) {
      const medians = account.choruses
        .map((one) => one.register.quantiles[2])
        .filter((one) => one !== undefined);
      if (medians.length < 2) return null;
      const climb = medians[medians.length - 1]! - medians[0]!;
      if (climb < threshold) return null;
      return {
        strength: beyond(climb, threshold, 8),
        evidence: ids(solo.filter((note) => note.chorus === account.choruses.length).slice(0, 16)),
        words: { climb: intervalInWords(climb) },
      };
    },
    wording: [
      "The line climbs: the last chorus lies {climb} higher than the first, and the energy goes with it.",
    ],
    practice: null,
  },
  {
    id: "register-static",
    heading: "range",
    kind: "practise",
    measure: "largest difference between the median pitches of the choruses, semitones",
    threshold: 2,
    reason: "Under a whole step over three choruses, no chorus has a height of its own [practice].",
    least: { notes: 60, choruses: 3 },
    importance: 0.4,
    find({ account, solo }, threshold) {
      const medians = account.choruses
        .map((one) => one.register.quantiles[2])
        .filter((one) => one !== undefined);
      if (medians.length < 3) return null;
      const spread = Math.max(...medians) - Math.min(...medians);
      const [bottom, , , , top] = account.register.quantiles;
      if (spread > threshold || top! - bottom! >= 17) return null;
      return {
        strength: beyond(spread, threshold, -2),
        evidence: ids(solo.slice(0, 1)),
        words: { count: countInWords(medians.length) },
      };
    },
    wording: ["All {count} choruses live at the same height. Give each its own floor: low, middle, high."],
    practice: {
      kind: "register ladder",
      title: "A floor for each chorus",
      text: "The same idea in three octaves, one for each chorus.",
    },
  },
  {
    id: "low-register-used",
    heading: "range",
    kind: "works",
    measure: "share of solo notes below middle C",
    threshold: 0.08,
    reason: "Most right hands begin at middle C; one note in twelve below it is a choice [practice].",
    least: { notes: 32 },
    importance: 0.3,
    find({ solo, account }, threshold) {
      const low = solo.filter((note) => note.pitch < 60);
      if (low.length / solo.length < threshold || low.length / solo.length > 0.5) return null;
      return {
        strength: beyond(low.length / solo.length, threshold, 0.2),
        evidence: ids(low),
        words: { places: placesInWords(low, account.alignment.choruses) },
      };
    },
    wording: [
      "You let the right hand speak low as well, below middle C in {places}: a darker voice to answer the bright one.",
    ],
    practice: null,
  },
];
