"""How a reflectance spectrum becomes a colour.

The rule of this module: 31 bands, 400 to 700 nm every 10 nm, seen under D65 by the CIE 1931 2 degree
observer. Between two bands the reflectance runs straight, beyond the ends it stays level; with that reading
the weights are the 1 nm products of light and observer gathered into the bands, then rescaled so that a
perfect white has xy = (0.3127, 0.3290). Plain products at 10 nm miss that white.

Source of light and observer: CIE 15:2018, Colorimetry; ISO/CIE 11664-1 and 11664-2.
"""

from __future__ import annotations

import numpy as np

from studio_gui.domain.colour.spaces import Array, read_only

#: Band middles in nm, shape (31,).
WAVELENGTHS_NM: Array = read_only(np.arange(400.0, 701.0, 10.0))

#: Weight of each band in X, Y and Z, shape (31, 3); the columns add up to the white, Y = 1.
WEIGHTS_D65_2DEG: Array = read_only(
    np.array(
        [
            (0.00156768991, 4.37632658e-05, 0.00743397409),  # 400
            (0.00416120011, 0.000116416785, 0.0198676735),  # 410
            (0.012271315, 0.000386781009, 0.0591192246),  # 420
            (0.0237868309, 0.00103289721, 0.116447003),  # 430
            (0.0336443255, 0.00231381947, 0.169330116),  # 440
            (0.0363835175, 0.00422268536, 0.192369834),  # 450
            (0.0318209469, 0.00672141074, 0.182728309),  # 460
            (0.021434566, 0.0101038503, 0.140531211),  # 470
            (0.0107220018, 0.0151925988, 0.0894995414),  # 480
            (0.00366058144, 0.0220306995, 0.0499595805),  # 490
            (0.000757714309, 0.0339581448, 0.0287960949),  # 500
            (0.0013666477, 0.051429333, 0.0163997117),  # 510
            (0.00673700181, 0.0704750107, 0.00823972247),  # 520
            (0.0168549222, 0.0864915406, 0.004353184),  # 530
            (0.0289386123, 0.0942524803, 0.00210676313),  # 540
            (0.042529959, 0.0970726266, 0.000912588081),  # 550
            (0.0562410595, 0.0938797286, 0.00039348004),  # 560
            (0.0696930889, 0.0869713143, 0.000203426969),  # 570
            (0.0817058932, 0.0777917015, 0.000145593243),  # 580
            (0.0869463941, 0.0645003161, 9.88324043e-05),  # 590
            (0.0895556167, 0.0535569633, 6.75667347e-05),  # 600
            (0.0841996755, 0.0426084226, 3.27998583e-05),  # 610
            (0.0701649924, 0.031541745, 1.48879438e-05),  # 620
            (0.0513854209, 0.0213230864, 4.80297194e-06),  # 630
            (0.0354165263, 0.0139047483, 1.58556564e-06),  # 640
            (0.0219911692, 0.00832888975, 2.43090285e-07),  # 650
            (0.012803665, 0.00474743837, 0.0),  # 660
            (0.00697910507, 0.00255834968, 0.0),  # 670
            (0.00353833431, 0.00128732839, 0.0),  # 680
            (0.00161938415, 0.000586076957, 0.0),  # 690
            (0.00157776956, 0.000569832143, 0.0),  # 700
        ]
    )
)


def xyz_from_reflectance(reflectance: Array) -> Array:
    """Return XYZ, shape (..., 3), white Y = 1, of measured reflectance 0 to 1, shape (..., 31).

    >>> xyz_from_reflectance(np.full(31, 0.5)).round(4).tolist()
    [0.4752, 0.5, 0.5445]
    """
    return reflectance @ WEIGHTS_D65_2DEG
