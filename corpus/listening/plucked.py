"""Harps, guitars and lutes that no one built: strings pulled aside and let go, drawn by chance as invented.py draws pianos.

A plucked string begins with the shape of a triangle [lit: Fletcher and Rossing]: partial n has sin(n pi p) / n^2 of its
displacement where p is the place; gut and nylon lose high partials at once, steel does not; there is one string a key,
whose two directions of swing die away apart; a body of wood, and a finger or a nail instead of a hammer.
"""
import math

import torch

from invented import PREROLL, RATE, smooth_gain, uniform

PARTIALS = 48
SECONDS = 1.9
APART = 5
VELOCITIES = (70, 105)
# Compasses in MIDI numbers: guitars, basses and lutes, harps, zithers and small lutes.
COMPASSES = ((40, 84), (28, 60), (30, 100), (52, 96))


def render_instrument(seed, device):
    """List of (pitch, velocity, samples with PREROLL) of one instrument, loudest value 1."""
    g = torch.Generator().manual_seed(seed)

    def u(a, b):
        return float(uniform(g, a, b, 1))

    low, high = COMPASSES[int(u(0, len(COMPASSES) - 1e-3))]
    stiff, place, slope = 10 ** u(-5.5, -3.8), u(0.04, 0.5), u(1.0, 2.2)
    ring, ring_slope, loss, loss_square = 10 ** u(-0.9, 0.35), u(0.2, 0.8), 10 ** u(-4.5, -2.6), 10 ** u(-8.5, -6.8)
    body, scatter, attack = smooth_gain(g, u(3, 10)), u(0.5, 4), 10 ** u(-3.6, -2.3)
    nail, nail_hertz, nail_fall, bright = 10 ** u(-2.6, -0.8), 10 ** u(2.3, 3.7), 10 ** u(-2.6, -1.5), u(0, 6)
    out = []
    for pitch in range(low, high + 1, APART):
        f0 = 440 * 2 ** ((pitch - 69) / 12)
        n = torch.arange(1, PARTIALS + 1, dtype=torch.float32)
        hertz = n * f0 * torch.sqrt(1 + stiff * n**2)
        kept = int((hertz < 7600).sum())
        n, hertz = n[:kept], hertz[:kept]
        level = 20 * torch.log10(torch.sin(math.pi * n * place * (1 + 0.1 * u(-1, 1))).abs() + 0.02) - 20 * slope * torch.log10(n)
        level = level + body(hertz) + scatter * torch.randn(kept, generator=g)
        rate = 1 / (ring * 2 ** (-(pitch - 60) / 12 * ring_slope)) + loss * hertz + loss_square * hertz**2
        t = torch.arange(int(SECONDS * RATE), device=device, dtype=torch.float32) / RATE
        hertz, rate = hertz.to(device)[:, None], rate.to(device)[:, None]
        wave = torch.sin(2 * math.pi * (hertz * t % 1) + u(0, 3)) * torch.exp(-rate * t)
        other = torch.sin(2 * math.pi * (hertz * 2 ** (u(0, 1.5) / 1200) * t % 1) + u(0, 3)) * torch.exp(-rate * u(0.4, 1.0) * t)
        wave = wave + u(0, 0.6) * other
        noise = torch.randn(t.numel(), generator=g).to(device)
        spectrum = torch.fft.rfft(noise)
        hz = torch.linspace(1, RATE / 2, spectrum.numel(), device=device)
        noise = torch.fft.irfft(spectrum * torch.exp(-torch.log2(hz / nail_hertz) ** 2), t.numel()) * torch.exp(-t / nail_fall)
        for velocity in VELOCITIES:
            gains = 10 ** ((level + bright * (velocity - 90) / 35 * torch.log2(n)) / 20)
            sound = (gains.to(device) @ wave) * (1 - torch.exp(-t / attack))
            sound = sound / (sound.abs().max() + 1e-9) + nail * noise / (noise.abs().max() + 1e-9)
            sound[-480:] *= torch.linspace(1, 0, 480, device=device)
            sound = sound * velocity / VELOCITIES[-1] / sound.abs().max()
            out.append((pitch, velocity, torch.nn.functional.pad(sound, (PREROLL, 0))))
    return out
