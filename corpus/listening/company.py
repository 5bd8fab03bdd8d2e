"""Trains the part of the network that says whose sound it is: `python3 company.py --data DATA --onnx piano.onnx --out OUT`.

The listener stays as the file has it, weight for weight: the trained part is joined to the file's own graph. DATA holds
what pianos.py and others.py wrote. Writes OUT/piano.onnx and OUT/company.pt; with `--held OUT/company.pt` OUT/company.json, the
figures of recordings of pianos and others, those of the training and those that it never had, through new rooms. `--held`
and `--resume` also take a file of the program, of which they read the part that was joined.

What is to be said of a frame are shares of power in the half second around, after a first difference that weighs
sound about as an ear does: of the piano, other instruments, voices, drums; and whether nothing sounds.
"""
import argparse
import json
import multiprocessing
import pathlib
import time

BEGAN = time.time()
import numpy as np
import onnx
import torch
from onnx import compose, helper
from torch.nn import functional

import measure
import mix
import music
import pianistic
import plucked
import rooms
import singing
import train
import weights
import worn
from network import BANDS, COMPANY, Company, Listener

NOTHING = COMPANY.index("nothing")
# Who plays in a clip: share of clips, whether there is a piano, and the others' level against it in dB (of each other without it).
SCENES = (
    (0.36, True, None), (0.10, True, (-30, -14)), (0.17, True, (-12, 12)), (0.35, False, (-6, 6)), (0.02, False, None),
)
# Of the others: instruments, a band with drums, a band without, voices, drums. In a scene one or two of these.
OTHERS = (0.46, 0.16, 0.08, 0.22, 0.08)
SMOOTH = 51  # frames


def arguments():
    parser = argparse.ArgumentParser()
    for name, kind, default in (
        ("data", str, ".listen"), ("onnx", str, "piano.onnx"), ("out", str, "out"), ("seconds", float, 400), ("clips", int, 96), ("rate", float, 2e-3),
        ("invented", int, 240), ("streams", int, 2500), ("rooms", int, 300), ("voices", int, 60), ("seed", int, 41), ("workers", int, 14),
        ("steps", int, 10**9), ("each", int, 6), ("compile", int, 0), ("most", int, 14), ("held", str, ""), ("plucked", int, 0), ("harder", int, 0), ("resume", str, ""), ("guitars", float, 1),
    ):
        parser.add_argument(f"--{name}", type=kind, default=default)
    return parser.parse_args()


def lines(seed):
    """A single line, at times slow, as a stream."""
    r = np.random.default_rng(seed)
    slow = r.choice([1.0, 1.6, 2.6])
    rows = [(on * slow, up * slow, p, v) for on, up, p, v in music.line(r, 24.0 / slow)]
    return music.sound_of(rows, []), np.zeros((0, 2), np.float32)


def folded(rows, low, high):
    """Notes moved by octaves until an instrument can play them."""
    pitch = rows[:, 3]
    shift = np.round(((low + high) / 2 - np.median(pitch)) / 12) * 12
    pitch = pitch + shift
    pitch = np.where(pitch < low - 3, pitch + 12 * np.ceil((low - 3 - pitch) / 12), pitch)
    pitch = np.where(pitch > high + 3, pitch - 12 * np.ceil((pitch - high - 3) / 12), pitch)
    out = rows.copy()
    out[:, 3] = pitch
    return out


