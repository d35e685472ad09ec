# compare_quantisers: every fitter on the same pixels, the table and the sheet whole or not at all.
set -eu
compare=$1/compare_quantisers
cells=$2/tests/data/cells/rocket.ppm
[ -x "$compare" ] || {
  echo "not built: no CLI11"
  exit 0
}

fail() {
  echo "$*"
  exit 1
}
# refuse CODE PART OPTION...: ends with CODE and one line that holds PART.
refuse() {
  code=$1 part=$2
  shift 2
  status=0
  "$compare" "$@" >stdout 2>stderr || status=$?
  [ "$status" = "$code" ] || fail "exit $status, not $code: $*: $(cat stderr)"
  [ "$(wc -l <stderr)" = 1 ] || fail "not one line: $*: $(cat stderr)"
  grep -qF -- "$part" stderr || fail "no \"$part\": $*: $(cat stderr)"
}

# Cells of the asked size are used as they are: the same table with and without --cells but for the times.
"$compare" "$cells" --colours 4,8 --csv plain.csv --picture sheet.png >table
"$compare" "$cells" --colours 4,8 --cells 100x167 --csv cells.csv >/dev/null
for file in plain cells; do cut -d, -f1-7 $file.csv >$file.errors; done
cmp plain.errors cells.errors || fail "--cells changed the pixels"
head -n 1 plain.csv | grep -q "^fitter,k,colours used,mse_oklab,mse_srgb,mean_de2000,p95_de2000,seconds$" || fail "headings"
for fitter in "k-means best" "k-means quick" "median cut" "cut at the best fit"; do
  [ "$(grep -c "^$fitter,[48],[48]," plain.csv)" = 2 ] || fail "no rows of $fitter"
  grep -q "^$fitter " table || fail "no line of $fitter"
done
# The best of 200 random starts of scikit-learn's k-means, see tests/data/kmeans_reference.csv, to 0.5 %.
awk -F, 'FNR == NR { if ($1 == "rocket" && $2 == 8) limit = $3 * 1.005; next }
         $1 == "k-means best" && $2 == 8 { met = $4 <= limit } END { exit !met }' \
  "$2/tests/data/kmeans_reference.csv" plain.csv || fail "k-means best misses the reference"

refuse 1 "none.png: there is no such file" none.png
refuse 2 "\"8,,9\" is no list of numbers" "$cells" --colours 8,,9
refuse 2 "0 is out of range" "$cells" --colours 8,0
refuse 2 "1000 is out of range" "$cells" --colours 1000
refuse 2 "8 is there twice" "$cells" --colours 8,8
refuse 2 "\"100\" is no number of columns and rows" "$cells" --cells 100
refuse 2 "both name x.csv" "$cells" --csv x.csv --picture x.csv
refuse 1 "nowhere/x.csv: " "$cells" --csv nowhere/x.csv
cp "$cells" mine.ppm
refuse 1 "it is the picture itself" mine.ppm --picture mine.ppm
cmp mine.ppm "$cells" || fail "the picture was written over"
refuse 2 "PICTURE" --csv x.csv

# A sheet that does not fit leaves the old one.
cp sheet.png old.png
(trap '' XFSZ && ulimit -f 4 && exec "$compare" "$cells" --colours 2 --picture sheet.png) >/dev/null 2>stderr &&
  fail "a full disk was not seen"
cmp sheet.png old.png || fail "a half-written sheet took the place of a whole one"
[ ! -e sheet.png.part ] || fail "sheet.png.part was left"
echo "all as expected"
