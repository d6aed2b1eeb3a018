"""Times of colour: fits of dyes, predictions, and the same arrays by colour-science in the same run.

Run it as ``python tests/benchmarks/bench_colour.py``. Ratios are ours over theirs; below 1 is faster. Both
run on one thread, alternately, and the median of each counts.
"""

from __future__ import annotations

import os
import statistics
import sys
import time
import warnings
from collections.abc import Callable
from functools import partial
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import colour
import numpy as np

from studio_gui.domain.colour.difference import ciede2000
from studio_gui.domain.colour.fibre_fit import fibre_k_over_s
from studio_gui.domain.colour.fit import dye_curve
from studio_gui.domain.colour.mixing import predicted_srgb
from studio_gui.domain.colour.spaces import (
    lab_from_xyz,
    linear_from_xyz,
    srgb_from_linear,
    xyz_from_linear,
)
from studio_gui.domain.colour.spectra import xyz_from_reflectance
from studio_gui.domain.colour.swatches import Swatch

WOOL = "#f3eee2"
WHITE = np.array([0.3127, 0.3290])
ROUNDS = 15
#: Sizes of arrays: sections of a plan, columns of a lay, places of a fade.
SIZES = (12, 500, 2_000)
DEPTHS = (0.25, 0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0)
SHADES = ("#a9c0d6", "#86a7c6", "#5f88b1", "#3a6796", "#29517d", "#1f4169", "#193659", "#152e4d")

Task = Callable[[], object]


def medians_ms(*tasks: Task) -> list[float]:
    """Return the median time of each task, ms, run in turns so that all meet the same machine."""
    times: list[list[float]] = [[] for _ in tasks]
    for _ in range(ROUNDS):
        for kept, task in zip(times, tasks, strict=True):
            start = time.perf_counter()
            task()
            kept.append((time.perf_counter() - start) * 1000.0)
    return [statistics.median(kept) for kept in times]


def fit(swatches: tuple[Swatch, ...], *, fluorescent: bool = False) -> None:
    """Fit a dye anew; what is known of its fibre is kept."""
    dye_curve.cache_clear()
    dye_curve(swatches, fluorescent=fluorescent)


def fit_fibre() -> None:
    """Fit the undyed fibre anew."""
    fibre_k_over_s.cache_clear()
    fibre_k_over_s(WOOL)


def tell_fits() -> None:
    """Tell what a fit takes, by number of swatches; as entered, with one mislabelled, with spectra."""
    print("fit of a dye, ms           as entered  mislabelled  fluorescent  spectra")
    for count in (1, 2, 4, 8):
        plain = tuple(
            Swatch(depth, srgb, WOOL) for depth, srgb in zip(DEPTHS[:count], SHADES[:count], strict=True)
        )
        odd = (*plain[:-1], plain[-1].changed(depth_pct_owf=plain[-1].depth_pct_owf / 8.0))
        reflectance = tuple(np.linspace(0.5, 0.2, 31).tolist())
        spectra = tuple(one.changed(reflectance=reflectance) for one in plain)
        times = medians_ms(
            partial(fit, plain),
            partial(fit, odd),
            partial(fit, plain, fluorescent=True),
            partial(fit, spectra),
        )
        print(f"{count:2} swatches               " + "  ".join(f"{one:10.2f}" for one in times))
    (fibre_ms,) = medians_ms(fit_fibre)
    print(f"undyed fibre, ms           {fibre_ms:10.2f}")


def pairs_of(size: int) -> dict[str, tuple[Task, Task]]:
    """Return our task and theirs on the same `size` colours."""
    rng = np.random.default_rng(1)
    reflectance = rng.uniform(0.02, 0.9, (size, 31))
    xyz = xyz_from_reflectance(reflectance)
    lab = lab_from_xyz(xyz)
    other = lab + rng.normal(0.0, 5.0, lab.shape)
    linear = np.clip(linear_from_xyz(xyz), 0.0, 1.0)
    shape, srgb = colour.SpectralShape(400, 700, 10), colour.RGB_COLOURSPACES["sRGB"]
    daylight = colour.SDS_ILLUMINANTS["D65"].copy().align(shape)
    integrate = colour.colorimetry.msds_to_XYZ_integration
    return {
        "CIEDE2000": (partial(ciede2000, lab, other), partial(colour.delta_E, lab, other, method="CIE 2000")),
        "XYZ to Lab": (partial(lab_from_xyz, xyz), partial(colour.XYZ_to_Lab, xyz, WHITE)),
        "XYZ to sRGB": (lambda: srgb_from_linear(linear_from_xyz(xyz)), partial(colour.XYZ_to_sRGB, xyz)),
        "linear to XYZ": (partial(xyz_from_linear, linear), partial(colour.RGB_to_XYZ, linear, srgb)),
        "spectra to XYZ": (
            partial(xyz_from_reflectance, reflectance),
            partial(integrate, reflectance, illuminant=daylight, shape=shape),
        ),
    }


def tell_ratios() -> None:
    """Tell ratios against colour-science on the same arrays."""
    print("\nours / colour-science      " + "".join(f"{size:>12}" for size in SIZES))
    rows: dict[str, list[str]] = {}
    for size in SIZES:
        for name, pair in pairs_of(size).items():
            ours_ms, theirs_ms = medians_ms(*pair)
            rows.setdefault(name, []).append(f"{ours_ms / theirs_ms:12.3f}")
    for name, ratios in rows.items():
        print(f"{name:27}" + "".join(ratios))


def tell_predictions() -> None:
    """Tell what a prediction of three dyes takes, without and with a fluorescent one among them."""
    shades = ("#3a6ea5", "#b4432f", "#e3a91f")
    dyes = tuple(dye_curve((Swatch(1.0, srgb, WOOL),)) for srgb in shades)
    glowing = (*dyes[:2], dye_curve((Swatch(1.0, "#eeff3c", WOOL),), fluorescent=True))
    print("\nthree dyes, ms             " + "".join(f"{size:>12}" for size in SIZES))
    for name, chosen in (("colours", dyes), ("one of them fluorescent", glowing)):
        times = []
        for size in SIZES:
            doses = np.random.default_rng(2).uniform(0.0, 2.0, (size, 3))
            (took,) = medians_ms(partial(predicted_srgb, doses, chosen, WOOL))
            times.append(f"{took:12.3f}")
        print(f"{name:27}" + "".join(times))


if __name__ == "__main__":
    warnings.simplefilter("ignore")  # colour-science tells which of its extras are missing
    tell_fits()
    tell_ratios()
    tell_predictions()
