"""What may sound beside a piano or instead of it, rendered and packed: `python3 others.py OUT`.

OUT/others.npz (for training) and OUT/others-held.npz (never trained on) hold single notes as those of pianos.py, a
"piano" being an instrument of General MIDI by one sound font. OUT/bands-parts.npz and OUT/bands-parts-held.npz hold rows of a
band's sound in eight bits: `drums` and `players`, the same music in two parts, each with 127 at the band's highest value.
"""
import pathlib
import sys
import tempfile

import numpy as np

import bands
import pianos

SECONDS = 1.9  # of a note: long enough for a vibrato to begin
APART = 7  # semitones from one recorded key to the next
# General MIDI programs without a string that a hammer strikes, with the lowest and highest key that is taken. [practice]
COMPASS = {
    8: (60, 102), 9: (74, 108), 10: (60, 95), 11: (53, 88), 12: (45, 88), 13: (60, 96), 14: (55, 78), 15: (50, 86), 16: (38, 94),
    17: (38, 94), 18: (38, 94), 19: (36, 96), 20: (40, 92), 21: (48, 90), 22: (55, 90), 23: (48, 88), 24: (40, 82), 25: (40, 82),
    26: (40, 84), 27: (40, 84), 28: (40, 80), 29: (40, 82), 30: (40, 82), 32: (28, 57), 33: (28, 57), 34: (28, 57), 35: (28, 57),
    36: (28, 57), 38: (28, 57), 40: (55, 97), 41: (48, 83), 42: (36, 72), 43: (28, 57), 44: (40, 90), 45: (40, 88), 46: (30, 98),
    48: (36, 92), 49: (36, 92), 50: (36, 92), 52: (45, 82), 53: (45, 82), 54: (45, 82), 56: (54, 86), 57: (38, 70), 58: (28, 56),
    59: (54, 86), 60: (36, 76), 61: (40, 84), 62: (40, 84), 64: (56, 88), 65: (49, 81), 66: (44, 76), 67: (36, 70), 68: (58, 90),
    69: (52, 82), 70: (34, 74), 71: (50, 92), 72: (74, 104), 73: (60, 96), 74: (60, 94), 75: (60, 96), 78: (70, 98), 79: (60, 90),
    80: (48, 90), 81: (48, 90), 85: (48, 84), 89: (40, 88), 90: (40, 88), 104: (48, 84), 105: (48, 84), 107: (50, 88), 108: (55, 88),
    109: (56, 82), 110: (55, 92), 114: (55, 88),
}
# Soft recordings have other overtones; one loudness of three fonts is taken by turns.
LOUDNESS = (70, 100, 85)
TRAIN = {"fluid": pianos.FLUID, "general": pianos.GENERAL, "csound": pianos.CSOUND}
# Chosen before training: of this font no instrument but its pianos is ever heard in training.
HELD = {"tim": pianos.TIM}
TRAIN_BANDS, HELD_BANDS = 44, 16


def notes_of(font, programs):
    """{program: [(pitch, velocity, sound)]}: all of them one after the other in one file."""
    step, at, played, changes = SECONDS + 0.5, 0.25, [], []
    for program, velocity in programs:
        low, high = COMPASS[program]
        changes.append((at - 0.05, program))
        for pitch in range(low, high + 1, APART):
            played.append((at, SECONDS + 0.1, pitch, velocity, program))
            at += step
    with tempfile.TemporaryDirectory() as folder:
        pianos.write_midi(f"{folder}/a.mid", 0, 0, [row[:4] for row in played], changes)
        whole = pianos.render(font, f"{folder}/a.mid")
    out = {program: [] for program, _ in programs}
    for on, length, pitch, velocity, program in played:
        start = int(on * pianos.RATE) - 400
        note = pianos.trimmed(whole[start : start + int(length * pianos.RATE)], pitch)
        if note is not None and len(note) > pianos.RATE // 8:
            note = note[: int(SECONDS * pianos.RATE) // pianos.BLOCK * pianos.BLOCK]
            note[-480:] *= np.linspace(1, 0, 480, dtype=np.float32)
            out[program].append((pitch, velocity, note))
    return out


def instruments(fonts):
    for i, (name, font) in enumerate(fonts.items()):
        programs = [(program, LOUDNESS[(program + i) % 3]) for program in COMPASS]
        for first in range(0, len(programs), 12):
            for program, notes in notes_of(font, programs[first : first + 12]).items():
                if len(notes) >= 2:
                    yield f"{name} {program}", notes


def parts(events):
    """The drums of a band (channel 10) and its other players."""
    drums = [e for e in events if e[1][0] & 15 == 9]
    return drums, [e for e in events if e[1][0] & 15 != 9]


def pack_bands(path, seeds, fonts):
    rows = []
    for seed in seeds:
        events, font = bands.band(np.random.default_rng([77, seed])), fonts[seed % len(fonts)]
        two = [bands.sound(part, font) if part else np.zeros(bands.SECONDS * pianos.RATE, np.float32) for part in parts(events)]
        highest = max(1e-6, float(np.abs(two[0] + two[1]).max()))
        rows.append([np.round(one / highest * 127).clip(-127, 127).astype(np.int8) for one in two])
    drums, players = (np.stack([row[i] for row in rows]) for i in (0, 1))
    np.savez_compressed(path, drums=drums, players=players)
    print(path, drums.shape)


if __name__ == "__main__":
    out = pathlib.Path(sys.argv[1])
    for name, fonts, seeds in (("", TRAIN, range(TRAIN_BANDS)), ("-held", HELD, range(1000, 1000 + HELD_BANDS))):
        pianos.pack(out / f"others{name}.npz", instruments(fonts))
        pack_bands(out / f"bands-parts{name}.npz", seeds, list(fonts.values()))
