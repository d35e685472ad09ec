"""Records what scikit-learn's k-means reaches on cells/ with 200 random starts, in Oklab.

Run in this folder: OMP_NUM_THREADS=1 python3 record_kmeans.py   (Debian 12: python3-sklearn 1.2.1, python3-scipy 1.10.1)
Takes half an hour. Writes kmeans_reference.csv: per picture and k the least error of the 200 as scikit-learn stops by
itself, and of the same starts when each is run on until no cell changes its colour or 300 rounds have passed.
Errors are mean squared Oklab distances, each cell to its nearest colour, palettes rounded to 8-bit sRGB.
"""
import csv
import warnings

import numpy
import PIL.Image
import scipy.spatial
import sklearn.cluster

import oklab

PICTURES = ["astronaut", "chelsea", "china", "coffee", "flower", "hubble", "retina", "rocket"]
STARTS = 200


def error_of(points, centres):
    """Of a palette once it is rounded to codes."""
    rounded = oklab.from_codes(oklab.to_codes(centres))
    return float((scipy.spatial.cKDTree(rounded).query(points)[0] ** 2).mean())


def best_of_restarts(points, k):
    by_itself, to_the_end = numpy.inf, numpy.inf
    for seed in range(STARTS):
        fit = sklearn.cluster.KMeans(n_clusters=k, init="random", n_init=1, random_state=seed, algorithm="lloyd")
        centres = fit.fit(points).cluster_centers_
        by_itself = min(by_itself, error_of(points, centres))
        on = sklearn.cluster.KMeans(n_clusters=k, init=centres, n_init=1, tol=0, algorithm="lloyd")
        to_the_end = min(to_the_end, error_of(points, on.fit(points).cluster_centers_))
    return by_itself, to_the_end


def main():
    warnings.simplefilter("ignore")  # 300 rounds may not be enough; that is the peer's own default
    rows = []
    for k in (8, 20, 64):
        for picture in PICTURES:
            pixels = numpy.asarray(PIL.Image.open(f"cells/{picture}.ppm")).reshape(-1, 3)
            by_itself, to_the_end = best_of_restarts(oklab.from_codes(pixels), k)
            rows.append([picture, k, repr(by_itself), repr(to_the_end)])
            print(*rows[-1], flush=True)
            with open("kmeans_reference.csv", "w", newline="") as file:
                table = csv.writer(file, lineterminator="\n")
                table.writerow(["picture", "colours", "best_of_200", "best_of_200_run_to_the_end"])
                table.writerows(sorted(rows))


main()
