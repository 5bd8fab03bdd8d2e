"""What years do to a piano, by chance: strings of a key apart, keys and pedals that are heard, dampers that leak.

A piano's noises are grains of sound that stand in the bank beside its notes; the notes of a clip get theirs here.
"""
import pathlib

import numpy as np
import torch

import mix
from invented import PREROLL, uniform

GRAINS = 72
# Kinds of grains: (lowest and highest centre in Hz, width in octaves, seconds of rise, shortest and longest fall).
KINDS = {
    "bed": (50, 400, 2.0, 0.001, 0.008, 0.05),
    "felt": (250, 3500, 2.5, 0.01, 0.02, 0.12),
    "pedal": (40, 900, 3.0, 0.02, 0.05, 0.3),
    "wood": (400, 3000, 0.3, 0.001, 0.004, 0.04),
}


def grain(generator, kind):
    """Samples of one noise, highest value 1, beginning PREROLL samples in."""
    low, high, width, rise, shortest, longest = KINDS[kind]
    length = int(mix.RATE * 0.7)
    t = torch.arange(length) / mix.RATE
    spectrum = torch.fft.rfft(torch.randn(length, generator=generator))
    hertz = torch.linspace(1, mix.RATE / 2, spectrum.numel())
    centre = low * (high / low) ** float(uniform(generator, 0, 1, 1))
    shape = torch.exp(-((torch.log2(hertz / centre) / width) ** 2) * 2)
    fall = shortest * (longest / shortest) ** float(uniform(generator, 0, 1, 1))
    sound = torch.fft.irfft(spectrum * shape, length) * (1 - torch.exp(-t / rise)) * torch.exp(-t / fall)
    sound[-800:] *= torch.linspace(1, 0, 800)
    return torch.nn.functional.pad(sound / sound.abs().max(), (PREROLL, 0))


def add_grains(bank, seed, releases=None):
    """Puts grains into the bank, before it is closed; `releases` is a file of recorded ones (releases.npz) or None."""
    generator = torch.Generator().manual_seed(seed)
    bank.grains = {kind: [] for kind in KINDS}
    for kind in KINDS:
        for _ in range(GRAINS // len(KINDS)):
            bank.grains[kind].append(len(bank.rows))
            put(bank, grain(generator, kind))
    if releases is not None and pathlib.Path(releases).exists():
        held = np.load(releases)
        ends = np.cumsum(held["lengths"])
        for end, length in zip(ends, held["lengths"]):
            bank.grains["felt"].append(len(bank.rows))
            put(bank, torch.from_numpy(held["codes"][end - length : end].astype(np.float32) / 127))


def put(bank, sound):
    bank.rows.append((bank.size, len(sound), 60, 64))
    bank.sound.append(sound.to(bank.device, torch.float16))
    bank.size += len(sound)


def rows_of_grains(r, bank, clip, at, kind, gain):
    """Rows as those of notes for noises at the moments `at` (seconds of the clip), which are no notes."""
    kept = (at > -1) & (at < mix.CLIP / mix.RATE)
    at, gain = at[kept], gain[kept]
    few = r.choice(bank.grains[kind], size=min(3, len(bank.grains[kind])), replace=False)
    row = bank.rows[few[r.integers(len(few), size=len(at))]]
    n, same = len(at), np.ones(len(at))
    on = at * mix.RATE
    return np.stack([same * clip, on, on + mix.RATE, same * 60, -same, row[:, 0], row[:, 1], 2 ** r.normal(0, 0.3, n), gain, same * 0.1], 1)


def tuned(r, notes, pitch):
    """Stretched octaves, as tuners leave them, or more: the bass flat, the treble sharp."""
    if r.random() < 0.4:
        notes[:, 7] *= 2 ** (r.uniform(2, 30) * ((pitch - 62) / 42) ** 3 / 1200)


def leaking(r, notes, pitch):
    """Dampers of some keys, or of all while the pedal is half down, stop their strings late."""
    if r.random() < 0.25:
        notes[:, 9] *= np.where(r.random(109) < r.uniform(0.05, 0.4), 10 ** r.uniform(0.2, 1.3, 109), 1)[pitch]
    elif r.random() < 0.1:
        notes[:, 9] *= 10 ** r.uniform(0.3, 1.1)


def strings_apart(r, notes, pitch):
    """A second string of each key, each off by its own: beats that are slow in some keys and fast in others."""
    if r.random() >= 0.25:
        return []
    other = notes.copy()
    other[:, 4] = -1  # sounds, but is no note of its own
    cents = r.normal(0, r.choice([1.5, 4, 9, 18], p=[0.35, 0.3, 0.25, 0.1]), 109)
    other[:, 7] *= 2 ** (cents[pitch] / 1200)
    other[:, 8] *= r.uniform(0.2, 1.0, 109)[pitch]
    return [other]


def restruck(r, notes, up, share=0.5):
    """Where a string that still swings is struck again, a part of its swing stays: rows for that part, which are no notes.

    Until the hammer's next stroke a pedal holds the dampers up, so the string was never stopped; how much stays depends on
    when in its swing the hammer meets it, so each stroke draws its own part around that of the clip.
    """
    if r.random() >= share or len(notes) < 2:
        return []
    order = np.lexsort((notes[:, 1], notes[:, 3]))
    a, b = order[:-1], order[1:]
    again = (notes[a, 3] == notes[b, 3]) & (np.abs(notes[a, 2] - notes[b, 1]) < 2) & (up[a] * mix.RATE < notes[b, 1] - 0.03 * mix.RATE)
    a, b = a[again], b[again]
    stays = np.clip(r.uniform(0.1, 0.9) + r.normal(0, 0.15, len(a)), 0, 0.95)
    rest = notes[a]
    rest[:, 4] = -1  # sounds, but is no note of its own
    rest[:, 2], rest[:, 9] = notes[b, 2], notes[b, 9]
    rest[:, 8] *= stays
    notes[a, 8] *= 1 - stays
    return [rest]


def wear(r, bank, clip, notes, up, pedal, restrikes=0.0):
    """Changes the notes of a clip and returns further rows that sound. `up` and `pedal` are in seconds of the clip.

    `restrikes` is the share of clips in which strings that are struck again keep a part of their swing (run 8).
    """
    if not len(notes):
        return []
    pitch = notes[:, 3].astype(int)
    out = restruck(r, notes, up, restrikes) if restrikes else []
    tuned(r, notes, pitch)
    leaking(r, notes, pitch)
    out += strings_apart(r, notes, pitch)
    on, loud = notes[:, 1] / mix.RATE, np.clip(notes[:, 4], 20, 127) / 127
    if r.random() < 0.3:  # keys on their bed, hammers on their way
        level = 10 ** (r.uniform(-2.5, -0.9) + r.normal(0, 0.15, len(on)))
        kind = "bed" if r.random() < 0.7 else "wood"
        out.append(rows_of_grains(r, bank, clip, on + r.uniform(-0.025, 0.004), kind, level * loud ** r.uniform(0, 1)))
    if r.random() < 0.35:  # keys that come up, felt on strings
        level = 10 ** (r.uniform(-2.8, -1.1) + r.normal(0, 0.2, len(on)))
        out.append(rows_of_grains(r, bank, clip, up + r.normal(0, 0.01, len(on)), "felt", level))
    if len(pedal) and r.random() < 0.5:
        at = pedal.ravel()
        out.append(rows_of_grains(r, bank, clip, at, "pedal", 10 ** (r.uniform(-2.3, -0.7) + r.normal(0, 0.15, len(at)))))
    return out
