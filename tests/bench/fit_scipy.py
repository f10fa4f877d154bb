#!/usr/bin/python3
"""The recall model's fit by a general optimiser, to hold the project's own fit against: the same answers, the same loss,
numpy for one pass and scipy's L-BFGS-B with limits for the rest. One core.

    fit_scipy.py FILE                   fits, prints one line of JSON
    fit_scipy.py --check FILE           holds the gradient against central differences, exit status 1 when it is off
    fit_scipy.py --simulate FILE        writes a small crew in the same format

FILE is little-endian, without padding (fit_data.hpp writes it):

    int64    version = 1, rows, learners, points, families, branches, activation features A, decay features D, forms F
    float64  mean[S], sd[S], least[S] of the shared parameters, S = A + D + F; -1e300 for no least value
    float64  sd of the effects: learner ease, learner forgets, point ease, family ease, branch ease (means are 0)
    float32  activation[rows][A], decay[rows][D], delay[rows]
    uint32   learner[rows], point[rows], family[rows], branch[rows], form[rows], recalled[rows]

Unknowns stand in the order shared, learner ease, learner forgets, point ease, family ease, branch ease.
"""
import argparse
import json
import os
import sys
import time

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # the fit it is held against runs on one core
import numpy as np
import scipy.optimize

VERSION = 1
COUNTS = ("version", "rows", "learners", "points", "families", "branches", "activation", "decay", "forms")
NO_LEAST = -1e300
LIMIT = 700.0


class Data:
    """What a file holds, by name."""


def read(path):
    raw = np.fromfile(path, dtype=np.uint8)
    at = 0

    def take(kind, count):
        nonlocal at
        size = np.dtype(kind).itemsize * count
        if at + size > raw.size:
            sys.exit(f"{path}: ends after {raw.size} bytes, {at + size} are needed")
        part = raw[at:at + size].view(kind)
        at += size
        return part

    data = Data()
    for name, value in zip(COUNTS, take("<i8", len(COUNTS))):
        setattr(data, name, int(value))
    if data.version != VERSION:
        sys.exit(f"{path}: version {data.version}, this reads {VERSION}")
    shared = data.activation + data.decay + data.forms
    data.mean, data.sd, data.least = (take("<f8", shared) for _ in range(3))
    data.effects = take("<f8", 5)
    data.act = take("<f4", data.rows * data.activation).reshape(data.rows, data.activation)
    data.dec = take("<f4", data.rows * data.decay).reshape(data.rows, data.decay)
    data.delay = take("<f4", data.rows)
    for name in ("learner", "point", "family", "branch", "form", "recalled"):
        setattr(data, name, take("<u4", data.rows))
    if at != raw.size:
        sys.exit(f"{path}: {raw.size - at} bytes too many")
    return data


def write(path, data):
    with open(path, "wb") as out:
        out.write(np.array([getattr(data, name) for name in COUNTS], "<i8").tobytes())
        for part in (data.mean, data.sd, data.least, data.effects):
            out.write(np.asarray(part, "<f8").tobytes())
        for part in (data.act, data.dec, data.delay):
            out.write(np.ascontiguousarray(part, "<f4").tobytes())
        for name in ("learner", "point", "family", "branch", "form", "recalled"):
            out.write(np.asarray(getattr(data, name), "<u4").tobytes())


