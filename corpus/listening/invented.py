"""Pianos that no one built: each drawn by chance and rendered note by note as sums of decaying partials.

What is drawn follows the physics of struck strings [lit: Fletcher and Rossing, The Physics of Musical Instruments]:
stiff strings (partial n at n f sqrt(1 + B n^2)), two or three strings a key slightly out of tune, two rates of decay,
faster for high partials; a hammer that strikes at a part of the string and is harder when it is faster; a soundboard
with its own resonances; the knock of key and hammer.
"""
import math

import torch

RATE = 16000
PREROLL = 160
PITCHES = tuple(range(22, 109, 4))
VELOCITIES = (30, 68, 108)
PARTIALS = 72
SECONDS = 7.0  # of a low key (4 until run 7)


def uniform(generator, low, high, *shape):
    return low + (high - low) * torch.rand(*shape, generator=generator)


def smooth_gain(generator, spread, knots=24):
    """Random gain in dB over log frequency from 25 Hz to 8 kHz, as a function of Hz: a soundboard, a loudspeaker."""
    values = torch.randn(knots, generator=generator) * spread
    values = (values + values.roll(1)) / 2

    def gain(hertz):
        at = (torch.log2(hertz.clamp(25, 8000) / 25) / math.log2(320) * (knots - 1)).clamp(0, knots - 1.001)
        i = at.long()
        v = values.to(hertz.device)
        return v[i] + (at - i) * (v[i + 1] - v[i])

    return gain


def draw_piano(generator):
    """What all notes of one piano share."""
    def u(a, b):
        return float(uniform(generator, a, b, 1))

    return {
        "stiffness": 10 ** u(-4.1, -3.1),  # at A4
        "stiffness_slope": u(0.06, 0.1),  # natural logarithm a semitone
        "strike": u(0.09, 0.15),
        "decay": 10 ** u(-0.55, 0.35),  # seconds at A4 for the slow part
        "decay_slope": u(0.5, 1.0),  # octaves of decay per octave of pitch
        "damping": 10 ** u(-7.6, -6.4),  # 1/s per Hz^2
        "fast": u(2.5, 9),  # how much faster the first decay is
        "fast_share": u(0.3, 0.92),
        "detune": 10 ** u(-0.6, 1.0) * (3 if u(0, 1) < 0.12 else 1),  # cents between the strings of a key
        "slope": u(-13, -3),  # dB an octave of partials at a middle velocity
        "hardness": u(3, 9),  # dB an octave more for a full stroke
        "corner": 10 ** u(3.0, 3.7),  # Hz above which the hammer is soft
        "board": smooth_gain(generator, u(2, 7)),
        "scatter": u(1, 6),  # dB from partial to partial
        "knock": 10 ** (u(-46, -18) / 20),
        "knock_low": u(60, 400),
        "knock_high": u(1200, 7000),
        "knock_decay": u(0.008, 0.06),
        "attack": u(0.0005, 0.006),
        "dynamic": u(0.9, 2.3),  # power of amplitude over velocity
        "bass": u(-6, 4),  # dB for the lowest octave against the middle
        "treble": u(-10, 2),
        "tilted": u(-2, 2) / 12,
    }


def aged(generator, piano):
    """The same, old and small: strings further apart, keys unlike their neighbours, a board that gives little bass."""
    def u(a, b):
        return float(uniform(generator, a, b, 1))

    piano["detune"] *= 10 ** u(0, 0.7)
    piano["scatter"] *= u(1, 1.8)
    piano["thin"] = 10 ** u(1.75, 2.4)  # Hz below which the board gives less
    piano["thin_slope"] = u(6, 18)  # dB an octave
    piano["uneven"] = u(0, 3)  # dB an octave of partials, from key to key
    piano["stiffness"] *= 10 ** u(0, 0.35)
    piano["knock"] *= 10 ** u(0, 0.5)
    piano["equal_strings"] = u(0.5, 2)
    return piano