def players_of_clips(r, streams, single, bank, clips, shares=None):
    """Notes of one to four instruments in each clip, as mix.notes_of_clips gives them."""
    out = []
    for clip in range(clips):
        for _ in range(int(r.choice([1, 2, 3, 4], p=[0.55, 0.25, 0.12, 0.08]))):
            index = int(r.choice(len(bank.pianos), p=shares))
            pitches = bank.pianos[index][0]
            alike = shares is not None and shares[index] > 1 / len(shares)  # what is plucked also plays what a piano plays
            rows, _ = (single if r.random() < (0.35 if alike else 0.65) else streams)[int(r.integers(len(single)))]
            if len(rows) < 2:
                continue
            rows = folded(rows, pitches[0], pitches[-1])
            start = r.uniform(-1, max(0.5, rows[-1, 0] - 4))
            on, damp = rows[:, 0] - start, rows[:, 2] - start
            kept = (on > -mix.LEAD / mix.RATE + 0.02) & (on < mix.CLIP / mix.RATE)
            on, damp, pitch, velocity = on[kept], damp[kept], rows[kept, 3].astype(int), rows[kept, 4]
            row = bank.pick(index, pitch, velocity, np.full(len(pitch), int(np.clip(r.normal(0, 1.5), -3, 3))), r)
            ratio = 2 ** ((pitch - row[:, 2] + r.normal(0, 15) / 100) / 12)
            gain = r.uniform(0.3, 1) * (velocity / 90) ** r.uniform(0.5, 1.7)
            damping = np.full(len(pitch), 10 ** r.uniform(-1.9, -0.8))
            out.append(np.stack([np.full(len(pitch), clip), on * mix.RATE, damp * mix.RATE, pitch, velocity, row[:, 0], row[:, 1], ratio, gain, damping], 1))
    return np.concatenate(out) if out else np.zeros((0, 10))


def scenes_of_clips(r, clips):
    """[clips, 6] gains of piano, instruments, the band's players, its drums, voices, talk; zeros for who is not there."""
    gains = np.zeros((clips, 6), np.float32)
    shares = np.array([s[0] for s in SCENES])
    for row in gains:
        _, piano, level = SCENES[int(r.choice(len(SCENES), p=shares / shares.sum()))]
        row[0] = piano
        if level is None:
            continue
        for kind in r.choice(5, size=1 if r.random() < 0.75 else 2, replace=False, p=OTHERS):
            loud = 10 ** (r.uniform(*level) / 20)
            if kind == 0:
                row[1] = loud
            elif kind in (1, 2):
                row[2] = loud
                row[3] = loud * 10 ** (r.uniform(-12, 6) / 20) if kind == 1 else 0
            elif kind == 3:
                row[4 + int(r.random() < 0.35)] = loud
            else:
                row[3] = loud
    return gains


# General MIDI programs that are plucked or struck and die away as a piano does.
GUITARS = range(24, 29)
PLUCKED = (*range(8, 16), *range(24, 29), 45, 46, *range(104, 109), 114)


def shares_of_others(names, invented, guitars=1.0):
    """What is most like a piano is met most: a third of the notes of instruments plucked, a quarter those invented.

    `guitars` is how much oftener guitars without distortion are met than others that are plucked.
    """
    if not invented:
        return None
    alike = np.array([int(name.split()[-1]) in PLUCKED for name in names])
    weight = alike * np.where([int(name.split()[-1]) in GUITARS for name in names], guitars, 1.0)
    shares = np.where(alike, 0.35 * weight / weight.sum(), 0.4 / (~alike).sum())
    shares = np.concatenate([shares, np.full(invented, 0.25 / invented)])
    return shares / shares.sum()


def produce(queue, seed, streams, single, bank, others, shares, clips, wear):
    r = np.random.default_rng(seed)
    others, shares_others = others
    while True:
        queue.put((
            mix.notes_of_clips(r, streams, bank, shares, clips, wear=wear),
            players_of_clips(r, streams, single, others, clips, shares_others), scenes_of_clips(r, clips),
        ))


def weighed(sound):
    return torch.nn.functional.pad(sound[:, 1:] - 0.95 * sound[:, :-1], (1, 0))


