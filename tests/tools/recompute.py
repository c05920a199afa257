#!/usr/bin/env python3
"""Works an exchange document out a second time, with numpy and none of our code.

    recompute.py DOCUMENT.json ANALYSIS.json

Compares value, u and the readings' residual, redundancy, w and pull of `analyse --json` with a dense
weighted least squares of the same document. It knows direct readings with an explicit `u` or
`half_width`, `uniform` scales with valued or dimension references, off-plane terms, relative and
absolute shared errors, and relations with or without uncertainty; everything is in inches, and every
uncertainty is given. Formulas: textbook least squares with constraints (bordered normal equations),
for example P. R. Wolf and C. D. Ghilani, Adjustment Computations; numpy.linalg does the algebra.
Exit status 1 where a figure differs by more than the tolerance.
"""
import json
import math
import re
import sys

import numpy as np

TOLERANCE = 1e-6  # relative; both sides linearise at their own solution


def standard(item):
    if "u" in item:
        return item["u"]
    if "half_width" in item:
        return item["half_width"] / math.sqrt(3)
    if "rounded_to" in item:
        return item["rounded_to"] / 2 / math.sqrt(3)
    raise SystemExit(f"recompute: no uncertainty in {item}")


class Net:
    """Unknowns by name; observations and constraints as functions of the unknowns' vector."""

    def __init__(self):
        self.names, self.start = [], []
        self.observed, self.sigma, self.model, self.tag = [], [], [], []
        self.exact = []

    def unknown(self, name, start):
        if name not in self.names:
            self.names.append(name)
            self.start.append(start)
        return self.names.index(name)

    def observe(self, tag, value, sigma, model):
        self.tag.append(tag)
        self.observed.append(value)
        self.sigma.append(sigma)
        self.model.append(model)

    @staticmethod
    def jacobian(functions, x):
        base = np.array([f(x) for f in functions])
        columns = []
        for i in range(len(x)):
            step = 1e-6 * max(1.0, abs(x[i]))
            up, down = x.copy(), x.copy()
            up[i] += step
            down[i] -= step
            columns.append((np.array([f(up) for f in functions])
                            - np.array([f(down) for f in functions])) / (2 * step))
        return base, np.array(columns).T if columns else np.zeros((len(functions), 0))

    def solve(self):
        x = np.array(self.start, float)
        n, sigma = len(x), np.array(self.sigma)
        for _ in range(50):
            model, design = self.jacobian(self.model, x)
            gap, border = self.jacobian(self.exact, x) if self.exact else (
                np.zeros(0), np.zeros((0, n)))
            weighted = design / sigma[:, None]
            matrix = np.block([[weighted.T @ weighted, border.T],
                               [border, np.zeros((len(gap), len(gap)))]])
            misfit = (np.array(self.observed) - model) / sigma
            step = np.linalg.solve(matrix, np.concatenate([weighted.T @ misfit, -gap]))[:n]
            x += step
            if np.max(np.abs(step) / np.maximum(1.0, np.abs(x))) < 1e-13:
                break
        cofactor = np.linalg.inv(matrix)[:n, :n]
        model, design = self.jacobian(self.model, x)
        residual = np.array(self.observed) - model
        fitted = design @ cofactor @ design.T
        redundancy = 1 - np.diag(fitted) / sigma ** 2
        gain = cofactor @ design.T / sigma ** 2
        return x, cofactor, residual, redundancy, gain


def distance(points):
    return math.dist(points[0], points[1])


