"""Clips of music: notes of a bank laid into sound on the device, put through rooms and phones, with what is to be heard."""
import math

import numpy as np
import torch

import rooms
import spectrum as hearing
from invented import PREROLL, render_piano

RATE = 16000
LEAD = 48000  # samples before the clip in which notes may have begun (25,600 until run 7)
FRAMES = 500
CLIP = FRAMES * hearing.HOP
LENGTH = LEAD + CLIP
TRIANGLE = 3.0


class Bank:
    """Notes of pianos on the device, found by piano, pitch and velocity."""

    def __init__(self, device):
        self.device = device
        self.sound = []
        self.size = 0
        self.rows = []
        self.pianos = []  # for each: (pitches, velocities, index[pitch][velocity] of rows)
        self.grains = {}  # rows that are noises of a piano, by kind (worn.py)

    def add(self, notes):
        """Notes (pitch, velocity, samples) of one piano."""
        pitches = sorted({p for p, _, _ in notes})
        velocities = sorted({v for _, v, _ in notes})
        table = np.full((len(pitches), len(velocities)), -1)
        for pitch, velocity, sound in notes:
            table[pitches.index(pitch), velocities.index(velocity)] = len(self.rows)
            self.rows.append((self.size, len(sound), pitch, velocity))
            self.sound.append(torch.as_tensor(sound).to(self.device, torch.float16))
            self.size += len(sound)
        for column in table.T:  # a layer may lack a key: its neighbour stands in
            last = next((x for x in column if x >= 0), -1)
            for i in range(len(column)):
                column[i] = last = column[i] if column[i] >= 0 else last
        self.pianos.append((np.array(pitches), np.array(velocities), table))

    def add_file(self, path, only=None):
        """Every piano of a file of pianos.py; returns their names."""
        held = np.load(path)
        sound = held["codes"].reshape(-1, 32).astype(np.float32) * held["scales"].astype(np.float32)[:, None]
        ends = np.cumsum(held["lengths"])
        sound = sound.ravel()
        for i, name in enumerate(held["names"]):
            if only is None or name in only:
                rows = np.flatnonzero(held["piano"] == i)
                self.add([(int(held["pitch"][r]), int(held["velocity"][r]), sound[ends[r] - held["lengths"][r] : ends[r]]) for r in rows])
        return [str(n) for n in held["names"] if only is None or n in only]

    def add_invented(self, seeds, aged=0.0):
        """`aged` is the share of them that is old and small."""
        for i, seed in enumerate(seeds):
            self.add(render_piano(seed, self.device, i < aged * len(seeds)))

    def close(self):
        """Room for the four points of the interpolation beyond the end; the lists become one."""
        self.sound = torch.cat([*self.sound, torch.zeros(8, device=self.device, dtype=torch.float16)])
        self.rows = np.array(self.rows)

    def pick(self, piano, pitch, velocity, shift, r):
        """Rows for notes of one clip; `shift` semitones away from the nearest recorded key makes another piano of it."""
        pitches, velocities, table = self.pianos[piano]
        at = np.abs(pitches[None] - (pitch + shift)[:, None]).argmin(1)
        layer = np.abs(velocities[None] - (velocity + r.normal(0, 9, len(velocity)))[:, None]).argmin(1)
        return self.rows[table[at, layer]]


def choose_piano(r, shares):
    return int(r.choice(len(shares), p=shares))


