# Planning again as a person runs it: the heart with some courses laid, and files that must be refused.
set -eu
bin=$1
heart=$2/examples/heart

fail() {
  echo "$*"
  exit 1
}
replan() { "$bin/replan" "$heart/chart.csv" "$heart/palette.csv" "$@"; }
refused() {
  wanted=$1
  shift
  if replan "$@" bad >out 2>err; then fail "taken: $wanted"; fi
  [ "$(wc -l <err)" = 1 ] || fail "not one line: $(cat err)"
  grep -q "$wanted" err || fail "$(cat err)"
  [ ! -e bad ] || fail "half written"
}

# The fingerprint that a file of another chart is refused with.
printf 'chart,0\ncourse,minutes\n' >other.csv
refused "another chart" other.csv other.csv "$heart/stock.csv"
mark=$(sed -n 's/.*give the file of the chart \([0-9a-f]*\).*/\1/p' err)
[ ${#mark} = 16 ] || fail "no fingerprint: $(cat err)"

printf 'chart,%s\ncourse,minutes\n1,5\n2,4.5\n3,4\n' "$mark" >progress.csv
colours=$(($(wc -l <"$heart/palette.csv") - 1))
{
  printf 'chart,%s\nnumber,pieces\n' "$mark"
  for number in $(seq "$colours"); do echo "$number,3"; done
} >in_hand.csv

replan progress.csv in_hand.csv "$heart/stock.csv" new >summary
grep -q "courses left: [0-9]* to [0-9]* minutes" summary || fail "$(cat summary)"
for file in chart.csv progress.csv changes.csv order.csv; do [ -s new/$file ] || fail "no $file"; done
tail -n 3 "$heart/chart.csv" >laid
tail -n 3 new/chart.csv | cmp - laid || fail "laid courses changed"
"$bin/replan" new/chart.csv "$heart/palette.csv" new/progress.csv other.csv "$heart/stock.csv" bad 2>err && fail "taken"
grep -q "^replan: other.csv, line 1" err || fail "the new progress is not of the new chart: $(cat err)"

printf 'chart,%s\ncourse,minutes\n1,5\n1,4\n' "$mark" >twice.csv
refused "stands in line 3 too" twice.csv in_hand.csv "$heart/stock.csv"
printf 'chart,%s\ncourse,minutes\n999,5\n' "$mark" >beyond.csv
refused "out of range" beyond.csv in_hand.csv "$heart/stock.csv"
refused "another chart" progress.csv other.csv "$heart/stock.csv"
refused "stock" progress.csv in_hand.csv missing_stock.csv
