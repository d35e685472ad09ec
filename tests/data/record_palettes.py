"""Records what general-purpose libraries make of the same pixels: palettes (scikit-learn, Pillow) and error diffusion
(a second implementation, which pulls errors where ours pushes them).

Run in this folder: python3 record_palettes.py   (Debian 12: python3-sklearn 1.2.1, python3-pil 9.4.0, python3-numpy)
Writes cells_cat.ppm (once, from the demo's photo), palette_peers.csv, diffused_cat_*.pgm.
"""
import csv
import os

import numpy
import PIL.Image
import sklearn.cluster


def decoded(code):
    v = code / 255.0
    return numpy.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)


def encoded(linear):
    v = numpy.where(linear <= 0.0031308, 12.92 * linear, 1.055 * numpy.clip(linear, 0, 1) ** (1 / 2.4) - 0.055)
    return numpy.clip(numpy.floor(255 * v + 0.5), 0, 255).astype(numpy.uint8)


def oklab(codes):
    """B. Ottosson 2020, revised 2021."""
    to_lms = numpy.array([[0.4122214708, 0.5363325363, 0.0514459929],
                          [0.2119034982, 0.6806995451, 0.1073969566],
                          [0.0883024619, 0.2817188376, 0.6299787005]])
    to_lab = numpy.array([[0.2104542553, 0.7936177850, -0.0040720468],
                          [1.9779984951, -2.4285922050, 0.4505937099],
                          [0.0259040371, 0.7827717662, -0.8086757660]])
    return numpy.cbrt(decoded(codes) @ to_lms.T) @ to_lab.T


def codes_of(lab):
    to_lab = numpy.array([[0.2104542553, 0.7936177850, -0.0040720468],
                          [1.9779984951, -2.4285922050, 0.4505937099],
                          [0.0259040371, 0.7827717662, -0.8086757660]])
    to_lms = numpy.array([[0.4122214708, 0.5363325363, 0.0514459929],
                          [0.2119034982, 0.6806995451, 0.1073969566],
                          [0.0883024619, 0.2817188376, 0.6299787005]])
    linear = ((lab @ numpy.linalg.inv(to_lab).T) ** 3) @ numpy.linalg.inv(to_lms).T
    return encoded(linear)


def mean_squared_error(pixels, palette):
    """Each pixel to its nearest palette colour, palette in 8-bit codes, in squared units of Oklab."""
    points = oklab(pixels)
    colours = oklab(numpy.asarray(palette, dtype=numpy.uint8))
    distance = ((points[:, None, :] - colours[None, :, :]) ** 2).sum(axis=2)
    return float(distance.min(axis=1).mean())


def cells(width, height):
    photo = PIL.Image.open("../../examples/demo/cat.png").convert("RGB").crop((60, 0, 285, 300))
    linear = decoded(numpy.asarray(photo, dtype=numpy.float64))
    across = numpy.linspace(0, linear.shape[1], width + 1).astype(int)
    down = numpy.linspace(0, linear.shape[0], height + 1).astype(int)
    mean = [[linear[y0:y1, x0:x1].mean(axis=(0, 1)) for x0, x1 in zip(across, across[1:])]
            for y0, y1 in zip(down, down[1:])]
    return encoded(numpy.array(mean))


def diffused(grey, serpentine):
    """Floyd and Steinberg's weights; errors in 1/1024 of a code, rounded half away from zero once a cell."""
    height, width = grey.shape
    error = {}
    out = numpy.zeros_like(grey)
    for y in range(height):
        backward = serpentine and y % 2 == 1
        for x in (range(width - 1, -1, -1) if backward else range(width)):
            ahead = -1 if backward else 1
            owed = 7 * error.get((y, x - ahead), 0)
            before = serpentine and (y - 1) % 2 == 1
            step = -1 if before else 1
            # The row above gave 3 behind, 5 below, 1 ahead, in its own direction.
            owed += 3 * error.get((y - 1, x + step), 0) + 5 * error.get((y - 1, x), 0)
            owed += 1 * error.get((y - 1, x - step), 0)
            amount = (abs(owed) + 8) // 16 * (1 if owed >= 0 else -1)
            work = int(grey[y, x]) * 1024 + amount
            white = ((work + 8) >> 4) * 2 > 255 * 64  # decided in 1/64 of a code; black at a tie
            out[y, x] = 255 if white else 0
            error[(y, x)] = work - (255 * 1024 if white else 0)
    return out


def main():
    if not os.path.exists("cells_cat.ppm"):
        PIL.Image.fromarray(cells(72, 96)).save("cells_cat.ppm")
    picture = PIL.Image.open("cells_cat.ppm")
    pixels = numpy.asarray(picture).reshape(-1, 3)
    with open("palette_peers.csv", "w", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(["colours", "peer", "mse_oklab"])
        for k in (4, 8, 16, 20, 64):
            fit = sklearn.cluster.KMeans(n_clusters=k, n_init=10, random_state=0).fit(oklab(pixels))
            rows.writerow([k, "scikit-learn KMeans, n_init 10, in Oklab",
                           f"{mean_squared_error(pixels, codes_of(fit.cluster_centers_)):.6e}"])
            median = picture.quantize(k, method=PIL.Image.Quantize.MEDIANCUT, kmeans=0)
            palette = numpy.array(median.getpalette()[:3 * k]).reshape(-1, 3)
            rows.writerow([k, "Pillow median cut", f"{mean_squared_error(pixels, palette):.6e}"])
    grey = numpy.asarray(picture.convert("L"))
    PIL.Image.fromarray(grey).save("grey_cat.pgm")
    for name, serpentine in (("raster", False), ("serpentine", True)):
        PIL.Image.fromarray(diffused(grey, serpentine)).save(f"diffused_cat_{name}.pgm")


main()
