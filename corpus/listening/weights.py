"""Weights read back from the file that the program uses, so that training goes on where the kept state is lost.

In the file each convolution has taken its normalisation in. Its measures are made anew: while clips go through, every
normalisation passes on what it gets with the file's bias and notes mean and variance; these become its own, with the
scale and shift that undo them. The network then says what the file says, and can be trained.
"""
import onnx
import torch
from onnx import numpy_helper
from torch import nn


def convolutions(listener, late):
    """(convolution, its normalisation or None) in the order in which the network runs them, with the late steps or without."""
    def of(stage):
        return (stage[0], stage[1])

    out = [of(listener.front[0]), of(listener.front[1]), of(listener.semitone), of(listener.gather)]
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


def has_late(path):
    """Whether a file's network has the late steps of run 6."""
    return any("/late/" in node.name for node in onnx.load(path).graph.node)


@torch.no_grad()
def restore(listener, path, clips, count):
    """Fills the listener; `clips()` gives spectra as in training, of which `count` batches are measured."""
    graph = onnx.load(path).graph
    # The part that says whose sound it is was joined later (company.py) and is none of the listener's.
    own = [node for node in graph.node if not node.name.startswith("company/")]
    held = {i.name: torch.from_numpy(numpy_helper.to_array(i).copy()) for i in graph.initializer}
    for node in own:
        if node.op_type == "Constant":
            held[node.output[0]] = torch.from_numpy(numpy_helper.to_array(node.attribute[0].t).copy())
    device = next(listener.parameters()).device
    held = {k: v.to(device) for k, v in held.items()}
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
    for layer, node in enumerate(n for n in own if n.op_type == "GRU"):
        recurrent(listener.music, held, node, layer)
    for name in ("shrink", "back", "pedal"):
        module = getattr(listener, name)
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
    held = {i.name: torch.from_numpy(numpy_helper.to_array(i).copy()).to(device) for i in graph.initializer}
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
        module.weight.copy_(held[nodes[f"company//company/{name}/MatMul"].input[1]].T)
        module.bias.copy_(held[f"company/company.{name}.bias"])
    measure(company, shifts, heard, count)
