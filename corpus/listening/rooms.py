"""What lies between the strings and the file: rooms, other sounds, microphones, the phone's own treatment."""
import math

import torch

from invented import smooth_gain, uniform

RATE = 16000
IMPULSE = 12800  # samples of a small room's answer
LONG = 38400  # of a large one's


def room(generator, device):
    """Answer of a box-shaped room by image sources [lit: Allen and Berkley 1979], direct sound first and 1."""
    size = torch.stack([uniform(generator, a, b, 1) for a, b in ((2.5, 9), (2.5, 12), (2.2, 4.5))])[:, 0]
    if uniform(generator, 0, 1, 1) < 0.06:
        size = size * 2.5  # a hall
    source = size * uniform(generator, 0.15, 0.85, 3)
    distance = 10 ** uniform(generator, -0.7, 0.75, 1)
    ear = source + distance * torch.nn.functional.normalize(torch.randn(3, generator=generator), dim=0)
    ear = torch.minimum(torch.maximum(ear, torch.tensor(0.1)), size - 0.1)
    kept = 1 - 10 ** uniform(generator, -1.1, -0.15, 3)  # share of energy that a pair of walls gives back
    reach = 9
    k = torch.arange(-reach, reach + 1, dtype=torch.float32)
    axes = []
    for axis in range(3):
        places = torch.cat([2 * k * size[axis] + source[axis], 2 * k * size[axis] - source[axis]])
        hits = torch.cat([(2 * k).abs(), (2 * k - 1).abs()])
        axes.append((places - ear[axis], hits * torch.log(kept[axis]) / 2))
    (x, hx), (y, hy), (z, hz) = [(a.to(device), b.to(device)) for a, b in axes]
    far = torch.sqrt(x[:, None, None] ** 2 + y[None, :, None] ** 2 + z[None, None, :] ** 2).clamp(0.1).flatten()
    gain = torch.exp((hx[:, None, None] + hy[None, :, None] + hz[None, None, :]).flatten()) / far
    delay = (far - far.min()) / 343 * RATE
    gain = gain / gain[far.argmin()]
    at = delay.long()
    part = delay - at
    sign = torch.where(torch.rand(at.numel(), generator=generator).to(device) < 0.5, -1.0, 1.0)
    sign[far.argmin()] = 1
    answer = torch.zeros(IMPULSE + 1, device=device)
    inside = at < IMPULSE - 1
    for shift, weight in ((0, 1 - part), (1, part)):
        answer.index_add_(0, at[inside] + shift, (gain * sign * weight)[inside])
    return treble_lost(generator, answer[:IMPULSE], device)


def treble_lost(generator, answer, device):
    """Walls and air take high sound sooner: the later part of the answer is filtered more."""
    t = torch.arange(IMPULSE, device=device) / RATE
    spectrum = torch.fft.rfft(answer, 2 * IMPULSE)
    hertz = torch.linspace(0, RATE / 2, spectrum.numel(), device=device)
    corner = float(uniform(generator, 1200, 6000, 1))
    dull = torch.fft.irfft(spectrum / (1 + (hertz / corner) ** 2), 2 * IMPULSE)[:IMPULSE]
    share = torch.exp(-t / float(uniform(generator, 0.02, 0.3, 1)))
    return answer * share + dull * (1 - share)


def hall(generator, device):
    """A larger space as it is measured: direct sound, scattered early echoes, and a dense tail of noise of many bands.

    Each band dies away by 60 dB in its own time, high ones sooner; the tail begins after the sound's way to the walls.
    """
    t = torch.arange(LONG, device=device) / RATE
    noise = torch.randn(LONG, generator=generator).to(device)
    spectrum = torch.fft.rfft(noise, 2 * LONG)
    hertz = torch.linspace(0, RATE / 2, spectrum.numel(), device=device)
    sixty = float(10 ** uniform(generator, -0.55, 0.4, 1))
    tail = torch.zeros(LONG, device=device)
    edges = (0, 250, 500, 1000, 2000, 4000, 8001)
    for band, (low, high) in enumerate(zip(edges, edges[1:])):
        part = torch.fft.irfft(spectrum * ((hertz >= low) & (hertz < high)), 2 * LONG)[:LONG]
        fall = sixty * float(uniform(generator, 0.8, 1.2, 1)) * (1.15 - 0.12 * band)
        tail += part * 10 ** (-3 * t / fall) * float(10 ** uniform(generator, -0.15, 0.15, 1))
    begin = int(float(uniform(generator, 0.004, 0.04, 1)) * RATE)
    tail = tail * (1 - torch.exp(-(t - begin / RATE).clamp(min=0) / 0.008))
    tail = tail / tail.square().sum().sqrt()
    answer = tail * float(10 ** uniform(generator, -0.75, 0.35, 1))
    answer[0] += 1
    for _ in range(int(uniform(generator, 2, 12, 1))):
        at = int(float(uniform(generator, 0.001, 0.05, 1)) * RATE)
        answer[at] += float(uniform(generator, -0.5, 0.5, 1))
    return answer