class Fit:
    """The loss and its gradient. What all answers of a learner on a point share is summed once for each such pair."""

    def __init__(self, data):
        self.data = data
        self.act = np.ascontiguousarray(data.act, np.float64)
        self.form = data.form.astype(np.intp)
        self.recalled = data.recalled.astype(np.float64)
        self.met = np.flatnonzero(data.delay > 0)
        self.dec = np.ascontiguousarray(data.dec[self.met], np.float64)
        self.delay = data.delay[self.met].astype(np.float64)
        new = np.ones(data.rows, bool)
        new[1:] = (np.diff(data.learner.astype(np.int64)) != 0) | (np.diff(data.point.astype(np.int64)) != 0)
        self.begin = np.flatnonzero(new)
        self.pair = np.cumsum(new) - 1
        self.pair_met = self.pair[self.met]
        self.of_pair = {n: getattr(data, n)[self.begin].astype(np.intp) for n in ("learner", "point", "family", "branch")}
        sizes = [data.mean.size, data.learners, data.learners, data.points, data.families, data.branches]
        self.ends = np.cumsum(sizes)
        self.prior_mean = np.concatenate([data.mean, np.zeros(sum(sizes[1:]))])
        sds = [np.full(size, sd) for size, sd in zip(sizes[1:], data.effects)]
        self.precision = np.concatenate([data.sd] + sds) ** -2.0
        self.passes = 0

    def parts(self, x):
        return np.split(x, self.ends[:-1])

    def forgetting(self, shared, learner_forgets):
        """What the delays take off the log odds, for rows that have one."""
        a, d = self.data.activation, self.data.decay
        log_decay = self.dec @ shared[a:a + d] + learner_forgets[self.of_pair["learner"]][self.pair_met]
        return -np.exp(np.clip(log_decay, -LIMIT, LIMIT)) * self.delay

    def log_odds(self, shared, learner, point, family, branch, forgets):
        of = self.of_pair
        ease = learner[of["learner"]] + point[of["point"]] + family[of["family"]] + branch[of["branch"]]
        m = self.act @ shared[:self.data.activation]
        m += shared[self.data.activation + self.data.decay:][self.form]
        m += ease[self.pair]
        m[self.met] += forgets
        return m

    def gather(self, by_row, by_forgets):
        """Sums for the effects, through the pairs."""
        data, of = self.data, self.of_pair
        pairs = np.add.reduceat(by_row, self.begin)
        forgets = np.bincount(self.pair_met, by_forgets, self.begin.size)
        return [np.bincount(of["learner"], pairs, data.learners), np.bincount(of["learner"], forgets, data.learners),
                np.bincount(of["point"], pairs, data.points), np.bincount(of["family"], pairs, data.families),
                np.bincount(of["branch"], pairs, data.branches)]

    def loss(self, x):
        self.passes += 1
        shared, learner, learner_forgets, point, family, branch = self.parts(x)
        forgets = self.forgetting(shared, learner_forgets)
        m = self.log_odds(shared, learner, point, family, branch, forgets)
        small = np.exp(-np.abs(m))
        residual = np.where(m >= 0, 1.0, small) / (1 + small) - self.recalled
        value = (np.maximum(m, 0) + np.log1p(small) - m * self.recalled).sum()
        by_forgets = residual[self.met] * forgets
        gradient = np.concatenate([residual @ self.act, by_forgets @ self.dec,
                                   np.bincount(self.form, residual, self.data.forms)] + self.gather(residual, by_forgets))
        off = x - self.prior_mean
        return value + 0.5 * (self.precision * off) @ off, gradient + self.precision * off

    def diagonal(self, x):
        """The expected curvature by each unknown alone."""
        shared, learner, learner_forgets, point, family, branch = self.parts(x)
        forgets = self.forgetting(shared, learner_forgets)
        m = self.log_odds(shared, learner, point, family, branch, forgets)
        small = np.exp(-np.abs(m))
        weight = small / (1 + small) ** 2
        by_forgets = weight[self.met] * forgets ** 2
        return self.precision + np.concatenate([weight @ self.act ** 2, by_forgets @ self.dec ** 2,
                                                np.bincount(self.form, weight, self.data.forms)]
                                               + self.gather(weight, by_forgets))

    def start(self):
        x = self.prior_mean.copy()
        x[:self.data.mean.size] = np.maximum(x[:self.data.mean.size], self.data.least)
        return x

    def scale(self, kind, x):
        if kind == "curvature":
            return self.diagonal(x) ** -0.5
        return self.precision ** -0.5 if kind == "prior" else np.ones(x.size)


def minimise(fit, enough, scale_by, memory):
    """Unknowns are stretched first, so that one unit is about as steep in each of them: without it the optimiser needs
    many times the passes."""
    begun = time.perf_counter()
    start = fit.start()
    scale = fit.scale(scale_by, start)
    at_start, _ = fit.loss(start)
    bounds = [(None if least <= NO_LEAST else least / s, None) for least, s in zip(fit.data.least, scale)]
    bounds += [(None, None)] * (start.size - len(bounds))

    def stretched(z):
        value, gradient = fit.loss(z * scale)
        return value, gradient * scale

    # The optimiser's own tolerance is a share of the loss, ours a number of nats.
    found = scipy.optimize.minimize(stretched, start / scale, jac=True, method="L-BFGS-B", bounds=bounds,
                                    options={"maxcor": memory, "ftol": enough / max(1.0, at_start), "gtol": 0.0,
                                             "maxiter": 20000, "maxfun": 40000})
    seconds = time.perf_counter() - begun
    return {"objective": float(found.fun), "seconds": seconds, "passes": fit.passes,
            "seconds_per_pass": seconds / fit.passes, "iterations": int(found.nit), "unknowns": int(start.size),
            "rows": fit.data.rows, "scale": scale_by, "memory": memory, "ended": str(found.message),
            "shared": [float(v) for v in found.x[:len(fit.data.mean)] * scale[:len(fit.data.mean)]]}


