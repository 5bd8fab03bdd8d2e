"""Harder surroundings than those of mix.py: what poor phones, full rooms and low bit rates do to a recording, by chance.

Each step is met by a small share of clips and comes on top of what mix.py does, so that easy clips stay in the training.
"""
import math

import torch
from torch.nn import functional

import mix
import rooms

RUSTLES = 48
CROWDS = 24
SECONDS = 10


def resonances(generator, hertz):
    """Gain in dB of a few narrow peaks and dips: modes of a small room, things that ring along, a thin case."""
    gain = torch.zeros_like(hertz)
    for _ in range(int(rooms.uniform(generator, 0, 7, 1))):
        centre = float(10 ** rooms.uniform(generator, 1.65, 3.5, 1))
        sharp = float(10 ** rooms.uniform(generator, 0.5, 1.6, 1))
        height = float(rooms.uniform(generator, -14, 14, 1))
        gain = gain + height / (1 + (sharp * (hertz / centre - centre / hertz.clamp(1))) ** 2)
    return gain


def poor_responses(generator, count, hertz):
    """[count, bins] gains: resonances, a reflection from the table, and at times a wall, felt or a case before it all."""
    out = []
    plain = rooms.responses(generator, count, hertz)
    for row in range(count):
        gain = resonances(generator, hertz)
        kind = float(rooms.uniform(generator, 0, 1, 1))
        if kind < 0.2:  # a lid, a pocket, the next room, the practice pedal
            corner = float(10 ** rooms.uniform(generator, 2.75, 3.4, 1))
            gain = gain - 10 * torch.log10(1 + (hertz / corner) ** float(rooms.uniform(generator, 1.5, 5, 1)))
        elif kind < 0.45:  # small cases give no bass
            corner = float(10 ** rooms.uniform(generator, 2.0, 2.8, 1))
            gain = gain - 10 * torch.log10(1 + (corner / hertz.clamp(1)) ** float(rooms.uniform(generator, 2, 8, 1)))
        if kind > 0.7:
            delay, share = float(10 ** rooms.uniform(generator, -3.7, -2.3, 1)), float(rooms.uniform(generator, 0.15, 0.8, 1))
            wave = 2 * math.pi * hertz * delay
            gain = gain + 10 * torch.log10(1 + share**2 + 2 * share * torch.cos(wave) + 1e-3)
        out.append(gain)
    return plain * 10 ** (torch.stack(out).clamp(-60, 20) / 20)


