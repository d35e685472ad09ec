#!/bin/sh
# revise as a maker uses it: called as sh revise.sh FOLDER-OF-THE-PROGRAMS TOP-FOLDER EMPTY-FOLDER-TO-WORK-IN
set -eu
bin=$1
top=$2
cd "$3"
fail() {
  echo "revise.sh: $*" >&2
  exit 1
}

# Refused with one line that has all the words given, and nothing written.
refused() {
  plan=$1
  edited=$2
  shift 2
  code=0
  "$bin/revise" "$plan" "$edited" refused >out.txt 2>err.txt || code=$?
  [ $code -eq 1 ] || fail "$edited: ended with $code"
  [ "$(wc -l <err.txt)" -eq 1 ] || fail "$edited: more than one line: $(cat err.txt)"
  for words in "$@"; do
    grep -qF -- "$words" err.txt || fail "$edited: no \"$words\" in: $(cat err.txt)"
  done
  [ ! -e refused ] || fail "$edited: something was written"
}

"$bin/plan_panel" "$top/examples/demo/cat.png" --columns 12 --rows 16 --colours 6 --pitch 20 --title 'A "<b>&' \
  --out plan >/dev/null
before=$(cksum <plan/chart.csv)

# a cell in the text of the chart: the first line is the top course
first=$(sed -n '1s/,.*//p' plan/chart.csv)
other=$((first % 6 + 1))
sed "1s/^$first,/$other,/" plan/chart.csv >edited.csv
"$bin/revise" plan edited.csv one >said.txt
grep -qx "course 16, column 1: $other, was $first" said.txt || fail "the cell is not named: $(cat said.txt)"
grep -qx "$first to $other: 1 cell" said.txt || fail "the colours are not counted"
cmp edited.csv one/chart.csv || fail "the new chart is not the edited one"
grep -qx "lay $other at course 16 column 1" one/changes.txt || fail "the change is not kept"
[ "$(cksum <plan/chart.csv)" = "$before" ] || fail "the old plan has changed"

# made again by its own job, it is the same; takeoff and book follow
"$bin/plan_panel" --job one/plan.job --out again >/dev/null
for file in chart.csv takeoff.csv index.html changes.txt; do
  cmp one/$file again/$file || fail "planned again, $file differs"
done
if cmp -s one/takeoff.csv plan/takeoff.csv; then fail "the takeoff did not follow"; fi

# a spreadsheet's separators; what is the same
tr ',' ';' <edited.csv >semicolons.csv
"$bin/revise" plan semicolons.csv two >/dev/null && cmp two/chart.csv edited.csv || fail "semicolons are not read"
"$bin/revise" one one/chart_pixels.png same | grep -q 'nothing differs' || fail "the picture of the chart differs from it"
[ ! -e same ] || fail "a plan was written though nothing differs"
if [ -e one/chart.xlsx ]; then
  "$bin/revise" plan one/chart.xlsx three >/dev/null && cmp three/chart.csv edited.csv || fail "a workbook is not read"
fi
"$bin/revise" plan one/chart_pixels.png four >/dev/null && cmp four/chart.csv edited.csv || fail "a picture is not read"

# a file of changes, after those that are there
printf 'swap 1 and 2   // try\nmerge 6 into 5\n' >mine.txt
"$bin/revise" one mine.txt five >said.txt
[ "$(wc -l <five/changes.txt)" -eq 3 ] || fail "changes are lost: $(cat five/changes.txt)"
if grep -qE '(^|,)6(,|$)' five/chart.csv; then fail "colour 6 is still there"; fi
"$bin/plan_panel" --job five/plan.job --out five_again >/dev/null
cmp five/chart.csv five_again/chart.csv || fail "changes are not made again"

# each slip is named, and nothing is written
slip() {
  sed "3s|^[^,]*,|$1,|" plan/chart.csv >bad.csv
  shift
  refused plan bad.csv "$@"
}
slip 99 "bad.csv, line 3: course 14, column 1: 99 is not in the palette of 6" "(it was "
slip 2.5 "line 3: course 14, column 1: \"2.5\" is a decimal number"
slip 03/04/2026 "course 14, column 1:" "is a date"
slip x "course 14, column 1: \"x\" is not a colour number"
sed 4d plan/chart.csv >bad.csv
refused plan bad.csv "it has 15 lines for 16 courses"
sed '2s/$/,1/' plan/chart.csv >bad.csv
refused plan bad.csv "line 2: course 15, column 13:" "beyond the 12 columns"
: >bad.csv
refused plan bad.csv "there is nothing in it"
refused plan "$top/examples/demo/cat.png" "pixels, the chart 12 x 16 cells"
refused plan nowhere.csv "nowhere.csv"
refused plan "$top/README.md" "it is no kind of chart that is known here"
refused nowhere edited.csv "nowhere/plan.job"
printf 'merg 1 into 2\n' >bad.txt
refused plan bad.txt "bad.txt, line 1, column 1:" "the nearest is \"merge\""
printf 'merge 1 into 9\n' >bad.txt
refused plan bad.txt "bad.txt, line 1" "9"
printf 'not a workbook' >bad.xlsx
[ ! -e one/chart.xlsx ] || refused plan bad.xlsx "bad.xlsx: it is not a spreadsheet of either kind"

# edited in place, in the folder of the plan: compared with what its job makes, and never lost
cp -r plan inplace
cp edited.csv inplace/chart.csv
"$bin/revise" inplace inplace/chart.csv six >said.txt && cmp six/chart.csv edited.csv || fail "edits in place are lost"
grep -qx '1 cell changed: six' said.txt || fail "edits in place are not listed"
refused inplace mine.txt "inplace/chart.csv: it is not the chart that plan.job beside it makes" "give this file"
cp edited.csv EDITED.CSV
"$bin/revise" plan EDITED.CSV seven >/dev/null || fail "an ending in capitals is not known"

# a plan that is there is left alone
code=0
"$bin/revise" plan edited.csv one >/dev/null 2>err.txt || code=$?
[ $code -ne 0 ] && grep -q one err.txt || fail "a plan that is there was overwritten"
code=0
"$bin/revise" plan >/dev/null 2>&1 || code=$?
[ $code -eq 2 ] || fail "wrong use ended with $code"
