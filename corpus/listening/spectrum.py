"""What the network hears: a spectrum in thirds of a semitone, one hundred times a second.

The filters are spaced in equal musical steps, so that a note's partials lie at the same distances whatever the note;
a network that shares its weights over the keys then learns every key from all of them. Where a third of a semitone is
narrower than a bin of the transform, a filter takes two bins between which it lies (linear interpolation).
"""
import json
import math
import pathlib
import sys

import numpy as np

RATE = 16000
HOP = 160
WINDOW = 2048
BANDS = 294
LOWEST = 27.5  # Hz, A0; band 1 stands on it, so that band 3 k + 1 is the middle of key k
BANDS_PER_OCTAVE = 36
FLOOR = 1e-7  # power of a sine of full scale is 1
SPAN = -math.log(FLOOR)


def window():
    """Periodic Hann window of WINDOW samples, scaled so that a sine of amplitude a has the power a squared."""
    w = 0.5 - 0.5 * np.cos(2 * np.pi * np.arange(WINDOW) / WINDOW)
    return w * (2 / w.sum())


def centres():
    """Middle frequency of each band in Hz."""
    return LOWEST * 2 ** ((np.arange(BANDS) - 1) / BANDS_PER_OCTAVE)


def filters():
    """Triangles over the bins 0 to WINDOW / 2: [BANDS, WINDOW / 2 + 1], each with the height 1."""
    f = centres()[:, None]
    bins = np.arange(WINDOW // 2 + 1)[None, :] * (RATE / WINDOW)
    step = RATE / WINDOW
    below = np.maximum(f - f * 2 ** (-1 / BANDS_PER_OCTAVE), step)
    above = np.maximum(f * 2 ** (1 / BANDS_PER_OCTAVE) - f, step)
    rising = 1 - (f - bins) / below
    falling = 1 - (bins - f) / above
    return np.maximum(0, np.minimum(rising, falling))


def spectrum(sound):
    """[samples] mono at RATE to [frames, BANDS]; frame t is centred on sample HOP * t, zeros beyond the ends."""
    sound = np.asarray(sound, dtype=np.float64)
    frames = len(sound) // HOP + 1
    padded = np.pad(sound, (WINDOW // 2, WINDOW))
    w = window()
    bank = filters().T
    out = np.empty((frames, BANDS))
    for t in range(frames):
        power = np.abs(np.fft.rfft(padded[t * HOP : t * HOP + WINDOW] * w)) ** 2
        out[t] = 1 + np.log(power @ bank + FLOOR) / SPAN
    return out


def reference_sound():
    """A second that any language can make: three decaying tones, the second struck later, and a little quick noise."""
    n = np.arange(RATE)
    t = n / RATE
    late = np.maximum(t - 0.3, 0)
    low = 0.2 * np.sin(2 * np.pi * 55 * t) * np.exp(-2 * t)
    middle = np.where(t >= 0.3, 0.4 * np.sin(2 * np.pi * 440 * late) * np.exp(-4 * late), 0)
    high = 0.1 * np.sin(2 * np.pi * 3520 * t) * np.exp(-6 * t)
    noise = 0.002 * (((n * 7919) % 1013) / 1013 - 0.5)
    return low + middle + high + noise


def write_reference(path):
    """Frames of the reference sound, for the test of every other implementation."""
    values = spectrum(reference_sound())
    chosen = [0, 10, 29, 31, 50, 100]
    rows = [{"frame": t, "values": [round(float(v), 5) for v in values[t]]} for t in chosen]
    whole = {"frames": len(values), "bands": BANDS, "rows": rows}
    pathlib.Path(path).write_text(json.dumps(whole) + "\n")


if __name__ == "__main__":
    write_reference(sys.argv[1] if len(sys.argv) > 1 else pathlib.Path(__file__).with_name("reference.json"))
