# Planning again as a person runs it: the heart with some courses laid, a plan of plan_panel, and files to be refused.
set -eu
bin=$1
top=$2

fail() {
  echo "$*"
  exit 1
}
replan() { "$bin/replan" "$@"; }
refused() {
  wanted=$1
  shift
  if replan "$@" bad >out 2>err; then fail "taken: $wanted"; fi
  [ "$(wc -l <err)" = 1 ] || fail "not one line: $(cat err)"
  grep -q "$wanted" err || fail "$(cat err)"
  [ ! -e bad ] || fail "half written"
}

# --- forms to begin with ---------------------------------------------------------------------------------------------

cp -r "$top/examples/heart" heart
printf 'pieces-per-cell = 2\npitch = 11 mm\nstock = stock.csv\n' >heart/plan.job
replan --forms heart forms >/dev/null
mark=$(sed -n 's/^chart,//p' forms/progress.csv)
[ ${#mark} = 16 ] || fail "no fingerprint: $(cat forms/progress.csv)"
# By hand: 24 cells of wine, 19 of rose, 27 of blush, two pieces each.
grep -q "^1,48$" forms/in_hand.csv || fail "not what the chart needs: $(cat forms/in_hand.csv)"

replan heart forms/progress.csv forms/in_hand.csv start >summary
grep -q "^0 cells changed, 0.00 EUR to buy; no other way is cheaper: start$" summary || fail "$(cat summary)"
grep -q "^No course is timed yet" summary || fail "$(cat summary)"
# 140 pieces at 6 s.
grep -q "likely 14$" summary || fail "$(cat summary)"

# --- three courses laid, of 2, 6 and 10 pieces; what is laid stays ------------------------------------------------------

printf 'chart,%s\ncourse,minutes\n1,1\n2,3\n3,5\n' "$mark" >progress.csv
hand() { printf 'chart,%s\nnumber,pieces\n1,%s\n2,%s\n3,%s\n' "$mark" "$1" "$2" "$3"; }
to_lay() { sed -n "s/^$2,[^,]*,[0-9]*,\([0-9]*\),.*/\1/p" "$1/remaining.csv"; }
same_laid() { tail -n 3 "$1/chart.csv" | cmp - laid || fail "$1: laid courses changed"; }
tail -n 3 heart/chart.csv >laid
replan --minutes 30 heart progress.csv forms/in_hand.csv counted >summary
same_laid counted
# 18 pieces took 9 minutes: 30 s each, and no learning. 122 are left; in 30 minutes 60 are laid. The courses to come have
# 14, 18, 22, 22, 22, 16 and 8, in all 14, 32, 54, 76, 98, 114 and 122.
grep -q "^7 courses left: [0-9]* to [0-9]* minutes, likely 61$" summary || fail "$(cat summary)"
grep -q "^At 30 minutes a day: 3 days; courses to finish each day: 3 3 1$" summary || fail "$(cat summary)"
one=$(to_lay counted 1) two=$(to_lay counted 2) three=$(to_lay counted 3)
[ $((one + two + three)) = 122 ] || fail "$(cat counted/remaining.csv)"

# Rose lacks five pieces, three cells; at 99 a pack, cells become blush or wine of what is over.
hand $((one + 2)) $((two - 5)) $((three + 4)) >in_hand.csv
printf 'name,colour,pieces,price EUR\nwine,#5c1426,50,99\nrose,#b03a52,50,99\nblush,#e79aa4,50,99\n' >dear.csv
replan heart progress.csv in_hand.csv dear.csv new >summary
grep -q "^3 cells changed, 0.00 EUR to buy; no other way is cheaper: new$" summary || fail "$(cat summary)"
same_laid new
[ "$(wc -l <new/changes.csv)" = 4 ] || fail "$(cat new/changes.csv)"
awk -F, 'NR > 1 && ($1 < 4 || $3 != 2 || $4 == 2) { exit 1 }' new/changes.csv || fail "$(cat new/changes.csv)"
[ "$(to_lay new 2)" = $((two - 6)) ] || fail "$(cat new/remaining.csv)"
awk -F, 'NR > 1 && $4 > $5 { exit 1 }' new/remaining.csv || fail "it does not last: $(cat new/remaining.csv)"
# As many cells differ as are listed.
differ=$(paste -d ';' heart/chart.csv new/chart.csv |
  awk -F ';' '{ n = split($1, a, ","); split($2, b, ","); for (i = 1; i <= n; ++i) d += a[i] != b[i] } END { print d }')
[ "$differ" = 3 ] || fail "$differ cells differ"

# The new folder is a plan: its progress goes on, and that of the old chart is not its own.
echo "4,7" >>new/progress.csv
replan new new/progress.csv new/in_hand.csv goes_on >summary
grep -q "^6 courses left" summary || fail "$(cat summary)"
grep -q "^0 cells changed, 0.00 EUR to buy" summary || fail "$(cat summary)"
cmp new/chart.csv goes_on/chart.csv || fail "the chart changed by itself"
refused "another chart" new progress.csv new/in_hand.csv

# At the shop's own price all of the rose is bought, in the cheapest mix.
hand "$one" 0 "$three" >in_hand.csv
replan heart progress.csv in_hand.csv bought >summary
grep -q "^2,rose,$two,1 of 50,,50,$((50 - two)),3.80$" bought/order.csv || fail "$(cat bought/order.csv)"
grep -q "^0 cells changed, 3.80 EUR to buy" summary || fail "$(cat summary)"

# --- a plan of plan_panel --------------------------------------------------------------------------------------------

"$bin/plan_panel" "$top/examples/demo/cat.png" --columns 16 --rows 20 --pitch 12 --course-pitch 9 --pieces-per-cell 3 \
  --stock "$top/examples/demo/felt_stock.csv" --colours 6 --out cat >/dev/null
replan --forms cat cat_forms >/dev/null
replan cat cat_forms/progress.csv cat_forms/in_hand.csv cat_again >summary
grep -q "^0 cells changed, 0.00 EUR to buy" summary || fail "$(cat summary)"
cmp cat/chart.csv cat_again/chart.csv && cmp cat/palette.csv cat_again/palette.csv || fail "not the plan as it was"
awk -F, 'NR > 1 { n += $4 } END { exit n != 16 * 20 * 3 }' cat_again/remaining.csv || fail "not three pieces a cell"
grep -q "^course-pitch = 9 mm$" cat_again/plan.job || fail "the pitch was lost"

# --- what must be refused --------------------------------------------------------------------------------------------

printf 'chart,0\ncourse,minutes\n' >other.csv
refused "another chart" heart other.csv in_hand.csv
printf 'chart,%s\ncourse,minutes\n1,5\n1,4\n' "$mark" >twice.csv
refused "stands in line 3 too" heart twice.csv in_hand.csv
printf 'chart,%s\ncourse,minutes\n999,5\n' "$mark" >beyond.csv
refused "out of range" heart beyond.csv in_hand.csv
refused "another chart" heart progress.csv other.csv
refused "missing_stock.csv" heart progress.csv in_hand.csv missing_stock.csv
refused "nowhere/plan.job" nowhere progress.csv in_hand.csv
refused "minutes a day: 0" --minutes 0 heart progress.csv in_hand.csv
printf 'name,colour,pieces,price EUR\nwine,#5c1426,,\n' >none.csv
hand 0 0 0 >nothing.csv
refused "colour 1 ([0-9]* pieces short), 2 ([0-9]* pieces short), 3 ([0-9]* pieces short): no pack" heart progress.csv nothing.csv none.csv
cp -r heart other_size
echo "columns = 12" >>other_size/plan.job
refused "it has 11 columns and 10 courses, plan.job 12 and 10" other_size progress.csv in_hand.csv
cp -r heart strips
echo "method = strips" >>strips/plan.job
refused "strips are painted" strips progress.csv in_hand.csv