def rustle(generator, device):
    """Chairs, paper, keys of other things, breath: bursts of noise at any time; the loudest is 1."""
    length = SECONDS * mix.RATE
    out = torch.zeros(length, device=device)
    hertz = torch.linspace(1, mix.RATE / 2, length // 2 + 1, device=device)
    t = torch.arange(length, device=device) / mix.RATE
    for _ in range(int(10 ** rooms.uniform(generator, 0.3, 1.5, 1))):
        noise = torch.randn(length, generator=generator).to(device)
        centre, width = float(10 ** rooms.uniform(generator, 1.8, 3.8, 1)), float(rooms.uniform(generator, 0.2, 2.5, 1))
        noise = torch.fft.irfft(torch.fft.rfft(noise) * torch.exp(-((torch.log2(hertz / centre) / width) ** 2)), length)
        since = t - float(rooms.uniform(generator, 0, SECONDS - 0.5, 1))
        rise, fall = float(10 ** rooms.uniform(generator, -3.3, -1, 1)), float(10 ** rooms.uniform(generator, -2.2, -0.2, 1))
        shape = (since > 0) * (1 - torch.exp(-since.clamp(min=0) / rise)) * torch.exp(-since.clamp(min=0) / fall)
        out += noise / noise.square().mean().sqrt() * shape * float(10 ** rooms.uniform(generator, -1, 0, 1))
    return out / (out.abs().max() + 1e-6)


def crowd(generator, device, voices):
    """Many who talk at once, or a street: noise whose colour and loudness wander."""
    length = SECONDS * mix.RATE
    if float(rooms.uniform(generator, 0, 1, 1)) < 0.5:
        rows = torch.randint(len(voices), (12,), generator=generator)
        shifts = torch.randint(voices.shape[1], (12,), generator=generator)
        out = sum(torch.roll(voices[int(i)], int(s))[:length] for i, s in zip(rows, shifts))
    else:
        out = torch.zeros(length, device=device)
        for _ in range(4):
            noise = rooms.steady_noise(generator, 1, length, device)[0]
            loud = torch.randn(SECONDS * 2, generator=generator).cumsum(0) * 0.35
            loud = functional.interpolate(loud[None, None], length, mode="linear")[0, 0].to(device)
            out = out + noise * torch.exp(loud - loud.max())
    return out / (out.square().mean().sqrt() + 1e-9)


class Surroundings(mix.Surroundings):
    def __init__(self, seed, device, count=300, voices=40, bands=None):
        super().__init__(seed, device, count, voices, bands)
        g = torch.Generator().manual_seed(seed + 7)
        hertz = torch.linspace(0, mix.RATE / 2, self.size // 2 + 1, device=device)
        self.responses = torch.cat([self.responses, poor_responses(g, int(0.7 * len(self.responses)), hertz)])
        self.rustles = torch.stack([rustle(g, device) for _ in range(min(RUSTLES, count))])
        self.crowds = torch.stack([crowd(g, device, self.voices) for _ in range(min(CROWDS, count))])

    def some(self, share, sound):
        """Indices of a share of the rows."""
        return torch.nonzero(torch.rand(len(sound), generator=self.generator) < share)[:, 0].to(self.device)

    def part_of(self, pool, n, length):
        start = int(torch.randint(pool.shape[1], (1,), generator=self.generator))
        return torch.roll(self.pick(pool, n), start, 1)[:, :length]

    def with_others(self, sound, hard):
        sound = super().with_others(sound, hard)
        n, length = sound.shape
        loud = sound.view(n, -1, 1600).square().mean(2).amax(1, keepdim=True).sqrt() + 1e-3
        bursts = self.part_of(self.rustles, n, length) * self.chance(0.2, n)
        sound = sound + bursts * loud * 10 ** self.between(-1.6, 0.5, n)
        around = self.part_of(self.crowds, n, length) * self.chance(0.12, n)
        return sound + around * loud * 10 ** -self.between(0.6, 2.2, n)

    def phone(self, sound):
        sound = self.ridden(super().phone(sound))
        return self.starved(self.suppressed(sound))

    def ridden(self, sound):
        """Level control that works hard: what follows a loud chord is soft, and in pauses the noise comes up."""
        rows = self.some(0.14, sound)
        if not len(rows):
            return sound
        chosen = sound[rows] / (sound[rows].abs().amax(1, keepdim=True) + 1e-4)
        power = chosen.view(len(rows), -1, 160).square().mean(2)
        length = 10 ** float(rooms.uniform(self.generator, 0.6, 2.1, 1))
        kernel = torch.exp(-torch.arange(400, device=self.device) / length)
        padded = functional.pad(power, (399, 0), mode="replicate")[:, None]
        smooth = functional.conv1d(padded, (kernel / kernel.sum()).flip(0)[None, None])[:, 0]
        gain = (smooth + 10 ** self.between(-6, -3, len(rows))) ** (-self.between(0.1, 0.42, len(rows)))
        louder = chosen * functional.interpolate(gain[:, None], sound.shape[1], mode="linear")[:, 0]
        top = (louder.abs().amax(1, keepdim=True) + 1e-4) / 10 ** self.between(0, 0.5, len(rows))
        sound = sound.clone()
        sound[rows] = torch.tanh(louder / top)
        return sound

    def suppressed(self, sound):
        """Noise suppression of calls: what has sounded steadily for a while counts as noise and is taken away."""
        rows = self.some(0.14, sound)
        if not len(rows):
            return sound
        window = torch.hann_window(512, device=self.device)
        spectrum = torch.stft(sound[rows], 512, 160, 512, window, return_complex=True)
        power = functional.avg_pool2d((spectrum.real.square() + spectrum.imag.square())[:, None], (1, 5), 1, (0, 2))[:, 0]
        past = int(rooms.uniform(self.generator, 40, 220, 1))
        padded = functional.pad(-power, (past - 1, 0), value=-1e9)
        steady = -functional.max_pool1d(padded, past, 1)
        bias, least = 10 ** self.between(0.1, 0.7, len(rows)), 10 ** self.between(-1.4, -0.3, len(rows))
        gain = (1 - steady * bias[:, :, None] / (power + 1e-12)).clamp(min=0)
        gain = torch.maximum(gain, least[:, :, None])
        gain = functional.avg_pool2d(gain[:, None], (3, 3), 1, 1, count_include_pad=False)[:, 0]
        sound = sound.clone()
        sound[rows] = torch.istft(spectrum * gain, 512, 160, 512, window, length=sound.shape[1])
        return sound

    def starved(self, sound):
        """A codec that has too few bits: whole bands are left out, frame by frame, and what is kept is coarse."""
        rows = self.some(0.14, sound)
        if not len(rows):
            return sound
        size = int(2 ** int(rooms.uniform(self.generator, 9, 11.999, 1)))
        window = torch.hann_window(size, device=self.device)
        spectrum = torch.stft(sound[rows], size, size // 2, size, window, return_complex=True)
        level = spectrum.abs()
        wide = 2 * (size // 64) + 1
        near = functional.avg_pool2d(level[:, None], (wide, 1), 1, (wide // 2, 0), count_include_pad=False)[:, 0]
        loudest = near.amax(1, keepdim=True)
        kept = near > loudest * 10 ** -self.between(1.1, 2.6, len(rows))[:, :, None]
        step = near * 10 ** self.between(-1.0, 0.15, len(rows))[:, :, None] + 1e-7
        coarse = torch.round((level / step) ** 0.75) ** (4 / 3) * step
        edge = (10 ** self.between(3.45, 3.9, len(rows)) / (mix.RATE / size))[:, :, None]
        kept = kept & (torch.arange(size // 2 + 1, device=self.device)[None, :, None] < edge)
        sound = sound.clone()
        sound[rows] = torch.istft(spectrum * (coarse / (level + 1e-9)) * kept, size, size // 2, size, window, length=sound.shape[1])
        return sound
