"""A reduced model of pull against need over 65 gaps, drawn many times at once with NumPy. Reads and writes JSON."""

import json
import sys
import time

import numpy as np

given = json.load(sys.stdin)
values = np.array(given["values"])
began = time.perf_counter()
x, y, stroke, run, no_fuel, at_run, at_no_fuel, pull_far = values.T
gaps = np.linspace(0.0, 1.0, given["gaps"])[None, :] * stroke[:, None]
pin_x = x[:, None] + gaps
pin_y = y[:, None]
radius = np.hypot(pin_x, pin_y)
lever = np.abs(pin_y)
along = -pin_x
shaft = np.arctan2(pin_y, pin_x)
share = (shaft - run[:, None]) / (no_fuel - run)[:, None]
moment = at_run[:, None] + share * (at_no_fuel - at_run)[:, None]
normal = moment / radius
tilt = np.abs(along) / lever
guide = 1 + 2 * (given["overhang"] + gaps) / (given["guide"] - gaps)
needed = normal * lever / radius * (1 + given["slot"] * tilt + given["bore"] * guide * np.abs(tilt - given["slot"]))
log_gap = np.log(gaps + given["softening"])
near, far = np.log(given["softening"]), np.log(stroke + given["softening"])[:, None]
log_near, log_far = np.log(given["pullNear"]), np.log(pull_far)[:, None]
pull = np.exp(log_near + (log_gap - near) / (far - near) * (log_far - log_near))
least = np.min(pull / needed - 1, axis=1)
json.dump({"seconds": time.perf_counter() - began, "sum": float(np.sum(least)), "least": float(np.min(least))}, sys.stdout)
