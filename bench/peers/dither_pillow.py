"""Error diffusion beside Pillow's, to the same palettes, in megapixels a second: least of nine, both in one loop.

python3 dither_pillow.py PROGRAM PICTURE...     PROGRAM is build/release/bin/dither_speed (Debian: python3-pil)

Pictures are brought to half a megapixel. Pillow counts errors in code values; ours counts them in linear light.
"""
import os
import subprocess
import sys
import tempfile
import time

from PIL import Image


def compared(program, path, colours, folder):
    picture = Image.open(path).convert("RGB")
    scale = (500_000 / (picture.width * picture.height)) ** 0.5
    picture = picture.resize((round(picture.width * scale), round(picture.height * scale)), Image.LANCZOS)
    palette = picture.quantize(colours, method=Image.Quantize.MEDIANCUT)
    chosen = palette.getpalette()[:3 * colours]
    row = Image.new("RGB", (len(chosen) // 3, 1))
    row.putdata([tuple(chosen[i:i + 3]) for i in range(0, len(chosen), 3)])
    picture.save(os.path.join(folder, "picture.ppm"))
    row.save(os.path.join(folder, "colours.ppm"))
    pillow, raster, serpentine = [], [], []
    with subprocess.Popen([program, os.path.join(folder, "picture.ppm"), os.path.join(folder, "colours.ppm")],
                          stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as ours:
        for _ in range(9):
            start = time.perf_counter()
            picture.quantize(palette=palette, dither=Image.Dither.FLOYDSTEINBERG)
            pillow.append(time.perf_counter() - start)
            ours.stdin.write("\n")
            ours.stdin.flush()
            one, both = ours.stdout.readline().split()
            raster.append(float(one))
            serpentine.append(float(both))
        ours.stdin.close()
    size = picture.width * picture.height / 1e6
    return [[size / min(times), size / sorted(times)[len(times) // 2]] for times in (pillow, raster, serpentine)]


def main():
    if len(sys.argv) < 3:
        sys.exit("usage: dither_pillow.py PROGRAM PICTURE...")
    print("picture,colours,pillow,ours_raster,ours_serpentine,ratio_raster,ratio_serpentine,noisy,load")
    for path in sys.argv[2:]:
        for colours in (20, 256):
            with tempfile.TemporaryDirectory() as folder:
                rates = compared(sys.argv[1], path, colours, folder)
            best = [rate[0] for rate in rates]
            noisy = "noisy" if any(rate[0] > 1.15 * rate[1] for rate in rates) else ""
            print(f"{os.path.basename(path)},{colours},{best[0]:.1f},{best[1]:.1f},{best[2]:.1f},"
                  f"{best[1] / best[0]:.2f},{best[2] / best[0]:.2f},{noisy},{os.getloadavg()[0]:.1f}")


main()
