"""Trains the listener on the device for a given time: `python3 train.py --data .listen --out OUT --seconds 560`.

With several GPUs: `torchrun --nproc_per_node 2 train.py ...`. Writes OUT/state.pt (averaged weights, weights, optimizer),
OUT/piano.onnx and OUT/log.txt; `--resume FOLDER` goes on from what lies there. `--decay` is the share of the time in which the rate of learning
falls to nothing.
"""
import argparse
import copy
import functools
import json
import multiprocessing
import os
import pathlib
import time

BEGAN = time.time()
import numpy as np
import torch
from torch.nn import functional

import decode
import harder
import mix
import music
import pianistic
import resonance
import weights
import worn
from network import Listener, export

WEIGHTS = {"onset": 88.0, "sounding": 26.0, "loudness": 1.0, "offset": 18.0, "pedal": 0.1}
# Recorded pianos by name; the others share the rest. Electric ones are rare among students' recordings.
SHARES = {
    "layered grand": 6, "fluid grand": 2, "tine piano": 0.4, "fluid electric grand": 0.8, "general grand": 3, "general bright grand": 1.5,
}
RECORDED = 0.55
# By `--harder`: 1 is that of runs 5 to 7, 2 of run 8.
SURROUNDINGS = (mix.Surroundings, harder.Surroundings, resonance.Surroundings)


def arguments():
    parser = argparse.ArgumentParser()
    for name, kind, default in (
        ("data", str, ".listen"), ("out", str, "out"), ("seconds", float, 560), ("resume", str, ""), ("onnx", str, ""), ("clips", int, 64),
        ("rate", float, 2e-3), ("decay", float, 0.5), ("invented", int, 300), ("streams", int, 4000), ("seed", int, 1),
        ("rooms", int, 300), ("voices", int, 40), ("checks", int, 24), ("workers", int, 12), ("log_every", float, 20),
        ("check_every", float, 140), ("compile", int, 0), ("steps", int, 10**9), ("harder", int, 0), ("untouched", float, 0), ("late", int, 0),
    ):
        parser.add_argument(f"--{name}", type=kind, default=default)
    return parser.parse_args()


def all_streams(options, rank):
    """Streams by chance and given pieces, made by several processes."""
    seeds = range(options.seed * 10**6 + rank * 10**5, options.seed * 10**6 + rank * 10**5 + options.streams)
    given = [json.loads(line) for line in open(f"{options.data}/given.jsonl")] if options.streams >= 100 else []
    with multiprocessing.Pool(options.workers) as pool:
        made = pool.map(pianistic.stream if options.harder else music.stream, seeds, chunksize=50)
        played = pool.starmap(music.played, [(seeds[i] + k, notes) for k in range(2) for i, notes in enumerate(given)], chunksize=20)
    streams = [s for s in made if len(s[0]) > 3]
    # A given piece is minutes long: it counts for as many streams as it is long.
    for rows, pedal in played:
        streams += [(rows, pedal)] * max(1, int(rows[-1, 0] / 60))
    return streams


def piano_shares(names, invented):
    recorded = np.array([SHARES.get(n, 1.0) for n in names])
    shares = np.concatenate([RECORDED * recorded / recorded.sum(), np.full(invented, (1 - RECORDED) / max(1, invented))])
    return shares / shares.sum()


def wear_of(options):
    """How pianos are worn, or None."""
    return functools.partial(worn.wear, restrikes=0.5 if options.harder > 1 else 0.0) if options.harder else None


def produce(queue, seed, streams, bank, shares, clips, wear):
    r = np.random.default_rng(seed)
    while True:
        queue.put(mix.notes_of_clips(r, streams, bank, shares, clips, wear=wear))


class Index:
    """What of a bank the processes need that draw notes: no sound."""

    def __init__(self, bank):
        self.rows, self.pianos, self.grains = bank.rows, bank.pianos, bank.grains

    pick = mix.Bank.pick


def some_untouched(heard, dry, share):
    """A share of clips as if the strings stood in the file: no room, microphone or noise, any level."""
    plain = dry[:, mix.LEAD : mix.LENGTH]
    plain = plain / (plain.abs().amax(1, keepdim=True) + 1e-4) * 10 ** (-1.5 * torch.rand(len(dry), 1, device=dry.device))
    return torch.where(torch.rand(len(dry), 1, device=dry.device) < share, plain, heard)


def fastest(bank, queue, clips, log):
    """Laying notes as one compiled step where that is faster, else step by step."""
    if bank.device.type != "cuda":
        return mix.add_notes
    notes, _ = queue.get()
    took = {}
    for name, add in (("compiled", torch.compile(mix.add_notes, dynamic=True)), ("plain", mix.add_notes)):
        try:
            mix.lay(bank, notes, clips, add)
            torch.cuda.synchronize()
            began = time.time()
            sound = mix.lay(bank, notes, clips, add)
            torch.cuda.synchronize()
            took[add] = time.time() - began
            log(f"laying {name}: {took[add] * 1e3:.1f} ms, loudness {float(sound.square().mean()):.6f}")
        except Exception as problem:
            log(f"laying {name}: {type(problem).__name__} {str(problem)[:200]}")
    return min(took, key=took.get)


