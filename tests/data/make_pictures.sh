#!/bin/sh
# Made pictures/ from exif/upright.png with ImageMagick 6.9.11-60 (Debian 12): sh tests/data/make_pictures.sh
# photo.ppm and indexed.ppm are what the lossless files must decode to; *_jpeg.ppm is what libjpeg decodes.
set -e
cd "$(dirname "$0")/pictures"
convert ../exif/upright.png -crop 148x92+30+10 +repage -resize 37x23! -depth 8 photo.ppm
convert photo.ppm -compress none photo_plain.ppm
convert photo.ppm -colorspace Gray -depth 8 grey.pgm
convert grey.pgm -compress none grey_plain.pgm
convert ../exif/upright.png -crop 148x92+30+10 +repage -resize 37x23! -depth 16 photo_16.ppm
convert photo_16.ppm -depth 16 photo_16.png
convert photo.ppm -monochrome mono.pbm
convert mono.pbm -compress none mono_plain.pbm
convert mono.pbm -depth 8 mono.pgm
convert photo.ppm -type TrueColor BMP3:photo_24.bmp
convert photo.ppm -type TrueColor BMP2:photo_os2.bmp
convert photo.ppm -alpha set -channel A -fx 'i/w' +channel -depth 8 alpha.png
convert alpha.png alpha_32.bmp
convert photo.ppm +dither -colors 200 -type Palette -compress none BMP3:indexed_8.bmp
convert indexed_8.bmp -depth 8 indexed_8.ppm
convert photo.ppm +dither -colors 13 -type Palette -compress none BMP3:indexed_4.bmp
convert indexed_4.bmp -depth 8 indexed_4.ppm
convert mono.pbm -type Bilevel -compress none BMP3:indexed_1.bmp
convert photo.ppm +dither -colors 200 -type Palette -compress RLE BMP3:packed.bmp
for kind in 444:1x1 422:2x1 420:2x2 440:1x2; do
  convert photo.ppm -quality 92 -sampling-factor "${kind#*:}" "jpeg_${kind%:*}.jpg"
  convert photo.ppm -quality 92 -sampling-factor "${kind#*:}" -interlace JPEG "progressive_${kind%:*}.jpg"
  convert "jpeg_${kind%:*}.jpg" -depth 8 "jpeg_${kind%:*}.ppm"
done
convert grey.pgm -quality 92 jpeg_grey.jpg
convert jpeg_grey.jpg -depth 8 jpeg_grey.pgm
convert photo.ppm -colorspace CMYK -quality 92 cmyk.jpg
for kind in gif tiff webp psd jp2 ico exr hdr; do convert photo.ppm -strip "other.$kind" 2>/dev/null || rm -f "other.$kind"; done
