"""Weights read back from the file that the program uses, so that training goes on where the kept state is lost.

In the file each convolution has taken its normalisation in. Its measures are made anew: while clips go through, every
normalisation passes on what it gets with the file's bias and notes mean and variance; these become its own, with the
scale and shift that undo them. The network then says what the file says, and can be trained.
"""
import onnx
import torch
from onnx import numpy_helper
from torch import nn

from network import PARTIALS, Listener


def convolutions(listener, late):
    """(convolution, its normalisation or None) in the order in which the network runs them, with the late steps or without."""
    def of(stage):
        return (stage[0], stage[1])

    out = [of(listener.front[0]), of(listener.front[1]), of(listener.semitone)]
    out += [of(part) for part in listener.slow or ()] + [of(listener.gather)]
    def of_parts(parts):
        for part in parts:
            if hasattr(part, "narrow"):
                yield from (of(part.narrow), of(part.mix))
            else:
                yield from ((part.time, part.norm), (part.mix, part.norm_out))

    out += [*of_parts([*listener.near, *listener.far]), of(listener.all_keys)]
    if late:
        out += [(listener.join, None), *of_parts(listener.late)]
    return [*out, (listener.heads[0], None), (listener.heads[2], None)]


def recurrent(module, held, node, layer):
    """ONNX orders the gates update, reset, new; PyTorch reset, update, new."""
    w, r, b = [held[name] for name in node.input[1:4]]
    size = r.shape[2]

    def turned(x):
        return torch.cat([x[size : 2 * size], x[:size], x[2 * size :]])

    for direction, end in ((0, ""), (1, "_reverse")):
        for name, value in (("weight_ih", w[direction]), ("weight_hh", r[direction]),
                            ("bias_ih", b[direction][: 3 * size]), ("bias_hh", b[direction][3 * size :])):
            getattr(module, f"{name}_l{layer}{end}").copy_(turned(value))


def held_in(graph):
    """Every weight of a graph by name as float32, those that are kept in half as many bytes too (half.py)."""
    held = {i.name: torch.from_numpy(numpy_helper.to_array(i).copy()) for i in graph.initializer}
    for node in graph.node:
        if node.op_type == "Constant":
            held[node.output[0]] = torch.from_numpy(numpy_helper.to_array(node.attribute[0].t).copy())
        elif node.op_type == "Cast" and node.input[0] in held:
            held[node.output[0]] = held[node.input[0]].float()
        elif node.op_type == "Identity" and node.input[0] in held:
            held[node.output[0]] = held[node.input[0]]
    return held


def listener_of(path):
    """A listener of the shape that a file's network has."""
    graph = onnx.load(path).graph
    held = held_in(graph)

    def first(kind, part):
        return next((n for n in graph.node if n.op_type == kind and f"/{part}/" in n.name), None)

    strings, music, slow = first("GRU", "strings"), first("GRU", "music"), first("Conv", "slow/slow.2")
    return Listener(
        around=2 * held[music.input[2]].shape[2], late=first("Conv", "late") is not None,
        strings=held[strings.input[2]].shape[2] if strings else 0, slow=len(held[slow.input[1]]) if slow else 0,
    )


@torch.no_grad()
def widen(small, wide):
    """Fills a wider listener so that it says what the smaller one says: what is new is drawn by chance and passed on to nothing old.

    Both have the same parts, but for those that begin idle by themselves (`strings`).
    """
    old = {**dict(small.named_parameters()), **dict(small.named_buffers())}
    for name, tensor in [*wide.named_parameters(), *wide.named_buffers()]:
        before = old.get(name)
        if before is None:
            continue
        if name.startswith("gather.0") and before.shape != tensor.shape:
            places = len(PARTIALS)
            parts, had = tensor.view(len(tensor), places, -1), before.view(len(before), places, -1)
            parts *= 0
            parts[:, :, : had.shape[2]] = had
        elif name.startswith("music.") and before.shape != tensor.shape:
            widen_recurrent(name, before, tensor)
        elif before.shape == tensor.shape:
            tensor.copy_(before)
        else:
            corner = tuple(slice(n) for n in before.shape)
            if name.startswith(("back.", "pedal.")):  # reads both directions, each wider than it was
                tensor *= 0
                half, was = tensor.shape[1] // 2, before.shape[1] // 2
                tensor[:, :was], tensor[:, half : half + was] = before[:, :was], before[:, was:]
            else:
                tensor[corner] = before


def widen_recurrent(name, before, tensor):
    """Gate by gate: old units read old ones alone, new ones read everything."""
    size, was = len(tensor) // 3, len(before) // 3
    for gate in range(3):
        to, had = tensor[gate * size : gate * size + was], before[gate * was : (gate + 1) * was]
        if before.dim() == 1:
            to.copy_(had)
            continue
        to *= 0
        if "weight_ih_l1" in name:
            half, old = to.shape[1] // 2, had.shape[1] // 2
            to[:, :old], to[:, half : half + old] = had[:, :old], had[:, old:]
        else:
            to[:, : had.shape[1]] = had