class Scene:
    """Draws what sounds: [clips, LENGTH] of sound and the shares that are to be said of it."""

    def __init__(self, options, device):
        g = torch.Generator().manual_seed(options.seed)
        self.device, self.generator = device, g
        self.bank, self.others = mix.Bank(device), mix.Bank(device)
        names = self.bank.add_file(f"{options.data}/train.npz")
        first = options.seed * 10**6
        self.bank.add_invented(range(first, first + options.invented), 0.4 if options.harder else 0.0)
        if options.harder:
            worn.add_grains(self.bank, options.seed, f"{options.data}/releases.npz")
        self.bank.close()
        self.shares = train.piano_shares(names, options.invented)
        self.shares_others = shares_of_others(self.others.add_file(f"{options.data}/others.npz"), options.plucked, options.guitars)
        for seed in range(first, first + options.plucked):
            self.others.add(plucked.render_instrument(seed, device))
        self.others.close()
        held = np.load(f"{options.data}/bands-parts.npz")
        self.band = [torch.from_numpy(held[name]).to(device) for name in ("players", "drums")]
        self.sung = singing.voices(g, device, options.voices)
        self.said = torch.stack([rooms.voice(g, device, 10) for _ in range(max(2, options.voices // 3))])

    def windows(self, pool, clips):
        """Rows of a pool from any moment on, around its end; the same for each part of a tuple of pools."""
        row = torch.randint(len(pool[0]), (clips,), generator=self.generator).to(self.device)
        start = torch.randint(pool[0].shape[1], (clips,), generator=self.generator).to(self.device)
        at = (start[:, None] + torch.arange(mix.LENGTH, device=self.device)[None]) % pool[0].shape[1]
        return [one[row].float().gather(1, at) for one in pool]

    def __call__(self, drawn):
        (notes, pedals), played, gains = drawn
        clips = len(gains)
        parts = [mix.lay(self.bank, notes, clips), mix.lay(self.others, played, clips)]
        parts += self.windows(self.band, clips) + self.windows([self.sung], clips) + self.windows([self.said], clips)
        parts = torch.stack(parts)
        loud = torch.stack([weighed(part).square().mean(1).sqrt() for part in parts])
        gains = torch.from_numpy(gains.T.copy()).to(self.device)
        parts = parts * (gains / (loud + 1e-5))[:, :, None]
        return parts.sum(0), shares_of(parts), torch.from_numpy(pedals).to(self.device)[:, :, None]


def shares_of(parts):
    """[6, clips, LENGTH] to [clips, FRAMES, COMPANY]."""
    power = torch.stack([weighed(part)[:, mix.LEAD :].view(part.shape[0], mix.FRAMES, -1).square().mean(2) for part in parts])
    power = torch.stack([power[0], power[1] + power[2], power[4] + power[5], power[3]])
    smooth = functional.avg_pool1d(power, SMOOTH, 1, SMOOTH // 2, count_include_pad=False)
    whole = smooth.sum(0)
    loudest = whole.amax(1, keepdim=True)
    below = -10 * torch.log10(whole / (loudest + 1e-12) + 1e-9)
    nothing = ((below - 38) / 12).clamp(0, 1)
    nothing = torch.where(loudest < 1e-7, torch.ones_like(nothing), nothing)
    shares = smooth / (whole + 1e-12) * (1 - nothing)
    return torch.cat([shares, nothing[None]]).permute(1, 2, 0)


def said_of(listener, company, spectra):
    with torch.no_grad():
        x, heard = listener.around(spectra)
    return company(spectra, x, heard)


def main():
    options = arguments()
    out = pathlib.Path(options.out)
    out.mkdir(parents=True, exist_ok=True)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.manual_seed(options.seed)
    torch.backends.cudnn.benchmark = True

    def log(*words):
        line = f"{time.time() - BEGAN:6.1f} s  " + " ".join(str(w) for w in words)
        print(line, flush=True)
        with open(out / "log.txt", "a") as file:
            file.write(line + "\n")

    listener = Listener(late=weights.has_late(options.onnx)).to(device)
    steady = torch.rand(2, 300, BANDS, device=device)
    weights.restore(listener, options.onnx, lambda: steady, 1)
    listener.eval()
    company = Company().to(device)
    if options.held:  # trained before: its figures only
        opened(company, options.held, device, lambda: (steady, *listener.around(steady)), 1)
        figures = figures_of(options, listener, company.eval(), device, log)
        (out / "company.json").write_text(json.dumps(figures) + "\n")
        return
    seeds = range(options.seed * 10**6, options.seed * 10**6 + options.streams)
    with multiprocessing.Pool(options.workers) as pool:
        streams = [s for s in pool.map(pianistic.stream if options.harder else music.stream, seeds, chunksize=50) if len(s[0]) > 3]
        single = [s for s in pool.map(lines, seeds, chunksize=50) if len(s[0]) > 3]
    scene = Scene(options, device)
    log(len(streams), "streams", len(scene.bank.pianos), "pianos", len(scene.others.pianos), "others")
    surroundings = train.SURROUNDINGS[options.harder](options.seed * 100, device, options.rooms, 20)
    hearing = mix.Spectrum(device)
    queue = multiprocessing.Queue(24)
    few = streams[: min(len(streams), len(single))]
    workers = [
        multiprocessing.Process(
            target=produce, daemon=True,
            args=(queue, options.seed * 1000 + i, few, single[: len(few)], train.Index(scene.bank), (train.Index(scene.others), scene.shares_others), scene.shares, options.clips, train.wear_of(options)),
        )
        for i in range(options.workers)
    ]
    for worker in workers:
        worker.start()
    if options.resume:  # trained before, perhaps on another network's features

        @torch.no_grad()
        def clips():
            dry, _, pedal = scene(queue.get())
            spectra = hearing(surroundings(dry, pedal))
            return spectra, *listener.around(spectra)

        opened(company, options.resume, device, clips, 12)
    log("ready;", sum(p.numel() for p in company.parameters()), "weights")
    learn(options, scene, surroundings, hearing, queue, listener, company, log)
    for worker in workers:
        worker.terminate()
    company.eval()
    torch.save(company.state_dict(), out / "company.pt")
    joined(options.onnx, company.cpu(), out / "piano.onnx")
    log("done")


def opened(company, path, device, heard, count):
    """Fills the part from a file of its own or from one that the program uses; `heard()` gives what it is given."""
    if path.endswith(".onnx"):
        weights.restore_company(company, path, heard, count)
    else:
        company.load_state_dict(torch.load(path, map_location=device, weights_only=True))


def learn(options, scene, surroundings, hearing, queue, listener, company, log):
    device = scene.device
    optimizer = torch.optim.AdamW(company.parameters(), lr=options.rate, weight_decay=0.01)
    began, told, steps, total, average = time.time(), time.time(), 0, 0.0, None
    while steps < options.steps and time.time() - BEGAN < options.seconds:
        part = max((time.time() - began) / max(1, options.seconds - (began - BEGAN)), steps / options.steps)
        for group in optimizer.param_groups:
            group["lr"] = options.rate * min(1, (steps + 1) / 100) * max(0.01, min(1, (1 - part) / 0.6))
        with torch.no_grad():
            dry, wanted, pedal = scene(queue.get())
            spectra = hearing(surroundings(dry, pedal))
        company.train()
        with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda"):
            said = said_of(listener, company, spectra)
        loss = -(wanted * functional.log_softmax(said.float(), 2)).sum(2).mean()
        optimizer.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(company.parameters(), 5.0)
        optimizer.step()
        steps += 1
        total += float(loss.detach()) if steps % 5 == 0 else 0
        if time.time() - told > 15 or steps == options.steps:
            least = float(-(wanted * torch.log(wanted + 1e-6)).sum(2).mean())
            log(f"step {steps}, loss {total / max(1, steps // 5 - getattr(learn, 'last', 0)):.4f} (this one's least {least:.4f}), queue {queue.qsize()}")
            learn.last = steps // 5
            told, total = time.time(), 0.0


def joined(path, company, to):
    """The file's graph with one more output, `company`; the listener stays byte for byte, what was joined before goes."""
    whole = onnx.load(path)
    graph = whole.graph
    for field in ("node", "initializer"):
        kept = [one for one in getattr(graph, field) if not one.name.startswith("company/")]
        del getattr(graph, field)[:]
        getattr(graph, field).extend(kept)
    outputs = [one for one in graph.output if one.name != "company"]
    del graph.output[:]
    graph.output.extend(outputs)
    by_output = {name: node for node in graph.node for name in node.output}

    def fed(part):
        return next(n for n in graph.node if n.op_type in ("MatMul", "Gemm", "Conv") and f"/{part}/" in n.name).input[0]

    late = next((n for n in graph.node if n.op_type == "Conv" and "/join/" in n.name), None)
    if late is None:
        keys = by_output[fed("heads/heads.0")].input[0]
    else:  # what the listener made of each key before they begin
        sums = next(n for n in graph.node if n.op_type == "Add" and late.output[0] in n.input)
        keys = next(name for name in sums.input if name != late.output[0])
    heard = fed("back")
    file = pathlib.Path(to).with_name("company.onnx")

    class Named(torch.nn.Module):
        def __init__(self):
            super().__init__()
            self.company = company

        def forward(self, bands, keys, heard):
            return torch.softmax(self.company(bands, keys, heard), 2)

    names = ["company_bands", "company_keys", "company_heard"]
    example = (torch.zeros(1, 200, BANDS), torch.zeros(1, 80, 200, 88), torch.zeros(1, 200, 320))
    axes = {names[0]: {1: "frames"}, names[1]: {2: "frames"}, names[2]: {1: "frames"}, "company": {1: "frames"}}
    torch.onnx.export(Named().eval(), example, str(file), input_names=names, output_names=["company"], opset_version=17, dynamic_axes=axes, dynamo=False)
    part = onnx.load(file)
    prefixed = compose.add_prefix_graph(part.graph, "company/", rename_inputs=False, rename_outputs=False)
    sources = dict(zip(names, ("spectrum", keys, heard)))
    for node in prefixed.node:
        for i, name in enumerate(node.input):
            node.input[i] = sources.get(name, name)
    graph.node.extend(prefixed.node)
    graph.initializer.extend(prefixed.initializer)
    graph.output.append(helper.make_tensor_value_info("company", onnx.TensorProto.FLOAT, [1, "frames", len(COMPANY)]))
    onnx.checker.check_model(whole)
    onnx.save(whole, to)


@torch.no_grad()
def heard_shares(listener, company, hearing, sound, device):
    """Shares of the whole recording: each frame counts as far as anything sounds in it."""
    spectra = hearing(torch.from_numpy((sound / (np.abs(sound).max() + 1e-9) * 0.5).astype(np.float32)).to(device)[None])
    out = []
    for start in range(0, spectra.shape[1], 300):
        low = max(0, start - 50)
        said = torch.softmax(said_of(listener, company, spectra[:, low : start + 350]).float(), 2)
        out.append(said[0, start - low : start - low + 300])
    said = torch.cat(out).mean(0).cpu().numpy()
    return [round(float(v), 4) for v in said[:NOTHING] / (said[:NOTHING].sum() + 1e-6)] + [round(float(said[NOTHING]), 4)]


def single_bank(path, name, device):
    bank = mix.Bank(device)
    bank.add_file(path, only=(name,))
    bank.close()
    return bank


def rms(sound):
    return float(np.sqrt(np.mean(np.diff(sound) ** 2))) + 1e-9


def mixed(parts):
    """Sounds with their levels in dB, cut to the shortest."""
    size = min(len(sound) for sound, _ in parts)
    return sum(sound[:size] / rms(sound[:size]) * 10 ** (level / 20) for sound, level in parts)


def figures_of(options, listener, company, device, log):
    """Rows [kind, name, way, shares...] of recordings of 24 s: held out, and (for choosing where to refuse) as in training."""
    hearing, rows = mix.Spectrum(device), []
    for held in (False, True):
        torch.manual_seed(6060 + held)
        surroundings = mix.Surroundings(606060 + held, device, count=60, voices=6)
        mark = "-held" if held else ""
        pianos_at = f"{options.data}/{'test' if held else 'train'}.npz"
        names = [n for n in np.load(pianos_at)["names"]]
        pianos = [single_bank(pianos_at, n, device) for n in names]
        rest = f"{options.data}/others{mark}.npz"
        others = [(str(n), single_bank(rest, n, device)) for n in np.load(rest)["names"][:: 1 if held else 5]]
        parts = np.load(f"{options.data}/bands-parts{mark}.npz")
        g = torch.Generator().manual_seed(70707 + held)
        sung = singing.voices(g, device, 12, 20).cpu().numpy()
        said = torch.stack([rooms.voice(g, device, 20) for _ in range(6)]).cpu().numpy()
        seed = [8 * 10**8 + held * 10**7]

        def next_seed():
            seed[0] += 1
            return seed[0]

        def play(bank, folding=None, stream=None):
            rows_, pedal = (stream or music.stream)(next_seed())
            while len(rows_) < 8:
                rows_, pedal = (stream or music.stream)(next_seed())
            rows_ = folded(rows_, *folding) if folding else rows_
            notes = [(float(a), float(b - a), int(p), float(v)) for a, b, _, p, v in rows_]
            return measure.laid(notes, bank, [tuple(map(float, p)) for p in pedal])

        def add(kind, name, sound):
            for way in ("direct", "phone"):
                put = sound / np.abs(sound).max() * 0.5 if way == "direct" else measure.through(sound.astype(np.float32), surroundings)
                rows.append([held, kind, name, way, *heard_shares(listener, company, hearing, put, device)])

        def loop(i, which):
            whole = np.concatenate([parts[which][i]] * 3).astype(np.float32) / 127
            return whole

        for i in range(options.each * (4 if held else 1)):
            for name, bank in zip(names, pianos):
                add("piano", str(name), play(bank))
        for name, bank in others:
            folding = (bank.pianos[0][0][0], bank.pianos[0][0][-1])
            add("instrument", name, play(bank, folding, lines))
            add("instrument", name, play(bank, folding))
            p = pianos[next_seed() % len(pianos)]
            add("piano with instrument 0 dB", name, mixed([(play(p), 0), (play(bank, folding, lines), 0)]))
        for i in range(min(len(parts["drums"]), options.most)):
            p, name = pianos[i % len(pianos)], str(names[i % len(pianos)])
            band = loop(i, "players") + loop(i, "drums")
            add("band", str(i), band)
            for level in (6, 0, -6, -12, -18, -24):
                add(f"piano with band {level} dB", name, mixed([(play(p), 0), (band, level)]))
            if rms(loop(i, "drums")) > 1e-5:
                add("drums", str(i), loop(i, "drums"))
        for i in range(min(len(sung), options.most)):
            p, name = pianos[i % len(pianos)], str(names[i % len(pianos)])
            add("singing", str(i), sung[i])
            add("talking", str(i), said[i % len(said)])
            for level in (0, -6, -12, -18, -24):
                add(f"piano with singing {level} dB", name, mixed([(play(p), 0), (sung[i], level)]))
                add(f"piano with talking {level} dB", name, mixed([(play(p), 0), (said[i % len(said)], level)]))
        tell(rows, held, log)
    return rows


def tell(rows, held, log):
    kinds = {}
    for row in rows:
        if row[0] == held:
            kinds.setdefault((row[1], row[3]), []).append(row[4:])
    for (kind, way), values in kinds.items():
        v = np.array(values)
        q = np.quantile(v[:, 0], [0, 0.01, 0.05, 0.5, 0.95, 0.99, 1])
        log(f"{'held' if held else 'as in training'}: {kind}, {way}: {len(v)}; piano's share " + " ".join(f"{x:.3f}" for x in q) + "; means " + " ".join(f"{x:.2f}" for x in v.mean(0)))


if __name__ == "__main__":
    main()