def ringing(generator, device):
    """Strings that ring along while the pedal is down: a faint sum of all of them."""
    t = torch.arange(int(1.4 * RATE), device=device) / RATE
    keys = torch.arange(88)
    f0 = 27.5 * 2 ** (keys / 12)
    hertz = torch.cat([f0, 2 * f0, 3 * f0])
    hertz = (hertz * 2 ** (torch.randn(hertz.numel(), generator=generator) * 3 / 1200))[hertz < 7000].to(device)
    phase = uniform(generator, 0, 2 * math.pi, hertz.numel()).to(device)
    level = torch.rand(hertz.numel(), generator=generator).to(device) * (500 / (500 + hertz))
    wave = (torch.cos(2 * math.pi * (hertz[:, None] * t % 1) + phase[:, None]) * level[:, None]).sum(0)
    wave = wave * torch.exp(-t / float(uniform(generator, 0.25, 0.9, 1))) * (1 - torch.exp(-t / 0.02))
    return wave / wave.square().sum().sqrt()


def voice(generator, device, seconds=12):
    """Someone who talks: a buzz of wandering pitch through wandering formants, in syllables, with hisses."""
    length = seconds * RATE
    spans = seconds * 6
    f0 = 2 ** (math.log2(float(uniform(generator, 85, 260, 1))) + 0.25 * torch.randn(spans, generator=generator).cumsum(0) * 0.3)
    f0 = f0.clamp(70, 420)
    def stretched(values):
        return torch.nn.functional.interpolate(values[None, None], length, mode="linear")[0, 0].to(device)
    phase = (stretched(f0) / RATE).cumsum(0)
    buzz = torch.zeros(length, device=device)
    for n in range(1, 30):
        buzz += torch.sin(2 * math.pi * (phase * n % 1)) / n**0.5
    hiss = torch.randn(length, generator=generator).to(device)
    out = torch.zeros(length, device=device)
    size = RATE // 5
    window = torch.hann_window(2 * size, device=device)
    hertz = torch.linspace(0, RATE / 2, size + 1, device=device)
    for start in range(0, length - 2 * size, size):
        kind = float(uniform(generator, 0, 1, 1))
        peaks = [(300, 900), (800, 2300), (2200, 3300)]
        shape = sum(1 / (1 + ((hertz - float(uniform(generator, a, b, 1))) / 90) ** 2) / (i + 1) for i, (a, b) in enumerate(peaks))
        if kind < 0.2:
            shape = 1 / (1 + ((hertz - float(uniform(generator, 3500, 6500, 1))) / 900) ** 2)
        sound = (hiss if kind < 0.2 else buzz)[start : start + 2 * size] * (0.15 if kind < 0.2 else 1)
        loud = 0.0 if kind > 0.85 else 10 ** float(uniform(generator, -0.7, 0, 1))
        out[start : start + 2 * size] += torch.fft.irfft(torch.fft.rfft(sound * window) * shape, 2 * size) * loud
    return out / (out.square().mean().sqrt() + 1e-9)


def steady_noise(generator, count, length, device):
    """Rows of pink, white or brown noise through a random filter, some with hum; each of power 1."""
    spectrum = torch.fft.rfft(torch.randn(count, length, device=device))
    hertz = torch.linspace(0, RATE / 2, spectrum.shape[1], device=device)
    color = uniform(generator, 0, 2, count, 1).to(device)
    shape = (hertz.clamp(40) / 1000) ** (-color / 2)
    noise = torch.fft.irfft(spectrum * shape, length)
    noise = noise / noise.square().mean(1, keepdim=True).sqrt()
    t = torch.arange(length, device=device) / RATE
    mains = torch.where(torch.rand(count, generator=generator) < 0.5, 50.0, 60.0).to(device)[:, None]
    hum = torch.zeros_like(noise)
    for n in (1, 2, 3, 4, 5, 6, 8, 10):
        level = (torch.rand(count, generator=generator) ** 2).to(device)[:, None] / n**0.5
        hum += level * torch.sin(2 * math.pi * (mains * n * t % 1))
    present = (torch.rand(count, generator=generator) < 0.2).float().to(device)[:, None]
    return noise + hum * present * (10 ** uniform(generator, -1, 0.5, count, 1)).to(device)


def crackle(generator, count, length, device):
    """Rows of what an old disc or a poor plug adds: a few sharp clicks a second; the highest is 1."""
    rate = (10 ** uniform(generator, 0, 1.7, count, 1) / RATE).to(device)
    there = (torch.rand(count, length, device=device) < rate).float()
    clicks = there * torch.randn(count, length, device=device)
    return clicks / (clicks.abs().amax(1, keepdim=True) + 1e-6)


def responses(generator, count, hertz):
    """[count, bins] gains of microphones and loudspeakers: smooth colour, tilt, low cut, high cut, phone bands."""
    out = []
    for _ in range(count):
        gain = smooth_gain(generator, float(uniform(generator, 0, 6, 1)))(hertz)
        gain = gain + float(uniform(generator, -3, 3, 1)) * torch.log2(hertz.clamp(60) / 1000)
        if uniform(generator, 0, 1, 1) < 0.5:
            low = float(10 ** uniform(generator, 1.5, 2.65, 1))
            gain = gain - 10 * torch.log10(1 + (low / hertz.clamp(1)) ** float(uniform(generator, 2, 6, 1)))
        if uniform(generator, 0, 1, 1) < 0.35:
            high = float(10 ** uniform(generator, 3.45, 3.9, 1))
            gain = gain - 10 * torch.log10(1 + (hertz / high) ** float(uniform(generator, 4, 24, 1)))
        out.append(gain)
    return 10 ** (torch.stack(out) / 20)