def check(fit, seed):
    """The worst difference between the gradient and central differences: at the start, and at a place drawn round it."""
    random = np.random.default_rng(seed)
    worst = 0.0
    drawn = fit.start() + 0.5 * random.standard_normal(fit.precision.size) * fit.precision ** -0.5
    for x in (fit.start(), drawn):
        _, gradient = fit.loss(x)
        places = np.arange(x.size)
        if x.size > 400:
            shared = fit.data.mean.size
            places = np.concatenate([places[:shared], random.choice(places[shared:], 200, replace=False)])
        for n in places:
            # Of fourth order, as the step has to be wide: a loss of a million answers has few digits to spare.
            step, there, difference = 1e-3, x[n], 0.0
            for steps, weight in ((-2, 1 / 12), (-1, -2 / 3), (1, 2 / 3), (2, -1 / 12)):
                x[n] = there + steps * step
                difference += weight * fit.loss(x)[0] / step
            x[n] = there
            worst = max(worst, abs(gradient[n] - difference) / max(1.0, abs(difference)))
    return float(worst)


def simulate(learners, points, families, answers, seed):
    """A crew whose answers come from the model, at values made up for this check."""
    random = np.random.default_rng(seed)
    shared = np.array([1.0, -1.0, 1.2, 0.4, -0.8, 0.3, 0.1, 0.0, 0.2, -0.3, 0.0, 0.0, 0.0, 0.0])
    sds = np.array([0.8, 0.3, 0.9, 0.4, 0.4])
    learner_ease, learner_forgets = sds[0] * random.standard_normal(learners), sds[1] * random.standard_normal(learners)
    point_ease, family_ease = sds[2] * random.standard_normal(points), sds[3] * random.standard_normal(families)
    branch_ease = sds[4] * random.standard_normal((learners, families))
    rows = []
    for learner in range(learners):
        asked = np.sort(random.integers(0, points, answers // learners))
        for point in np.unique(asked):
            days = np.sort(random.uniform(0, 300, int((asked == point).sum())))
            right = wrong = 0
            spaced_right = spaced_wrong = 0.0
            for n, day in enumerate(days):
                lag = day - days[n - 1] if n else 0.0
                delay = np.log1p(36 * lag) if n else 0.0
                act = [float(n > 0), float(n == 0), np.log1p(right), np.log1p(wrong)]
                dec = [1.0, -np.log1p(spaced_right), -np.log1p(spaced_wrong)]
                form, family = int(random.integers(0, 3)), int(point) % families
                odds = (np.dot(act, shared[:4]) + shared[7 + form] + learner_ease[learner] + point_ease[point]
                        + family_ease[family] + branch_ease[learner, family])
                odds -= np.exp(np.dot(dec, shared[4:7]) + learner_forgets[learner]) * delay
                recalled = random.uniform() < 1 / (1 + np.exp(-odds))
                rows.append((act, dec, delay, learner, point, family, learner * families + family, form, recalled))
                right, wrong = right + recalled, wrong + (not recalled)
                spaced_right += np.log1p(lag) * recalled
                spaced_wrong += np.log1p(lag) * (not recalled)
    data = Data()
    data.version, data.rows, data.learners, data.points, data.families = VERSION, len(rows), learners, points, families
    data.branches, data.activation, data.decay, data.forms = learners * families, 4, 3, 7
    data.mean = np.array([1.0, -1.0, 1.2, 0.4, -0.8, 0.3, 0.1] + [0.0] * 7)
    data.sd = np.array([1.0, 1.0, 0.5, 0.3, 0.4, 0.1, 0.05, 1e-3] + [0.5] * 6)
    data.least = np.array([NO_LEAST, NO_LEAST, 0, 0, NO_LEAST, 0, 0] + [NO_LEAST] * 7)
    data.effects = sds
    names = ("act", "dec", "delay", "learner", "point", "family", "branch", "form", "recalled")
    for n, name in enumerate(names):
        setattr(data, name, np.array([row[n] for row in rows]))
    return data


def main():
    options = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    options.add_argument("file")
    options.add_argument("--check", action="store_true")
    options.add_argument("--simulate", action="store_true")
    options.add_argument("--enough", type=float, default=1e-7, help="stop when a step lowers the loss by less, in nats")
    options.add_argument("--scale", choices=("curvature", "prior", "none"), default="curvature")
    options.add_argument("--memory", type=int, default=50, help="pairs of steps the optimiser keeps")
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--learners", type=int, default=12)
    options.add_argument("--points", type=int, default=30)
    options.add_argument("--families", type=int, default=4)
    options.add_argument("--answers", type=int, default=3000)
    given = options.parse_args()
    if given.simulate:
        write(given.file, simulate(given.learners, given.points, given.families, given.answers, given.seed))
        return 0
    fit = Fit(read(given.file))
    if given.check:
        worst = check(fit, given.seed)
        print(json.dumps({"worst_relative_difference": worst, "agrees": worst < 1e-6}))
        return 0 if worst < 1e-6 else 1
    print(json.dumps(minimise(fit, given.enough, given.scale, given.memory)))
    return 0


if __name__ == "__main__":
    sys.exit(main())