def losses(keys, pedal_said, wanted):
    onset, sounding, loudness, offset, pedal = wanted
    said = keys.float()
    bce = functional.binary_cross_entropy_with_logits
    near = (loudness > 0).float()
    loud = (torch.sigmoid(said[:, 2]) - loudness).square() * near
    return {
        "onset": bce(said[:, 0], onset), "sounding": bce(said[:, 1], sounding), "offset": bce(said[:, 3], offset),
        "loudness": loud.sum() / near.sum().clamp(min=1) * 10, "pedal": bce(pedal_said.float(), pedal),
    }


class Check:
    """Pianos that are never trained on, dry and through rooms and phones: always the same clips."""

    def __init__(self, options, device):
        self.hearing = mix.Spectrum(device)
        surroundings = mix.Surroundings(99, device, count=min(60, options.rooms), voices=min(8, options.voices))
        streams = [music.stream(9 * 10**8 + i) for i in range(options.checks * 2)]
        streams = [s for s in streams if len(s[0]) > 3]
        self.sets = []
        for name in ("grand", "upright", "patch grand"):
            bank = mix.Bank(device)
            bank.add_file(f"{options.data}/test.npz", only=(name,))
            bank.close()
            notes, pedals = mix.notes_of_clips(np.random.default_rng(5), streams, bank, np.ones(1), options.checks, plain=True)
            dry, wanted = mix.lay(bank, notes, options.checks), mix.targets(notes, pedals, options.checks, device)
            true = []
            for clip in range(options.checks):
                rows = notes[(notes[:, 0] == clip) & (notes[:, 1] >= 0)]
                true.append([(float(n[1]) / mix.RATE, int(n[3])) for n in rows])
            for kind, hard in (("direct", 0.0), ("phone", 1.0)):
                self.sets.append((f"{name} {kind}", self.hearing(surroundings(dry, wanted[4], hard)).cpu(), true))

    @torch.no_grad()
    def __call__(self, listener, device):
        listener.eval()
        words = []
        for name, spectra, true in self.sets:
            with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda"):
                said = torch.cat([torch.sigmoid(listener(s.to(device))[0][:, 0].float()) for s in spectra.split(12)]).cpu().numpy()
            best = [decode.score([(decode.notes_from(o, th), t) for o, t in zip(said, true)]) for th in (0.3, 0.45)]
            words.append(f"{name} F {best[0][2]:.3f} {best[1][2]:.3f} (P {best[1][0]:.3f} R {best[1][1]:.3f})")
        return "; ".join(words)


def parallel():
    """Rank, world and device; joins the others when started by torchrun."""
    world = int(os.environ.get("WORLD_SIZE", 1))
    rank = int(os.environ.get("LOCAL_RANK", 0))
    device = torch.device(f"cuda:{rank}" if torch.cuda.is_available() else "cpu")
    if device.type == "cuda":
        torch.cuda.set_device(device)
        torch.backends.cudnn.benchmark = True
    if world > 1:
        torch.distributed.init_process_group("nccl" if device.type == "cuda" else "gloo")
    return rank, world, device


def save(options, listener, average, optimizer, steps):
    out = pathlib.Path(options.out)
    torch.save({"average": average.state_dict(), "weights": listener.state_dict(), "steps": steps}, out / "state.pt")
    torch.save(optimizer.state_dict(), out / "optimizer.pt")
    alone = Listener(late=options.late > 0)
    alone.load_state_dict(average.state_dict())
    export(alone.eval(), out / "piano.onnx")


