"""Singers that no one is: melodies of a gliding, trembling buzz through the resonances of vowels, drawn by chance.

Resonances of vowels lie about where they were measured [lit: Peterson and Barney 1952], shorter throats higher.
"""
import math

import torch

from invented import uniform

RATE = 16000
# First three resonances in Hz of some vowels of men's speech, rounded.
VOWELS = ((270, 2290, 3010), (390, 1990, 2550), (530, 1840, 2480), (660, 1720, 2410), (730, 1090, 2440), (570, 840, 2410),
          (440, 1020, 2240), (300, 870, 2240), (640, 1190, 2390), (490, 1350, 1690))
HARMONICS = 48


def smoothed(values, seconds):
    """A step function with its corners rounded over so many seconds (moving mean, twice)."""
    size = max(1, int(seconds * RATE / 2))
    for _ in range(2):
        padded = torch.nn.functional.pad(values[None, None], (size // 2, size - 1 - size // 2), mode="replicate")
        values = torch.nn.functional.avg_pool1d(padded, size, 1)[0, 0]
    return values


def singer(generator, device, seconds=10):
    """[seconds * RATE] of one who sings, mean power 1."""
    def u(a, b):
        return float(uniform(generator, a, b, 1))

    length = seconds * RATE
    low, scale = u(43, 68), (0, 2, 4, 5, 7, 9, 11, 12, 14, 16)
    shift, tilt, pace = u(0.9, 1.3), u(0.7, 1.6), 10 ** u(-0.75, 0.15)
    pitch, loud, hiss = (torch.zeros(length) for _ in range(3))
    formants = torch.zeros(3, length)
    at, step = 0, 3
    while at < length:
        size = int(pace * u(0.5, 2.2) * RATE)
        step = int(min(len(scale) - 1, max(0, step + round(u(-2.6, 2.6)))))
        vowel = VOWELS[int(u(0, len(VOWELS) - 1e-3))]
        pitch[at : at + size] = low + scale[step] + u(-0.3, 0.3)
        formants[:, at : at + size] = torch.tensor(vowel)[:, None] * shift
        gap = int(min(size / 2, u(0.02, 0.09) * RATE)) if u(0, 1) < 0.55 else 0
        rest = u(0, 1) < 0.1
        loud[at + gap : at + size] = 0 if rest else 10 ** u(-0.4, 0)
        if not rest and gap and u(0, 1) < 0.6:
            hiss[at : at + gap] = 10 ** u(-1.6, -0.6)
        at += size
    t = torch.arange(length, device=device) / RATE
    pitch = smoothed(pitch.to(device), u(0.03, 0.14))
    depth = (u(0.05, 0.8) if u(0, 1) < 0.75 else 0.0) * (0.6 + 0.4 * torch.sin(2 * math.pi * u(0.2, 0.6) * t))
    wander = smoothed(torch.randn(length // 400 + 1, generator=generator).repeat_interleave(400)[:length].to(device), 0.1)
    pitch = pitch + depth * torch.sin(2 * math.pi * u(4.3, 7) * t) + u(0.05, 0.3) * wander
    f0 = 440 * 2 ** ((pitch - 69) / 12)
    phase = (f0.double() / RATE).cumsum(0) % 1
    formants = torch.stack([smoothed(f.to(device), 0.06) for f in formants])
    widths = [u(50, 110), u(70, 140), u(100, 220)]
    voice = torch.zeros(length, device=device)
    for n in range(1, HARMONICS + 1):
        hertz = n * f0
        shape = sum(1 / (1 + ((hertz - formants[i]) / widths[i]) ** 2) * (1, 0.5, 0.3)[i] for i in range(3)) + 0.01
        voice += torch.sin((2 * math.pi * (phase * n % 1)).float()) * shape * (hertz < 7600) / n**tilt
    voice = voice * smoothed(loud.to(device), u(0.02, 0.08))
    noise = torch.randn(length, generator=generator).to(device)
    noise = noise - torch.roll(noise, 1)
    level = voice.square().mean().sqrt()
    voice = voice + noise * level * (smoothed(hiss.to(device), 0.01) + 10 ** u(-2.6, -1.3) * smoothed(loud.to(device), 0.05))
    return voice / (voice.square().mean().sqrt() + 1e-9)


def voices(generator, device, count, seconds=10):
    """[count, seconds * RATE]: one who sings, or sometimes several near in pitch, as a choir."""
    rows = []
    for _ in range(count):
        row = singer(generator, device, seconds)
        if uniform(generator, 0, 1, 1) < 0.15 and rows:
            row = row + sum(torch.roll(r, int(uniform(generator, 0, RATE, 1))) for r in rows[-3:])
        rows.append(row / (row.square().mean().sqrt() + 1e-9))
    return torch.stack(rows)
