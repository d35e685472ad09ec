"""Records what is seen of cells_cat.ppm and of its posterised form from several distances: S-CIELAB by direct sums in
double precision, CIEDE2000 and structural similarity by scikit-image.

Run in this folder: python3 record_seen.py   (Debian 12: python3-numpy, python3-skimage 0.19.3)
Writes seen_errors.csv and seen_cells.csv. "hole" leaves out cells 20 to 49 of rows 10 to 39, counted from 0 at the top.
"""
import csv
import math

import numpy
import skimage.color
import skimage.metrics

WHITE = numpy.array([0.95047, 1.0, 1.08883])
SRGB = numpy.array([[0.4124564, 0.3575761, 0.1804375], [0.2126729, 0.7151522, 0.0721750],
                    [0.0193339, 0.1191920, 0.9503041]])  # IEC 61966-2-1
OPPONENT = numpy.array([[0.279, 0.72, -0.107], [-0.449, 0.29, -0.077], [0.086, -0.59, 0.501]])  # Zhang, Wandell 1996
LOBES = [[(0.921, 0.0283), (0.105, 0.133), (-0.108, 4.336)], [(0.531, 0.0392), (0.330, 0.494)],
         [(0.488, 0.0536), (0.371, 0.386)]]


def decoded(code):
    v = code / 255.0
    return numpy.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)


def gaussian(count, spread):
    """What each of `count` places gives to each other: exp(-r^2/s^2)."""
    r = numpy.arange(count)[:, None] - numpy.arange(count)[None, :]
    return numpy.exp(-(r / spread) ** 2)


def seen(codes, mask, cells_a_degree):
    opponent = decoded(codes) @ SRGB.T @ OPPONENT.T
    result = numpy.zeros_like(opponent)
    for axis, lobes in enumerate(LOBES):
        for weight, degrees in lobes:
            down = gaussian(codes.shape[0], degrees * cells_a_degree)
            across = gaussian(codes.shape[1], degrees * cells_a_degree)
            value = down @ (opponent[:, :, axis] * mask) @ across
            result[:, :, axis] += weight * value / numpy.maximum(down @ mask @ across, 1e-300)
        result[:, :, axis] /= sum(weight for weight, _ in lobes)
    t = result @ numpy.linalg.inv(OPPONENT).T / WHITE
    f = numpy.where(t > (6 / 29) ** 3, numpy.cbrt(t), t * (29 / 6) ** 2 / 3 + 4 / 29)
    return numpy.stack([116 * f[..., 1] - 16, 500 * (f[..., 0] - f[..., 1]), 200 * (f[..., 1] - f[..., 2])], axis=-1)


def read_ppm(name):
    with open(name, "rb") as file:
        magic, width, height, most = file.readline().split() + file.readline().split() + file.readline().split()
        assert (magic, most) == (b"P6", b"255")
        return numpy.frombuffer(file.read(), dtype=numpy.uint8).reshape(int(height), int(width), 3)


cells = read_ppm("cells_cat.ppm")
chart = cells // 64 * 64 + 32
errors, colours = [], []
for name in ("whole", "hole"):
    mask = numpy.ones(cells.shape[:2])
    if name == "hole":
        mask[10:40, 20:50] = 0
    for pitches in (100, 333, 1000, 3000, 20000):
        a_degree = pitches * math.tan(math.radians(1))
        one, other = seen(cells, mask, a_degree), seen(chart, mask, a_degree)
        difference = numpy.sort(skimage.color.deltaE_ciede2000(one, other)[mask > 0])
        high = difference[(len(difference) * 95 + 99) // 100 - 1]
        similar = ""
        if name == "whole":
            similar = "%.6f" % skimage.metrics.structural_similarity(
                one[..., 0], other[..., 0], data_range=100, gaussian_weights=True, sigma=1.5,
                use_sample_covariance=False)
        errors.append([name, pitches, "%.5f" % difference.mean(), "%.5f" % high, similar])
        for x, y in ((0, 0), (36, 48), (71, 95), (19, 20), (55, 3)):
            colours.append([name, pitches, x, y] + ["%.4f" % v for v in one[y, x]])
for name, head, rows in (("seen_errors.csv", ["cells", "pitches", "mean", "high", "similarity"], errors),
                         ("seen_cells.csv", ["cells", "pitches", "x", "y", "L", "a", "b"], colours)):
    with open(name, "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(rows)
