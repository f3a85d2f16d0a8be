"""The reference pull-in by SciPy's solve_ivp, for bench/motion.ts: reads the problem from standard input as JSON, writes
the median processor seconds of a course and the greatest relative error of its landing times over the source volts, for each
magnet, method and tolerance asked.

State: current, gap, speed. Two magnets: 'same surface', our co-energy surface in plain floating-point Python (array calls on
single numbers would cost more), one evaluation a call; and 'own splines', SciPy's compiled bicubic splines through flux
linkage and force at the surface's nodes, three calls. No flux to invert in either. Each method asked is run. Errors are
against the same magnet at 1e-11 by DOP853.
"""
import json
import math
import sys
import time
from bisect import bisect_right
from itertools import product

from scipy.integrate import solve_ivp
from scipy.interpolate import RectBivariateSpline

asked = json.load(sys.stdin)
gaps, softening, unit = asked["gaps"], asked["softening"], asked["levelUnit"]
curves = [(c["x"], c["q"], c["qSlope"], c["qy"], c["qySlope"]) for c in asked["curves"]]
ys = [math.log(g + softening) for g in gaps]


def cell(nodes, value):
    return min(max(bisect_right(nodes, value) - 1, 0), len(nodes) - 2)


def hermite(t, w):
    s = 1 - t
    return (
        (s * s * (1 + 2 * t), t * t * (3 - 2 * t), w * t * s * s, -w * t * t * s),
        (-6 * t * s / w, 6 * t * s / w, s * (1 - 3 * t), t * (3 * t - 2)),
        ((12 * t - 6) / (w * w), (6 - 12 * t) / (w * w), (6 * t - 4) / w, (6 * t - 2) / w),
    )


def along(w, value, slope, i):
    return w[0] * value[i] + w[1] * value[i + 1] + w[2] * slope[i] + w[3] * slope[i + 1]


def surface(gap, level):
    """Force, flux linkage, and its slopes with ampere-turns and gap."""
    r = gap + softening
    j = cell(gaps, gap)
    v, dv, _ = hermite((math.log(r) - ys[j]) / (ys[j + 1] - ys[j]), ys[j + 1] - ys[j])
    x = math.asinh(level / unit)
    q = qx = qxx = qy = qxy = 0.0
    for b in (0, 1):
        xs, cq, cqs, cy, cys = curves[j + b]
        i = cell(xs, x)
        w = xs[i + 1] - xs[i]
        u, du, ddu = hermite((x - xs[i]) / w, w)
        value, across = along(u, cq, cqs, i), along(u, cy, cys, i)
        slope, across_slope = along(du, cq, cqs, i), along(du, cy, cys, i)
        q += v[b] * value + v[2 + b] * across
        qx += v[b] * slope + v[2 + b] * across_slope
        qxx += v[b] * along(ddu, cq, cqs, i) + v[2 + b] * along(ddu, cy, cys, i)
        qy += dv[b] * value + dv[2 + b] * across
        qxy += dv[b] * slope + dv[2 + b] * across_slope
    e = math.exp(q)
    h = math.hypot(level, unit)
    half = 0.5 * level * level
    steep = qx / h
    flux = e * (level + half * steep)
    by_level = steep * flux + e * (1 + level * steep + half * (qxx - qx * level / h) / (h * h))
    return -half * e * qy / r, flux, by_level, (qy * flux + half * e * qxy / h) / r


def same_surface(gap, level):
    force, _, by_level, by_gap = surface(gap, level)
    return force, by_level, by_gap


levels = [unit * math.sinh(x) for x in curves[0][0]]
levels[0] = 0.0
nodes = [[surface(g, level) for level in levels] for g in gaps]
force_spline, flux_spline = (RectBivariateSpline(gaps, levels, [[node[k] for node in row] for row in nodes]) for k in (0, 1))


def own_splines(gap, level):
    return (
        float(force_spline(gap, level, grid=False)),
        float(flux_spline(gap, level, dy=1, grid=False)),
        float(flux_spline(gap, level, dx=1, grid=False)),
    )


magnet = same_surface
p = asked["problem"]
V = 0.0
R, N, M, c = p["resistance"], p["turns"], p["mass"], p["viscous"]
home, out, force_home, force_out = p["homeGap"], p["outGap"], p["loadHome"], p["loadOut"]


def load(gap):
    return force_home + (force_out - force_home) * (gap - home) / (out - home)


def standing(t, y):
    _, by_level, _ = magnet(out, N * y[0])
    return [(V - R * y[0]) / (N * N * by_level)]


def moving(t, y):
    i, gap, speed = y
    gap = min(max(gap, home), out)
    force, by_level, by_gap = magnet(gap, N * i)
    return [(V - R * i + N * by_gap * speed) / (N * N * by_level), -speed, (force - load(gap) - c * speed) / M]


def starts(t, y):
    return magnet(out, N * y[0])[0] - load(out)


def lands(t, y):
    return y[1] - home


starts.terminal = lands.terminal = True
starts.direction, lands.direction = 1, -1


def run(rtol, method):
    kw = dict(method=method, rtol=rtol)
    scale = [1e-1 * rtol * s for s in (1.0, out - home, 1.0)]
    a = solve_ivp(standing, (0, 1), [0.0], events=starts, atol=scale[0], **kw)
    b = solve_ivp(moving, (a.t[-1], 1), [a.y[0, -1], out, 0.0], events=lands, atol=scale, **kw)
    landed = (b.t[-1], asked["duration"])
    d = solve_ivp(lambda t, y: [(V - R * y[0]) / (N * N * magnet(home, N * y[0])[1])], landed, [b.y[0, -1]], atol=scale[0], **kw)
    return b.t[-1], a.nfev + b.nfev + d.nfev


results = []
for name, magnet in (("same surface", same_surface), ("own splines", own_splines)):
    truth = []
    for V in asked["volts"]:
        truth.append(run(1e-11, "DOP853")[0])
    for method, rtol in product(asked["methods"], asked["tolerances"]):
        times, errors = [], []
        for V, right in zip(asked["volts"], truth):
            run(rtol, method)
            before = time.process_time()
            landing, evaluations = run(rtol, method)
            times.append(time.process_time() - before)
            errors.append(abs(landing / right - 1))
        times.sort()
        results.append(
            dict(
                magnet=name,
                method=method,
                tolerance=rtol,
                seconds=times[len(times) // 2],
                error=max(errors),
                evaluations=evaluations,
                truth=truth,
            )
        )
json.dump(results, sys.stdout)