def notes_of_clips(r, streams, bank, shares, clips, plain=False, wear=None):
    """Draws `clips` windows of streams, moves them in pitch and time, and gives every note its sound.

    `wear` (worn.py) changes the notes of a clip as years change a piano and adds what else sounds.

    Returns arrays of notes (clip, onset and damper in samples of the clip, pitch, velocity, row's start, row's length,
    ratio of rates, gain, seconds of damping) and where the pedal is down [clips, FRAMES].
    """
    out, pedals = [], np.zeros((clips, FRAMES), np.float32)
    for clip in range(clips):
        rows, pedal = streams[r.integers(len(streams))]
        stretch = 1.0 if plain else r.uniform(0.85, 1.2)
        start = r.uniform(-1, max(0.5, (rows[-1, 0] if len(rows) else 0) * stretch - 4))
        on, damp = rows[:, 0] * stretch - start, rows[:, 2] * stretch - start
        kept = (on > -LEAD / RATE + 0.02) & (on < CLIP / RATE)
        move = 0 if plain else int(r.integers(-6, 7))
        pitch = rows[:, 3].astype(int) + move
        kept &= (pitch >= 21) & (pitch <= 108)
        for a, b in np.ceil((pedal * stretch - start) * 100).clip(0, FRAMES).astype(int):
            pedals[clip, a:b] = 1
        if not plain and r.random() < 0.03:  # nobody plays
            kept &= False
            pedals[clip] = 0
        on, damp, pitch = on[kept], damp[kept], pitch[kept]
        velocity = rows[kept, 4]
        if not plain:
            velocity = np.clip(64 + (velocity - 64) * r.uniform(0.5, 1.5) + r.normal(0, 14), 6, 127)
        piano = choose_piano(r, shares)
        shift = np.full(len(pitch), int(np.clip(r.normal(0, 3), -7, 7)) if not plain and r.random() < 0.4 else 0)
        # Worn hammers are hard, new ones soft, key by key: the sound of a louder or a softer stroke.
        hard = 0 if wear is None else r.normal(0, r.choice([0.01, 10, 22]), 109)[pitch]
        row = bank.pick(piano, pitch, velocity + hard, shift, r)
        # Tuned to 440 Hz or near it, or standing unheeded for years (430 to 450 Hz); each key off by itself.
        whole = r.normal(0, 10) if r.random() < 0.7 else r.uniform(-40, 40)
        keys = r.normal(0, r.choice([1, 3, 7], p=[0.6, 0.3, 0.1]), 109)
        cents = whole + keys[pitch] if not plain else 0
        cents = cents + (0 if plain else r.normal(0, 0.25) * (pitch - 60))
        power = r.uniform(1.0, 2.5) if not plain else 1.7
        gain = (velocity / row[:, 3]) ** power
        if not plain:  # hammers wear and action is set key by key
            gain = gain * 10 ** (r.normal(0, r.choice([0.5, 1.5, 3]), 109)[pitch] / 20)
        # dampers: slower in the bass, none in the highest octave and a half of most pianos
        damping = (0.035 if plain else 10 ** r.uniform(-1.85, -0.75)) * 2 ** ((60 - pitch) / 24)
        if not plain and r.random() < 0.5:
            damping = np.where(pitch > 88, 3.0, damping)
        ratio = 2 ** ((pitch - row[:, 2] + cents / 100) / 12)
        notes = np.stack([np.full(len(pitch), clip), on * RATE, damp * RATE, pitch, velocity, row[:, 0], row[:, 1], ratio, gain, damping], 1)
        out.append(notes)
        if wear is not None:
            up = rows[kept, 1] * stretch - start
            out += wear(r, bank, clip, notes, up, pedal * stretch - start)
        if not plain and r.random() < 0.12:  # an instrument out of tune: every key twice
            double = notes.copy()
            double[:, 4] = -1  # sounds, but is no note of its own
            double[:, 7] *= 2 ** (r.uniform(-14, 14) / 1200)
            double[:, 8] *= r.uniform(0.4, 1)
            out.append(double)
    return np.concatenate(out), pedals


def lay(bank, notes, clips, add=None):
    """[clips, LENGTH] of sound; `add` may be a compiled add_notes."""
    add = add or add_notes
    device = bank.device
    out = torch.zeros(clips * LENGTH, device=device)
    clip, on, damp, _, _, start, length, ratio, gain, damping = [notes[:, i] for i in range(10)]
    begin = on + LEAD - PREROLL / ratio
    lasts = np.minimum(length / ratio, np.minimum(damp - on + PREROLL / ratio + damping * RATE * 7, LENGTH - begin)).astype(int)
    order = np.argsort(-lasts)
    order = order[lasts[order] > 32]
    data = torch.from_numpy(np.stack([clip, begin, (damp + LEAD), start, length, ratio, gain, damping * RATE, lasts], 1)[order].astype(np.float64)).to(device)
    sizes, at = lasts[order], 0
    while at < len(order):
        count = max(1, min(len(order) - at, 24_000_000 // int(sizes[at])))
        part = data[at : at + count]
        add(out, bank.sound, part, torch.arange(int(sizes[at]), device=device)[None])
        at += count
    return out.view(clips, LENGTH)


def add_notes(out, sound, part, t):
    """Adds rows of notes (clip, begin, damper, start, length, ratio, gain, damping, samples) to `out`, resampled as they go."""
    where = part[:, 1:2].floor().clamp(min=0) + t
    place = ((where - part[:, 1:2]) * part[:, 5:6]).float()
    i = place.floor()
    f = place - i
    limit = (part[:, 4:5] - 4).float()
    inside = (i >= 1) & (i < limit) & (t < part[:, 8:9])
    i = i.clamp(min=1)
    i = torch.minimum(i, limit.clamp(min=1)).long() + part[:, 3:4].long()
    a, b, c, d = [sound[i + k].float() for k in (-1, 0, 1, 2)]
    value = b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)))
    fall = torch.exp(-((where - part[:, 2:3]).clamp(min=0) / part[:, 7:8]).float())
    value = value * fall * part[:, 6:7].float() * inside
    index = (part[:, :1] * LENGTH + where.clamp(max=LENGTH - 1)).long()
    out.index_add_(0, index.flatten(), value.flatten())


