# Proof reading as a person does it: the heart read out course by course, a plan of plan_panel whose preview stands for
# a photo of the board, and what must be refused.
set -eu
bin=$1
top=$2

fail() {
  echo "$*"
  exit 1
}
# ends_with CODE arguments...: what the program says is in `said`
ends_with() {
  wanted=$1
  shift
  code=0
  "$bin/proof_read" "$@" >said 2>err || code=$?
  [ "$code" = "$wanted" ] || fail "ended with $code, not $wanted: $* $(cat said err)"
}
says() { grep -qF "$1" said || fail "not said: $1; but $(cat said)"; }
# refused CODE "part of the message" arguments...: one line, and nothing is written
refused() {
  wanted=$1
  part=$2
  shift 2
  ends_with "$wanted" "$@" --out bad
  [ "$(wc -l <err)" = 1 ] || fail "not one line: $(cat err)"
  grep -qF -- "$part" err || fail "not said: $part; but $(cat err)"
  [ ! -s said ] && [ ! -e bad ] || fail "half written: $*"
}

# --- courses of the heart that are read out ----------------------------------------------------------------------------

cp -r "$top/examples/heart" heart
printf 'pitch = 11 mm\n' >heart/plan.job
# The fourth line from below, by hand from chart.csv.
course=$(tail -n 4 heart/chart.csv | head -n 1)
ends_with 0 heart --course 4 "$course"
says "no slip"
wide=$(echo "$course" | awk -F, '{ print NF }')
middle=$((wide / 2))
right=$(echo "$course" | cut -d, -f$middle)
wrong=$((right % 3 + 1))
ends_with 3 heart --course 4 "$(echo "$course" | awk -F, -v OFS=, -v m=$middle -v w=$wrong '{ $m = w; print }')"
says "course 4, column $middle: $wrong ("
says "1 slip"
# One cell dropped: one slip, not one at every place behind it.
ends_with 3 heart --course 4 "$(echo "$course" | cut -d, -f1-$((middle - 1)),$((middle + 1))-)"
grep -q "^course 4, column.* is missing" said || fail "$(cat said)"
says ": 1 slip"

# --- counted runs ------------------------------------------------------------------------------------------------------

runs=$(echo "$course" | awk -F, '{ n = 1; for (i = 2; i <= NF; ++i) n += $i != $(i - 1); print n }')
ends_with 0 heart --course 4 --runs "$runs"
says "no slip up to run $runs of $runs"
ends_with 0 heart --course 4 --runs "$runs" --last-mark "$((11 * wide + 5)) mm" # less than half a cell off
ends_with 3 heart --course 4 --runs "$runs" --last-mark $((11 * wide - 22))
says "2 cells too near"
ends_with 3 heart --course 4 --runs $((runs + 1))
says "the plan has $runs"

# --- marks -------------------------------------------------------------------------------------------------------------

ends_with 0 heart --marks marks.svg
grep -q '<svg ' marks.svg || fail "no marks"
grep -q 'width="210mm"' marks.svg || fail "not at true size"

# --- a photo -----------------------------------------------------------------------------------------------------------

"$bin/plan_panel" "$top/examples/demo/cat.png" --columns 40 --rows 50 --pitch 12 --colours 8 --dither none --out cat >/dev/null
[ "$(wc -l <cat/checks.csv)" = 51 ] || fail "$(head -n 3 cat/checks.csv)"
size() { od -A n -t u1 -j "$1" -N 4 cat/preview.png | awk '{ print ($3 * 256) + $4 }'; } # of a PNG, its header
width=$(size 16)
height=$(size 20)
corners="0,$height 0,0 $width,0 $width,$height"
ends_with 0 cat cat/preview.png --corners "$corners" --out right
says "50 courses laid, 2,000 cells looked at: 0 cells"
[ "$(wc -l <right/proof.csv)" = 1 ] || fail "$(cat right/proof.csv)"
# A board that was laid otherwise than planned: course 11, column 7.
cp -r cat slip
awk -F, -v OFS=, 'NR == 40 { $7 = $7 % 8 + 1 } { print }' cat/chart.csv >slip/chart.csv
ends_with 3 slip cat/preview.png --corners "$corners" --out wrong
says "course 11, column 7: looks like"
[ "$(sed 1d wrong/proof.csv | cut -d, -f1-3)" = "11,7,wrong" ] || fail "$(cat wrong/proof.csv)"
[ -s wrong/proof.png ] || fail "no picture"
ends_with 3 slip cat/preview.png --corners "$corners" --out wrong # once more in its place