def main():
    options = arguments()
    rank, world, device = parallel()
    out = pathlib.Path(options.out)
    out.mkdir(parents=True, exist_ok=True)
    log_file = open(out / "log.txt", "a") if rank == 0 else None

    def log(*words):
        if rank == 0:
            line = f"{time.time() - BEGAN:6.1f} s  " + " ".join(str(w) for w in words)
            print(line, flush=True)
            log_file.write(line + "\n")
            log_file.flush()

    streams = all_streams(options, rank)
    log(len(streams), "streams")
    bank = mix.Bank(device)
    names = bank.add_file(f"{options.data}/train.npz")
    log("recorded pianos", len(names))
    first = options.seed * 10**6 + rank * 10**5
    bank.add_invented(range(first, first + options.invented), 0.4 if options.harder else 0.0)
    if options.harder:
        worn.add_grains(bank, options.seed, f"{options.data}/releases.npz")
    bank.close()
    shares = piano_shares(names, options.invented)
    log("invented pianos", options.invented)
    surroundings = SURROUNDINGS[options.harder](options.seed * 100 + rank, device, options.rooms, options.voices, f"{options.data}/bands.npz")
    hearing = mix.Spectrum(device)
    log("rooms and voices")
    queue = multiprocessing.Queue(24)
    workers = [
        multiprocessing.Process(target=produce, args=(queue, first + 7 * i, streams, Index(bank), shares, options.clips, wear_of(options)), daemon=True)
        for i in range(options.workers)
    ]
    for worker in workers:
        worker.start()

    torch.manual_seed(options.seed)
    listener = Listener(late=options.late > 0).to(device, memory_format=torch.channels_last)
    add = fastest(bank, queue, options.clips, log)

    @torch.no_grad()
    def make():
        notes, pedals = queue.get()
        dry = mix.lay(bank, notes, options.clips, add)
        wanted = mix.targets(notes, pedals, options.clips, device)
        heard = torch.nan_to_num(surroundings(dry, wanted[4])).clamp(-2, 2)
        return hearing(some_untouched(heard, dry, options.untouched)), wanted

    if options.onnx:
        weights.restore(listener, options.onnx, lambda: make()[0], 12)
        if rank == 0:  # for blend.py: the same network with the late steps that were added
            alone = Listener(late=options.late > 0)
            alone.load_state_dict(listener.state_dict())
            export(alone.eval(), out / "base.onnx")
    average = copy.deepcopy(listener)
    optimizer = torch.optim.AdamW(listener.parameters(), lr=options.rate, weight_decay=0.01, betas=(0.9, 0.99))
    steps = 0
    if options.resume:
        held = torch.load(f"{options.resume}/state.pt", map_location=device, weights_only=True)
        listener.load_state_dict(held["weights"])
        average.load_state_dict(held["average"])
        if os.path.exists(f"{options.resume}/optimizer.pt"):
            optimizer.load_state_dict(torch.load(f"{options.resume}/optimizer.pt", map_location=device, weights_only=True))
        steps = held["steps"]
    if options.compile:
        listener.compile()
    model = torch.nn.parallel.DistributedDataParallel(listener, device_ids=[rank]) if world > 1 else listener
    check = Check(options, device) if rank == 0 else None
    log("ready;", sum(p.numel() for p in listener.parameters()), "weights")
    if rank == 0 and (options.onnx or options.resume):
        log("before", check(average, device))
    train(options, device, world, rank, log, queue, make, model, listener, average, optimizer, check, steps)
    for worker in workers:
        worker.terminate()
    if world > 1:
        torch.distributed.destroy_process_group()


def train(options, device, world, rank, log, queue, clips, model, listener, average, optimizer, check, steps):
    start, told, checked, sums, first = time.time(), time.time(), time.time(), {}, steps
    keep = options.seconds - 25  # the end is for checking and writing
    state = torch.zeros(2, device=device)
    part = 0.0
    while True:
        if (steps - first) % 10 == 0:
            now = time.time() - BEGAN
            state[0] = (now - (start - BEGAN)) / max(1, keep - (start - BEGAN))
            state[1] = float(now > keep or steps - first >= options.steps)
            if world > 1:
                torch.distributed.broadcast(state, 0)
            part, stop = state.tolist()
            if stop:
                break
        warm = min(1, (steps - first + 1) / 300)
        fall = min(1, max(0.005, (1 - part) / options.decay))
        for group in optimizer.param_groups:
            group["lr"] = options.rate * warm * fall
        spectra, wanted = clips()
        model.train()
        with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda"):
            keys, pedal = model(spectra)
        parts = losses(keys, pedal, wanted)
        loss = sum(WEIGHTS[k] * v for k, v in parts.items())
        optimizer.zero_grad(set_to_none=True)
        loss.backward()
        size = torch.nn.utils.clip_grad_norm_(listener.parameters(), 5.0)
        for p in listener.parameters():  # a step without a size is none, on every GPU alike
            p.grad = torch.where(torch.isfinite(size), p.grad, torch.zeros_like(p.grad))
        optimizer.step()
        steps += 1
        with torch.no_grad():
            hold = min(0.999, steps / (steps + 20))
            for a, b in zip(average.parameters(), listener.parameters()):
                a.lerp_(b, 1 - hold)
            for a, b in zip(average.buffers(), listener.buffers()):
                a.copy_(b) if a.dtype == torch.long else a.lerp_(b, 1 - hold)
        for k, v in parts.items():
            sums[k] = sums.get(k, 0) + v.detach()
        if rank == 0 and time.time() - told > options.log_every:
            count = sums.pop("count", 0) or 1
            made = (steps - getattr(train, "last", first)) / (time.time() - told)
            train.last = steps
            log(f"step {steps} ({made:.2f} a second, queue {queue.qsize()})", " ".join(f"{k} {float(v) / max(1, made * (time.time() - told)):.4f}" for k, v in sums.items() if k != "count"))
            told, sums = time.time(), {}
        if rank == 0 and time.time() - checked > options.check_every:
            log("check", check(average, device))
            save(options, listener, average, optimizer, steps)
            checked = time.time()
    if rank == 0:
        log("end", steps, check(average, device))
        save(options, listener, average, optimizer, steps)


if __name__ == "__main__":
    main()