def targets(notes, pedals, clips, device):
    """What is to be heard: onset, sounding, loudness and offset [clips, FRAMES, 88], where loudness counts, pedal."""
    notes = notes[notes[:, 4] > 0]
    clip = torch.from_numpy(notes[:, 0].astype(np.int64)).to(device)
    on, damp = [torch.from_numpy(notes[:, i] / hearing.HOP).to(device) for i in (1, 2)]
    key = torch.from_numpy(notes[:, 3].astype(np.int64) - 21).to(device)
    loud = torch.from_numpy(notes[:, 4] / 127).float().to(device)
    spare = 8  # frames before and after, into which what lies outside falls
    width = FRAMES + 2 * spare

    def blank():
        return torch.zeros(clips, width, 88, device=device)

    def put(to, frame, value):
        place = (clip * width + (frame + spare).clamp(0, width - 1)) * 88 + key
        to.view(-1).scatter_reduce_(0, place, value, "amax")

    steps = torch.arange(-3, 5, device=device)[:, None]
    onset, offset, loudness = blank(), blank(), blank()
    for to, at in ((onset, on), (offset, damp)):
        frame = at.floor().long() + steps
        value = (1 - (frame - at).abs() / TRIANGLE).clamp(min=0).float()
        for i in range(len(steps)):
            put(to, frame[i], value[i])
    for step in range(-1, 3):
        put(loudness, on.floor().long() + step, loud)
    change = torch.zeros(clips, FRAMES + 1, 88, device=device)
    for at, sign in ((on, 1.0), (damp, -1.0)):
        frame = at.ceil().clamp(0, FRAMES).long()
        change.view(-1).index_add_(0, (clip * (FRAMES + 1) + frame) * 88 + key, torch.full_like(loud, sign))
    sounding = (change.cumsum(1)[:, :FRAMES] > 0.5).float()
    onset, loudness, offset = [x[:, spare : spare + FRAMES] for x in (onset, loudness, offset)]
    return onset, sounding, loudness, offset, torch.from_numpy(pedals).to(device)[:, :, None]