@torch.no_grad()
def restore(listener, path, clips, count):
    """Fills the listener; `clips()` gives spectra as in training, of which `count` batches are measured."""
    graph = onnx.load(path).graph
    # The part that says whose sound it is was joined later (company.py) and is none of the listener's.
    own = [node for node in graph.node if not node.name.startswith("company/")]
    device = next(listener.parameters()).device
    held = {k: v.to(device) for k, v in held_in(graph).items()}
    nodes = [n for n in own if n.op_type == "Conv"]
    pairs = convolutions(listener, any("/late/" in n.name for n in nodes))
    assert len(nodes) == len(pairs), (len(nodes), len(pairs))
    shifts = {}
    for node, (convolution, norm) in zip(nodes, pairs):
        convolution.weight.copy_(held[node.input[1]])
        if norm is None:
            convolution.bias.copy_(held[node.input[2]])
        else:
            shifts[norm] = held[node.input[2]]
    for layer, node in enumerate(n for n in own if n.op_type == "GRU" and "/music/" in n.name):
        recurrent(listener.music, held, node, layer)
    modules = {name: getattr(listener, name) for name in ("shrink", "back", "pedal")}
    if listener.strings is not None:
        recurrent(listener.strings.along, held, next(n for n in own if n.op_type == "GRU" and "/strings/" in n.name), 0)
        modules["strings/out"] = listener.strings.out
    for name, module in modules.items():
        product = next(n for n in own if n.op_type in ("MatMul", "Gemm") and f"/{name}/" in n.name)
        weight = held[product.input[1]]
        module.weight.copy_(weight.T if weight.shape != module.weight.shape or product.op_type == "MatMul" else weight)
        bias = next(i for n in own if f"/{name}/" in n.name for i in n.input if i in held and held[i].shape == module.bias.shape)
        module.bias.copy_(held[bias])
    place = next(v for k, v in held.items() if k.endswith("place"))
    listener.place.copy_(place)
    measure(listener, shifts, lambda: (clips(),), count)


def measure(module, shifts, clips, count):
    """`clips()` gives what the module is given."""
    sums = {norm: [0, 0, 0] for norm in shifts}

    def passing(norm):
        def forward(x):
            y = x.float().movedim(1, -1).flatten(0, -2)
            sums[norm][0] += y.mean(0)
            sums[norm][1] += y.square().mean(0)
            sums[norm][2] += 1
            return x + shifts[norm].to(x.dtype).reshape(-1, *[1] * (x.dim() - 2))

        return forward

    for norm in shifts:
        norm.forward = passing(norm)
    for _ in range(count):
        module(*clips())
    for norm, (mean, square, n) in sums.items():
        del norm.forward
        mean, variance = mean / n, (square / n - (mean / n) ** 2).clamp(min=1e-6)
        norm.running_mean.copy_(mean)
        norm.running_var.copy_(variance)
        norm.weight.copy_(torch.sqrt(variance + norm.eps))
        norm.bias.copy_(mean + shifts[norm])
    module.train()


@torch.no_grad()
def restore_company(company, path, heard, count):
    """Fills the part that says whose sound it is from what company.py joined to a file; `heard()` gives what it is given."""
    graph = onnx.load(path).graph
    device = next(company.parameters()).device
    held = {k: v.to(device) for k, v in held_in(graph).items()}
    nodes = {node.name: node for node in graph.node if node.name.startswith("company/")}
    shifts = {}

    def fill(place, convolution, norm=None):
        node = nodes[f"company//company/{place}/Conv"]
        convolution.weight.copy_(held[node.input[1]])
        if norm is None:
            convolution.bias.copy_(held[node.input[2]])
        else:
            shifts[norm] = held[node.input[2]]

    for i, stage in enumerate(company.own):
        fill(f"own/own.{i}/own.{i}.0", stage[0], stage[1])
    for i in (1, 4, 7):
        fill(f"time/time.{i}", company.time[i], company.time[i + 1])
    fill("time/time.10", company.time[10])
    fill("narrow", company.narrow)
    fill("keys", company.keys)
    for name in ("shrink", "music"):
        module = getattr(company, name)
        had = held[nodes[f"company//company/{name}/MatMul"].input[1]].T
        if had.shape == module.weight.shape:
            module.weight.copy_(had)
        else:  # what the music around says has become wider, in both directions
            half, was = module.weight.shape[1] // 2, had.shape[1] // 2
            module.weight.zero_()
            module.weight[:, :was], module.weight[:, half : half + was] = had[:, :was], had[:, was:]
        module.bias.copy_(held[f"company/company.{name}.bias"])
    measure(company, shifts, heard, count)