def build(document):
    net = Net()
    marks = {m["id"]: m for m in document.get("marks", [])}
    frames = {f["id"]: f for f in document.get("frames", [])}
    codes = {}
    for i, d in enumerate(document["dimensions"]):
        codes[d.get("code", f"D{i + 1}")] = d["id"]
    shared = {}
    for e in document.get("shared_errors", []):
        k = net.unknown("error " + e["id"], 0.0)
        net.observe("error " + e["id"], 0.0, e["u"], lambda x, k=k: x[k])
        for use in e["on"]:
            shared.setdefault(use["record"], []).append((e["kind"], use.get("coefficient", 1), k))

    def with_shared(record, value):
        def model(x):
            v = value(x)
            for kind, c, k in shared.get(record, []):
                v += c * x[k] * (value(x) if kind == "relative" else 1)
            return v
        return model

    starts = {}
    for r in document["readings"]:
        if isinstance(r.get("value"), (int, float)):
            starts.setdefault(r["of"], float(r["value"]))
    for f in frames.values():
        for ref in f["references"]:
            if "value" in ref["length"]:
                f.setdefault("_s", ref["length"]["value"] / distance(marks[ref["mark"]]["points"]))
        for ref in f["references"]:
            f.setdefault("_s", starts.get(ref["length"].get("dimension"), 1.0)
                         / distance(marks[ref["mark"]]["points"]))
    for r in document["readings"]:
        if r["basis"] == "scaled":
            starts.setdefault(r["of"], frames[r["frame"]]["_s"]
                              * distance(marks[r["mark"]]["points"]))
    index = {d["id"]: net.unknown("dimension " + d["id"], starts.get(d["id"], 1.0))
             for d in document["dimensions"]}

    def pixels(mark):
        m, u = marks[mark], marks[mark].get("u_px", 0.5)
        ks = []
        for i, (px, py) in enumerate(m["points"]):
            for axis, value in (("x", px), ("y", py)):
                name = f"mark {mark} {i} {axis}"
                known = name in net.names
                k = net.unknown(name, value)
                if not known:
                    net.observe(name, value, u, lambda x, k=k: x[k])
                ks.append(k)
        return lambda x: math.hypot(x[ks[2]] - x[ks[0]], x[ks[3]] - x[ks[1]])

    for f in frames.values():
        scale = net.unknown("scale " + f["id"], f["_s"])
        f["_k"] = scale
        for i, ref in enumerate(f["references"]):
            span = pixels(ref["mark"])
            tag = f"{f['id']}/{i}"
            if "dimension" in ref["length"]:
                d = index[ref["length"]["dimension"]]
                net.exact.append(lambda x, d=d, s=scale, span=span: x[d] - x[s] * span(x))
            else:
                length = with_shared(tag, lambda x, s=scale, span=span: x[s] * span(x))
                net.observe(tag, ref["length"]["value"], standard(ref["length"]), length)
    for r in document["readings"]:
        d = index[r["of"]]
        if r["basis"] != "scaled":
            net.observe(r["id"], float(r["value"]), standard(r),
                        with_shared(r["id"], lambda x, d=d: x[d]))
            continue
        span, scale, off = pixels(r["mark"]), frames[r["frame"]]["_k"], r.get("off_plane")
        if off:
            o = net.unknown("offset " + r["id"], off["offset"])
            net.observe("offset " + r["id"], off["offset"], off["u"], lambda x, k=o: x[k])
            c = net.unknown("distance " + r["id"], off["distance"])
            net.observe("distance " + r["id"], off["distance"], off["u_distance"],
                        lambda x, k=c: x[k])
            factor = lambda x, o=o, c=c: (x[c] - x[o]) / x[c]
        else:
            factor = lambda x: 1.0
        value = with_shared(r["id"], lambda x, d=d: x[d])
        net.exact.append(lambda x, v=value, s=scale, span=span, f=factor:
                         v(x) - x[s] * span(x) * f(x))
    for relation in document.get("relations", []):
        left, right = relation["formula"].split("=")
        text = re.sub(r"\bD\d+\b", lambda m: f"x[{index[codes[m.group()]]}]",
                      f"({left})-({right})".replace("^", "**"))
        text = re.sub(r"([0-9.]+) in\b", r"\1", text)
        value = eval("lambda x: " + text, {})  # noqa: S307  documents of our own tests only
        if relation.get("u", 0) == 0:
            net.exact.append(value)
        else:
            net.observe(relation["id"], 0.0, relation["u"], value)
    return net, index


def main(document_path, analysis_path):
    with open(document_path, encoding="utf-8") as file:
        document = json.load(file)
    with open(analysis_path, encoding="utf-8") as file:
        analysis = json.load(file)
    net, index = build(document)
    x, cofactor, residual, redundancy, gain = net.solve()
    worst, compared = 0.0, 0

    def compare(what, ours, theirs, scale):
        nonlocal worst, compared
        gap = abs(ours - theirs) / max(scale, 1e-12)
        worst, compared = max(worst, gap), compared + 1
        if gap > TOLERANCE:
            print(f"{what}: analysis {ours!r}, recomputed {theirs!r}")

    for result in analysis["dimensions"]:
        k = index[result["id"]]
        u = math.sqrt(cofactor[k, k])
        compare(result["id"] + " value", result["value"], x[k], u)
        compare(result["id"] + " u", result["u"], u, u)
        for reading in result["readings"]:
            if reading["id"] not in net.tag:
                continue
            i = net.tag.index(reading["id"])
            compare(reading["id"] + " residual", reading["residual"], residual[i], net.sigma[i])
            compare(reading["id"] + " redundancy", reading["redundancy"], redundancy[i], 1)
            compare(reading["id"] + " pull", reading["pull"], gain[k, i], 1)
            if redundancy[i] > 1e-9:
                compare(reading["id"] + " w", reading["w"],
                        residual[i] / (net.sigma[i] * math.sqrt(redundancy[i])), 1)
    print(f"compared {compared} figures, largest relative difference {worst:.1e}")
    return 0 if worst <= TOLERANCE and compared else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:3]))