class Spectrum:
    """The same numbers as spectrum.py, for batches on the device."""

    def __init__(self, device):
        self.window = torch.from_numpy(hearing.window()).float().to(device)
        self.filters = torch.from_numpy(hearing.filters().T.copy()).float().to(device)

    def __call__(self, sound):
        """[clips, samples] to [clips, samples / HOP, BANDS] (the frame after the last is left out)."""
        half = hearing.WINDOW // 2
        padded = torch.nn.functional.pad(sound, (half, half))
        spectrum = torch.stft(padded, hearing.WINDOW, hearing.HOP, hearing.WINDOW, self.window, center=False, return_complex=True)
        power = spectrum.real.square() + spectrum.imag.square()
        bands = power.transpose(1, 2)[:, : sound.shape[1] // hearing.HOP] @ self.filters
        return 1 + torch.log(bands + hearing.FLOOR) / hearing.SPAN


class Surroundings:
    """Pools of rooms, ringing strings and voices, and the way from dry sound to what a phone writes."""

    def __init__(self, seed, device, count=300, voices=40, bands=None):
        """@param bands path of bands.npz, or None"""
        g = torch.Generator().manual_seed(seed)
        self.device, self.generator = device, g
        self.size = 131072
        small = torch.stack([rooms.room(g, device) for _ in range(count - count // 3)])
        large = torch.stack([rooms.hall(g, device) for _ in range(count // 3)])
        small = torch.nn.functional.pad(small, (0, rooms.LONG - rooms.IMPULSE))
        self.rooms = torch.fft.rfft(torch.cat([small, large]), self.size)
        self.bands = None if bands is None else torch.from_numpy(np.load(bands)["codes"]).to(device)
        self.ringing = torch.fft.rfft(torch.stack([rooms.ringing(g, device) for _ in range(12)]), self.size)
        self.voices = torch.stack([rooms.voice(g, device) for _ in range(voices)])
        hertz = torch.linspace(0, RATE / 2, self.size // 2 + 1, device=device)
        self.responses = torch.cat([rooms.responses(g, 10, hertz) for _ in range(max(1, count // 10))])

    def chance(self, share, count):
        return (torch.rand(count, generator=self.generator) < share).float().to(self.device)[:, None]

    def between(self, low, high, count):
        return rooms.uniform(self.generator, low, high, count, 1).to(self.device)

    def pick(self, pool, count):
        return pool[torch.randint(len(pool), (count,), generator=self.generator).to(self.device)]

    def __call__(self, dry, pedal, hard=1.0):
        """[clips, LENGTH] to [clips, CLIP]; `pedal` [clips, FRAMES, 1] says when strings ring along; hard 0 is dry."""
        n = len(dry)
        spectrum = torch.fft.rfft(dry, self.size)
        if hard > 0:
            ringing = torch.fft.rfft(torch.nn.functional.pad(self.rung(spectrum, pedal), (LEAD, 0)), self.size)
            wet = self.chance(0.75, n)
            answer = self.pick(self.rooms, n) * wet + (1 - wet)
            response = self.pick(self.responses, n)
            plain = self.chance(0.15, n)
            spectrum = (spectrum + ringing) * answer * (response * (1 - plain) + plain)
        sound = torch.fft.irfft(spectrum, self.size)[:, LEAD:LENGTH]
        sound = sound / (sound.abs().amax(1, keepdim=True) + 1e-4)
        if hard > 0:
            sound = self.wavering(self.with_others(sound, hard))
            sound = self.squeezed(self.phone(sound))
            sound = sound / (sound.abs().amax(1, keepdim=True) + 1e-4)
            return sound * 10 ** self.between(-1.5, 0, n)
        return sound * 0.5

    def rung(self, spectrum, pedal):
        """What strings that no hammer struck add to the clips [clips, CLIP]."""
        n = len(spectrum)
        down = torch.nn.functional.interpolate(pedal.transpose(1, 2), CLIP)[:, 0]
        ring = torch.fft.irfft(spectrum * self.pick(self.ringing, n), self.size)[:, LEAD:LENGTH]
        return ring * down * 10 ** self.between(-2.2, -0.9, n)

    def with_others(self, sound, hard):
        """Noise 12 to 70 dB below the music's loudest part, voices, a metronome, thumps."""
        n, length = sound.shape
        loud = sound.view(n, -1, 1600).square().mean(2).amax(1, keepdim=True).sqrt() + 1e-3
        noise = rooms.steady_noise(self.generator, n, length, self.device)
        some = self.chance(0.85, n)
        sound = sound + some * noise * loud * 10 ** (-self.between(0.8, 3.5, n) / hard)
        talk = self.pick(self.voices, n)[:, :length] * self.chance(0.18, n)
        sound = sound + talk * loud * 10 ** -self.between(0.6, 2.0, n)
        sound = sound + rooms.crackle(self.generator, n, length, self.device) * self.chance(0.05, n) * 10 ** self.between(-1.6, -0.3, n)
        if self.bands is not None:  # others play far off, or in the next room
            band = self.pick(self.bands, n)[:, -length:].float() / 127
            start = int(torch.randint(band.shape[1], (1,), generator=self.generator))
            band = torch.roll(band, start, 1)
            sound = sound + band * self.chance(0.1, n) * 10 ** -self.between(0.7, 1.8, n)
        t = torch.arange(length, device=self.device)[None]
        period = self.between(0.25, 1.0, n) * RATE
        phase = (t + self.between(0, 16000, n)) % period
        click = torch.sin(2 * math.pi * self.between(500, 3500, n) * phase / RATE) * torch.exp(-phase / self.between(60, 900, n))
        sound = sound + click * self.chance(0.1, n) * loud * 10 ** self.between(-1.0, 0.3, n)
        thump = torch.sin(2 * math.pi * self.between(40, 160, n) * (phase % 16000) / RATE) * torch.exp(-phase / 500)
        return sound + thump * self.chance(0.06, n) * loud * 10 ** self.between(-1.0, 0.3, n)

    def wavering(self, sound):
        """Wow and flutter of some tapes and discs: the speed goes up and down by up to half a hundredth."""
        rows = torch.nonzero(torch.rand(len(sound), generator=self.generator) < 0.1)[:, 0].to(self.device)
        if not len(rows):
            return sound
        n, length = len(rows), sound.shape[1]
        t = torch.arange(length, device=self.device)[None] / RATE
        place = (t * RATE).repeat(n, 1)
        for low, high, most in ((0.4, 2.0, -2.3), (4.0, 12.0, -3.0)):
            hertz, depth = self.between(low, high, n), 10 ** self.between(-3.7, most, n)
            place = place + depth * RATE / (2 * math.pi * hertz) * torch.sin(2 * math.pi * (hertz * t + self.between(0, 1, n)))
        i = place.floor().clamp(1, length - 3)
        f = (place - i).clamp(0, 1)
        i = i.long()
        a, b, c, d = [sound[rows].gather(1, i + k) for k in (-1, 0, 1, 2)]
        sound = sound.clone()
        sound[rows] = b + 0.5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)))
        return sound

    def squeezed(self, sound):
        """What a lossy codec leaves: each band of the spectrum in steps that grow with what is loud around it."""
        rows = torch.nonzero(torch.rand(len(sound), generator=self.generator) < 0.25)[:, 0].to(self.device)
        if not len(rows):
            return sound
        window = torch.hann_window(1024, device=self.device)
        spectrum = torch.stft(sound[rows], 1024, 512, 1024, window, return_complex=True)
        level = spectrum.abs()
        near = torch.nn.functional.avg_pool2d(level[:, None], (25, 1), 1, (12, 0), count_include_pad=False)[:, 0]
        step = near * 10 ** self.between(-1.4, -0.1, len(rows))[:, :, None] + 1e-7
        # Steps widen with height, as in the codecs of 1993 on: power .75.
        kept = torch.round((level / step) ** 0.75) ** (4 / 3) * step
        spectrum = spectrum * (kept / (level + 1e-9))
        edge = (10 ** self.between(3.55, 3.95, len(rows)) / (RATE / 1024))[:, :, None]
        spectrum = spectrum * (torch.arange(513, device=self.device)[None, :, None] < edge)
        sound = sound.clone()
        sound[rows] = torch.istft(spectrum, 1024, 512, 1024, window, length=sound.shape[1])
        return sound

    def phone(self, sound):
        """Level control, clipping, and removal of what is far softer than its surroundings in the spectrum."""
        n, length = sound.shape
        power = sound.view(n, -1, 160).square().mean(2)
        kernel = torch.exp(-torch.arange(120, device=self.device) / 40.0)
        smooth = torch.nn.functional.conv1d(torch.nn.functional.pad(power, (119, 0))[:, None], (kernel / kernel.sum()).flip(0)[None, None])[:, 0]
        strength = self.between(0.1, 0.4, n) * self.chance(0.25, n)
        gain = (smooth + 1e-4) ** (-strength)
        sound = sound * torch.nn.functional.interpolate(gain[:, None], length, mode="linear")[:, 0]
        top = sound.abs().amax(1, keepdim=True) + 1e-4
        drive = 10 ** self.between(0, 0.7, n)
        soft = torch.tanh(sound / top * drive) * top / drive
        hard = torch.minimum(torch.maximum(sound, -top / drive), top / drive)
        a, b = self.chance(0.12, n), self.chance(0.1, n)
        sound = sound * (1 - a) + soft * a
        sound = sound * (1 - b) + hard * b
        gated = torch.rand(n, generator=self.generator) < 0.12
        rows = torch.nonzero(gated.to(self.device))[:, 0]
        if len(rows):
            window = torch.hann_window(512, device=self.device)
            spectrum = torch.stft(sound[rows], 512, 128, 512, window, return_complex=True)
            level = spectrum.abs()
            near = torch.nn.functional.max_pool2d(level[:, None], (31, 1), 1, (15, 0))[:, 0]
            kept = (level > near * 10 ** (-self.between(1.3, 2.2, len(rows))[:, :, None])).float()
            sound = sound.clone()
            sound[rows] = torch.istft(spectrum * kept, 512, 128, 512, window, length=length)
        return sound
