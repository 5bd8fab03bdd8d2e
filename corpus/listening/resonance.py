"""Strings that ring along with those that are struck, for as long as real ones do (run 8).

While the pedal is down every string of the piano is free: what is played sets them swinging, low ones for seconds, and
the dampers stop them softly when they fall. The highest octave and a half has no dampers and rings along at any time
[lit: Fletcher and Rossing, The Physics of Musical Instruments]. `mix.py` had this shorter, and cut off with the pedal.
"""
import math

import numpy as np
import torch
from torch.nn import functional

import harder
import mix
from invented import uniform

SECONDS = 3.0  # at most LEAD, so that the end of a clip does not ring in its beginning
UNDAMPED = 68  # the 88 keys from here on have no dampers
POOL = 12


def strings(generator, device, lowest=0):
    """What strings from the key `lowest` on answer to a knock: stiff strings, low ones longer; its energy is 1."""
    def u(a, b):
        return float(uniform(generator, a, b, 1))

    t = torch.arange(int(SECONDS * mix.RATE), device=device) / mix.RATE
    keys, n = torch.arange(lowest, 88)[:, None], torch.arange(1, 7)[None]
    f0 = 27.5 * 2 ** (keys / 12) * 2 ** (torch.randn(len(keys), 1, generator=generator) * u(1, 5) / 1200)
    stiff = 10 ** u(-4.1, -3.3) * torch.exp(0.08 * (keys - 48.0))
    hertz = n * f0 * torch.sqrt((1 + stiff * n**2) / (1 + stiff))
    lasts = 10 ** u(-0.35, 0.55) * (220 / f0) ** u(0.4, 0.8) / n**0.5
    level = torch.rand(hertz.shape, generator=generator) * (500 / (500 + hertz)) / n**0.5
    kept = hertz < 7000
    hertz, lasts, level = [x[kept].to(device)[:, None] for x in (hertz, lasts.clamp(0.08, 4), level)]
    phase = uniform(generator, 0, 2 * math.pi, hertz.shape[0]).to(device)[:, None]
    wave = torch.zeros_like(t)
    for part in range(0, len(hertz), 128):
        a = slice(part, part + 128)
        wave += (level[a] * torch.cos(2 * math.pi * (hertz[a] * t % 1) + phase[a]) * torch.exp(-t / lasts[a])).sum(0)
    wave = wave * (1 - torch.exp(-t / 0.02))
    wave[-4000:] *= torch.linspace(1, 0, 4000, device=device)
    return wave / wave.square().sum().sqrt()


def dampers(pedal, seconds):
    """[n, frames] of 0 and 1 to how free the strings are: at once when the pedal goes down, dying away when it comes up."""
    fall = torch.exp(-torch.arange(60, device=pedal.device) / (100 * seconds))
    after = functional.pad(pedal, (59, 0)).unfold(1, 60, 1) * fall.flip(0)
    return after.amax(2)


class Surroundings(harder.Surroundings):
    def __init__(self, seed, device, count=300, voices=40, bands=None):
        super().__init__(seed, device, count, voices, bands)
        g = torch.Generator().manual_seed(seed + 17)
        long = torch.fft.rfft(torch.stack([strings(g, device) for _ in range(POOL)]), self.size)
        self.ringing = torch.cat([self.ringing[: POOL // 3], long])
        self.undamped = torch.fft.rfft(torch.stack([strings(g, device, UNDAMPED) for _ in range(POOL)]), self.size)

    def rung(self, spectrum, pedal):
        n = len(spectrum)
        free = dampers(pedal[:, :, 0], float(10 ** uniform(self.generator, -1.4, -0.6, 1)))
        free = functional.interpolate(free[:, None], mix.CLIP, mode="linear")[:, 0]
        along = torch.fft.irfft(spectrum * self.pick(self.ringing, n), self.size)[:, mix.LEAD : mix.LENGTH]
        high = torch.fft.irfft(spectrum * self.pick(self.undamped, n), self.size)[:, mix.LEAD : mix.LENGTH]
        high = high * self.chance(0.6, n) * 10 ** self.between(-2.6, -1.2, n)
        return along * free * 10 ** self.between(-2.6, -1.2, n) + high


def whole(sound, pedals, generator, device):
    """A whole take [samples] with one piano's strings ringing along; `pedals` are pairs of seconds."""
    size = 2 ** int(np.ceil(np.log2(len(sound) + SECONDS * mix.RATE)))
    dry = torch.fft.rfft(torch.from_numpy(sound).to(device), size)
    down = torch.zeros(1, len(sound) // 160 + 1, device=device)
    for a, b in pedals:
        down[0, int(a * 100) : int(b * 100)] = 1
    free = functional.interpolate(dampers(down, 0.1)[:, None], len(sound), mode="linear")[0, 0]
    answer = [torch.fft.rfft(strings(generator, device, lowest), size) for lowest in (0, UNDAMPED)]
    along, high = [torch.fft.irfft(dry * one, size)[: len(sound)] for one in answer]
    level = 10 ** uniform(generator, -2.2, -1.2, 2)
    return (torch.from_numpy(sound).to(device) + along * free * float(level[0]) + high * float(level[1])).cpu().numpy()
