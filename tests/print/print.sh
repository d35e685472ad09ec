#!/bin/sh
# Prints the demo's PDF files and measures the paper: called as
#   sh print.sh FOLDER-OF-THE-PROGRAMS TOP-FOLDER EMPTY-FOLDER-TO-WORK-IN
set -eu
bin=$1
top=$2
cd "$3"
fail() {
  echo "print.sh: $*" >&2
  exit 1
}

job="$top/examples/demo/reading_corner.job"
"$bin/plan_panel" --job "$job" --out plan >/dev/null
"$bin/plan_panel" --job "$job" --out again >/dev/null
for file in setting_out templates story_poles swatch_cards labels corner_marks large_pages; do
  qpdf --check "plan/$file.pdf" >check.txt 2>&1 || { cat check.txt; fail "qpdf does not like $file.pdf"; }
  cmp "plan/$file.pdf" "again/$file.pdf" || fail "$file.pdf is not the same twice"
  # a print shop wants every font in the file: column emb is followed by sub and uni
  pdffonts "plan/$file.pdf" | sed 1,2d >fonts.txt
  [ -s fonts.txt ] || fail "$file.pdf has no text"
  if grep -v ' yes yes yes ' fonts.txt; then fail "a font is not in $file.pdf"; fi
done
# 210 x 297 mm is 595.28 x 841.89 points; poppler knows the name by the size (ISO 216)
pdfinfo plan/templates.pdf | grep -q '^Page size:.*(A4)' || fail "the templates are not A4"
[ "$(pdfinfo plan/templates.pdf | sed -n 's/^Pages: *//p')" -eq 26 ] || fail "25 templates and a guide were expected"
pdftotext plan/large_pages.pdf - | grep -q 'Reading corner' || fail "text cannot be searched"

# on every page of both demos no letter is smaller than 8 points (DejaVu Sans is 1.164 em high from its ascender to its
# descender), and no word stands in the 10 mm at the edges that no printer reaches
"$bin/plan_panel" --job "$top/examples/kitchen/kitchen_shelf.job" --out strips >/dev/null
for file in plan/*.pdf strips/*.pdf; do
  pdftotext -bbox "$file" type.html
  sed -n 's/.*<page width="\([^"]*\)" height="\([^"]*\)".*/page \1 \2/p
    s/.*xMin="\([^"]*\)" yMin="\([^"]*\)" xMax="\([^"]*\)" yMax="\([^"]*\)">\([^<]*\)<.*/\1 \2 \3 \4 \5/p' type.html |
    awk '$1 == "page" { ++page; width = $2; height = $3; next }
         { ++words; size = $4 - $2; if (size > 1.5 * ($3 - $1) && length($5) > 2) size = $3 - $1  # on its end
           size /= 1.164
           if (size < 8) { print "page " page ": " $5 " is " size " points"; bad = 1 }
           edge = 10 * 72 / 25.4 - 1.5  # the box of a word is higher than its letters
           if ($1 < edge || $2 < edge || $3 > width - edge || $4 > height - edge) {
             print "page " page ": " $5 " is in the margin"; bad = 1 } }
         END { exit bad || words < 10 }' || fail "the words of $file"
done

# true to scale: the first, a middle and the last template, and the numerals of all
pdftotext -bbox plan/templates.pdf words.html
pages=
for page in 2 14 26; do
  pdftoppm -r 600 -f $page -l $page -singlefile plan/templates.pdf page$page
  pages="$pages $page=page$page.ppm"
done
# shellcheck disable=SC2086 # one word a page
"$bin/measure_print" plan/chart.csv 11 words.html 1 $pages || fail "the templates are not true"

# a printer that prints 99 % large: its bars are typed back, and the next print is true
"$bin/plan_panel" --job "$job" --bar-across 178.2 --bar-up 237.6 --out corrected >/dev/null
pdftotext -bbox corrected/templates.pdf words99.html
pdftoppm -r 594 -f 2 -l 2 -singlefile corrected/templates.pdf corrected
"$bin/measure_print" plan/chart.csv 11 words99.html 0.99 2=corrected.ppm || fail "the correction is not true"
pdftoppm -r 594 -f 2 -l 2 -singlefile plan/templates.pdf uncorrected
if "$bin/measure_print" plan/chart.csv 11 words.html 0.99 2=uncorrected.ppm >/dev/null 2>&1; then
  fail "a print at 99 % passes for true"
fi

# the story pole: its numbers stand at their marks, 55 mm for five cells, all from the first one
pdftotext -bbox plan/story_poles.pdf poles.html
# of its first page
sed '/<\/page>/q' poles.html | sed -n 's/.*xMin="\([^"]*\)" yMin="\([^"]*\)" xMax="[^"]*" yMax="\([^"]*\)">\([0-9]*\)<.*/\1 \2 \3 \4/p' |
  awk '$1 > 60 && $1 < 80 && $2 > 130 && $4 ~ /^[0-9]+$/ { y = ($2 + $3) / 2 * 25.4 / 72
         if ($4 == 0 && !have) { zero = y; have = 1 } at[n++] = $4 " " y }
       END { for (i = 0; i < n; ++i) { split(at[i], p, " "); off = zero - p[2] - p[1] * 11
               if (p[1] > 20) continue; ++seen; if (off < 0) off = -off; if (off > worst) worst = off }
             printf "story pole: %d numbers, largest error %.4f mm\n", seen, worst
             exit !(seen >= 5 && worst <= 0.1) }' || fail "the story pole is not true"

# a program that reads print reads the numerals
"$bin/read_numerals" lines plan/chart.csv 11 words.html 14 page14.ppm lines.ppm
OMP_THREAD_LIMIT=1 tesseract lines.ppm read --psm 6 --dpi 600 -c tessedit_char_whitelist=0123456789 2>/dev/null
"$bin/read_numerals" compare plan/chart.csv 11 words.html 14 read.txt || fail "the numerals cannot be read"
rm -f ./*.ppm
