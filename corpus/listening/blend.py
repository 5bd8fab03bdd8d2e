"""A network between two: `python3 blend.py ONE OTHER SHARE OUT` writes ONE + SHARE * (OTHER - ONE), weight by weight.

OTHER was trained on from ONE, so that the way from one to the other is downhill: between them lies a network that keeps
what the first could do and has most of what the second learnt [lit: Wortsman et al. 2022, robust fine-tuning]. Both are
files of `network.export`; what company.py joined to ONE is left out.
"""
import sys

import numpy as np
import onnx
from onnx import numpy_helper


def own(graph):
    """Nodes of the listener alone."""
    return [node for node in graph.node if not node.name.startswith("company/")]


def weights_of(graph):
    """Names of the weights in the order in which the nodes use them, each once."""
    held = {tensor.name for tensor in graph.initializer}
    return list(dict.fromkeys(name for node in own(graph) for name in node.input if name in held))


def main():
    one, other, share, out = sys.argv[1:]
    first, second = onnx.load(one), onnx.load(other)
    names, others = weights_of(first.graph), weights_of(second.graph)
    assert len(names) == len(others), (len(names), len(others))
    theirs = {tensor.name: numpy_helper.to_array(tensor) for tensor in second.graph.initializer}
    mine = {tensor.name: tensor for tensor in first.graph.initializer}
    moved = 0
    for name, partner in zip(names, others):
        a, b = numpy_helper.to_array(mine[name]), theirs[partner]
        assert a.shape == b.shape, (name, a.shape, b.shape)
        if a.dtype == np.float32:
            mine[name].CopyFrom(numpy_helper.from_array(a + np.float32(share) * (b - a), name))
            moved += a.size
        else:
            assert (a == b).all(), name
    nodes, outputs = own(first.graph), [o for o in first.graph.output if o.name != "company"]
    for field, kept in (("node", nodes), ("output", outputs), ("initializer", [mine[name] for name in names])):
        del getattr(first.graph, field)[:]
        getattr(first.graph, field).extend(kept)
    onnx.checker.check_model(first)
    onnx.save(first, out)
    print(moved, "weights moved")


if __name__ == "__main__":
    main()