# --- strips that hang 6 mm over the course below: the cup, a pixel a millimetre -----------------------------------------

"$bin/plan_panel" --job "$top/examples/kitchen/kitchen_shelf.job" --out cup >/dev/null
# photo COURSES-LAID: the board is grey where nothing is laid; strip 1 hangs below it
photo() {
  awk -F, -v laid="$1" '
    function two(text) { return 16 * index("123456789abcdef", substr(text, 1, 1)) + index("123456789abcdef", substr(text, 2, 1)) }
    NR == FNR { if (FNR > 1) look[$1] = two(substr($3, 2)) " " two(substr($3, 4)) " " two(substr($3, 6)); next }
    { rows = FNR; for (x = 1; x <= NF; ++x) cell[FNR, x] = $x; columns = NF }
    END {
      print "P3 " columns * 10 " " rows * 10 + 6 " 255"
      for (y = rows * 10 + 5; y >= 0; --y) {
        course = int(y / 10) + 1
        if (course > laid && y < laid * 10 + 6) course = laid
        for (x = 0; x < columns * 10; ++x) {
          print ((course > laid) ? "170 160 140" : look[cell[rows + 1 - course, int(x / 10) + 1]])
        }
      }
    }' cup/palette.csv cup/chart.csv
}
photo 36 >laid.ppm
ends_with 0 cup laid.ppm --corners "0,366 0,0 540,0 540,366" --out cup_right
says "36 courses laid, 1,944 cells looked at: 0 cells"
photo 20 >half.ppm
ends_with 0 cup half.ppm --corners "0,366 0,0 540,0 540,366" --out cup_half
says "20 courses laid, 1,080 cells looked at: 0 cells"
cp -r cup cup_slip
awk -F, -v OFS=, 'NR == 30 { $9 = $9 % 8 + 3 } { print }' cup/chart.csv >cup_slip/chart.csv
ends_with 3 cup_slip laid.ppm --corners "0,366 0,0 540,0 540,366" --out cup_wrong
says "course 7, column 9: looks like"
ends_with 0 cup --marks cup_marks.svg
grep -q "below the lowest" cup_marks.svg || fail "the marks say nothing of what hangs over"

# --- what must be refused ----------------------------------------------------------------------------------------------

refused 1 "does not look like this plan" cat cat/preview.png --corners "$width,0 $width,$height 0,$height 0,0"
refused 2 "anticlockwise" cat cat/preview.png --corners "$width,$height $width,0 0,0 0,$height"
refused 2 "cross" cat cat/preview.png --corners "0,$height $width,0 0,0 $width,$height"
refused 2 "on one line" cat cat/preview.png --corners "0,$height 0,100 0,0 $width,$height"
refused 2 "corner 3 is outside" cat cat/preview.png --corners "0,$height 0,0 90000,0 $width,$height"
refused 2 "is not four places" cat cat/preview.png --corners "0,1 2,3"
refused 1 "4 are needed" cat "$top/examples/demo/cat.png" --corners "0,90 0,0 90,0 90,90"
refused 1 "marks were not found" cat cat/preview.png
refused 1 "none.jpg" cat none.jpg
refused 1 "none/plan.job" none cat/preview.png
refused 2 "course: 51 is out of range" cat --course 51 "1 2"
refused 1 "is no colour number" cat --course 1 "1 red"
refused 2 "--runs: 0 is out of range" cat --course 1 --runs 0
refused 2 "is no length" cat --course 1 --runs 1 --last-mark soon
refused 2 "--course: \"x\" is no whole number" cat --course x "1 2"
refused 2 "--colour: it is not known" cat --colour 1
cp -r cat torn && head -n 10 cat/chart.csv >torn/chart.csv
refused 1 "torn/chart.csv" torn cat/preview.png --corners "$corners"
ends_with 2
grep -q usage err || fail "$(cat err)"
ends_with 2 cat
ends_with 2 cat --course 3
ends_with 2 cat --last-mark 3 --course 4