def render_note(generator, piano, pitch, device):
    """[VELOCITIES, samples] of one key."""
    length = int(RATE * SECONDS * min(1.0, 2 ** ((66 - pitch) / 24)))
    f0 = 440 * 2 ** ((pitch - 69) / 12)
    n = torch.arange(1, PARTIALS + 1, dtype=torch.float32)
    stiff = piano["stiffness"] * math.exp(piano["stiffness_slope"] * (pitch - 69))
    if pitch < 45:  # wound strings are stiffer again towards the bass
        stiff = max(stiff, piano["stiffness"] * 0.3 * math.exp(0.05 * (45 - pitch)))
    hertz = n * f0 * torch.sqrt((1 + stiff * n**2) / (1 + stiff))
    there = (hertz < 7600).float()
    strings = 1 if pitch < 30 else 2 if pitch < 42 else 3
    slow = piano["decay"] * 2 ** (-(pitch - 69) / 12 * piano["decay_slope"]) * 10 ** (0.12 * torch.randn(PARTIALS, generator=generator))
    rate = 1 / slow.clamp(0.05, 12) + piano["damping"] * hertz**2
    level = piano["board"](hertz) + piano["scatter"] * torch.randn(PARTIALS, generator=generator)
    level = level + 20 * torch.log10(torch.sin(math.pi * n * piano["strike"]).abs() + 0.05)
    level = level + max(0, 48 - pitch) / 27 * piano["bass"] + max(0, pitch - 72) / 36 * piano["treble"]
    if "thin" in piano:
        level = level - piano["thin_slope"] * torch.log2((piano["thin"] / hertz).clamp(1))
        level = level + piano["uneven"] * torch.randn(1, generator=generator) * torch.log2(n)
    v = torch.tensor(VELOCITIES, dtype=torch.float32)[:, None] / 127
    tilt = piano["slope"] + piano["hardness"] * (v - 0.5) * 2
    soft = -8 * (1.3 - v) * torch.log2((hertz / piano["corner"]).clamp(1)) ** 1.5
    gains = 10 ** ((level + tilt * torch.log2(n) + soft) / 20) * there
    t = torch.arange(length, device=device, dtype=torch.float32) / RATE
    kept = int(there.sum())
    hertz, rate, gains = hertz[:kept].to(device), rate[:kept].to(device), gains[:, :kept].to(device)
    share = piano["fast_share"]
    total = torch.zeros(len(VELOCITIES), length, device=device)
    for string in range(strings):
        cents = piano["detune"] * (torch.randn(1, generator=generator).item() if strings > 1 else 0)
        phase = uniform(generator, 0, 0.6, kept, 1).to(device) * math.pi
        wave = torch.sin(2 * math.pi * ((hertz[:, None] * 2 ** (cents / 1200)) * t % 1) + phase)
        if string == 0:
            fall = torch.exp(-rate[:, None] * t)
            wave = wave * (share * torch.exp(-rate[:, None] * (piano["fast"] - 1) * t) + (1 - share)) * fall
        else:
            wave = wave * fall * (0.5 * (1 - share)) * piano.get("equal_strings", 1)
        total += gains @ wave
    total = total * (1 - torch.exp(-t / piano["attack"]))
    loudest = total.abs().amax(1, keepdim=True) + 1e-9
    wanted = (v.to(device) / v[-1].item()) ** piano["dynamic"]
    total = total / loudest * loudest[-1] * wanted
    return total + knock(generator, piano, t, device) * total.abs().amax(1, keepdim=True)


def knock(generator, piano, t, device):
    """Noise of the key's bed and the hammer: a low thud and a short band of noise."""
    noise = torch.randn(t.numel(), generator=generator).to(device)
    spectrum = torch.fft.rfft(noise)
    hertz = torch.linspace(0, RATE / 2, spectrum.numel(), device=device)
    band = 1 / (1 + (hertz / piano["knock_high"]) ** 4) + 3 / (1 + ((hertz - piano["knock_low"]) / 60) ** 2)
    noise = torch.fft.irfft(spectrum * band, t.numel())
    noise = noise * torch.exp(-t / piano["knock_decay"]) * (1 - torch.exp(-t / 0.0006))
    return piano["knock"] * noise / (noise.abs().amax() + 1e-9)


def render_piano(seed, device, old=False):
    """A whole piano: list of (pitch, velocity, samples with PREROLL), loudest value 1."""
    generator = torch.Generator().manual_seed(seed)
    piano = draw_piano(generator)
    if old:
        piano = aged(generator, piano)
    notes = []
    for pitch in PITCHES:
        sounds = render_note(generator, piano, pitch, device)
        fade = torch.ones(sounds.shape[1], device=device)
        fade[-4000:] = torch.linspace(1, 0, 4000, device=device)
        sounds = torch.nn.functional.pad(sounds * fade, (PREROLL, 0))
        notes += [(pitch, velocity, sounds[i]) for i, velocity in enumerate(VELOCITIES)]
    loudest = max(float(s.abs().max()) for _, _, s in notes[2::3])
    return [(p, v, s / loudest) for p, v, s in notes]
