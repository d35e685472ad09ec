# The programs as a person runs them: plan_panel on the demo and on its own job file, and the thin examples.
set -eu
bin=$1
top=$2
demo=$top/examples/demo

fail() {
  echo "$*"
  exit 1
}
same() { cmp "$1/$3" "$2/$3" || fail "$3 differs"; }

# --- the demo: 72 x 96 cells, two tabs a cell ------------------------------------------------------------------------

"$bin/plan_panel" --job "$demo/reading_corner.job" --out demo >summary 2>progress
[ ! -s progress ] || fail "not silent when piped: $(cat progress)"
grep -q "^Reading corner: 72 x 96 cells, 792 mm x 1056 mm$" summary || fail "$(cat summary)"
grep -q "^13,824 pieces in 16 colours" summary || fail "$(cat summary)"
grep -q "^Open first: demo/index.html" summary || fail "$(cat summary)"
for file in index.html plan.job chart.csv palette.csv takeoff.csv marks.csv frame.csv hours.csv plan.json chart.svg \
  preview.png crop_ruler.png; do
  [ -s "demo/$file" ] || fail "no $file"
done
[ ! -e demo/strips.csv ] || fail "strips where pieces are bought"
[ "$(wc -l <demo/chart.csv)" = 96 ] || fail "chart.csv has not 96 courses"

# --- its job file repeats it, from wherever it is run, on any number of threads --------------------------------------

mkdir elsewhere
(cd elsewhere && "$bin/plan_panel" --job ../demo/plan.job --out again --threads 3 >/dev/null)
for file in chart.csv palette.csv takeoff.csv marks.csv chart.svg preview.png crop_ruler.png; do
  same demo elsewhere/again $file
done
(cd elsewhere && "$bin/plan_panel" --job again/plan.job --out again --replace >/dev/null)
for file in chart.csv palette.csv takeoff.csv; do same demo elsewhere/again $file; done

# The folder has its own picture and stock, and is planned again when all it was made from is gone.
cp "$demo/cat.png" Photo.PNG
cp "$demo/felt_stock.csv" shelf.csv
"$bin/plan_panel" Photo.PNG --stock shelf.csv --shop 'ours' --columns 30 --colours 5 --out kept >/dev/null
cmp Photo.PNG kept/picture.png || fail "the picture was not kept as it is"
cmp shelf.csv kept/stock.csv || fail "the stock was not kept as it is"
grep -q "^picture = picture.png$" kept/plan.job && grep -q "^stock = stock.csv$" kept/plan.job || fail "$(cat kept/plan.job)"
rm Photo.PNG shelf.csv
mv kept moved
"$bin/plan_panel" --job moved/plan.job --out moved_again >/dev/null
for file in chart.csv takeoff.csv plan.job picture.png stock.csv; do same moved moved_again $file; done
cut -d, -f11 moved/takeoff.csv | grep -q '^FT[0-9]*-[0-9]' || fail "takeoff.csv names no article"

# The words of the job file and of the command line are the same.
"$bin/plan_panel" "$demo/cat.png" --columns 40 --pitch 7/16in --units inch --brightness -5 --contrast 10 --colours 6 \
  --dither bayer --dither-strength 50% --title "Käte's cat" --lock '#204060' --lock '#c0a080' --out by_option >/dev/null
sed -i 's/^brightness = -5$/brightness = -5 %/' by_option/plan.job
"$bin/plan_panel" --job by_option/plan.job --out by_job >/dev/null
for file in chart.csv palette.csv takeoff.csv chart.svg; do same by_option by_job $file; done
grep -q "^lock = #204060$" by_job/plan.job || fail "a lock was lost"
grep -q "^pitch = 7/16 in$" by_job/plan.job || fail "a length was bent"

# Strips: no order, no spares, pages of their own.
"$bin/plan_panel" "$demo/cat.png" --method strips --board 750x1252.5 --columns 100 --out strips >summary
grep -q "^167 strips of 750 mm$" summary || fail "$(cat summary)"
[ -s strips/strips.csv ] || fail "no strips.csv"

# --- the second demo: a cup in painted strips, 54 x 36 cells ----------------------------------------------------------

kitchen=$top/examples/kitchen
"$bin/plan_panel" --job "$kitchen/kitchen_shelf.job" --out kitchen >summary
grep -q "^Kitchen shelf: 54 x 36 cells, 540 mm x 360 mm$" summary || fail "$(cat summary)"
grep -q "^36 strips of 555 mm$" summary || fail "$(cat summary)"
for file in index.html takeoff.csv strips.csv batches.csv cuts.csv frame.csv hours.csv plan.json; do
  [ -s "kitchen/$file" ] || fail "kitchen: no $file"
done
[ "$(wc -l <kitchen/cuts.csv)" = 108 ] || fail "cuts.csv has not 107 cuts"
grep -q "^fold = lengthwise$" kitchen/plan.job || fail "plan.job does not list a default"
"$bin/plan_panel" --job kitchen/plan.job --out kitchen_again >/dev/null
for file in chart.csv takeoff.csv strips.csv batches.csv cuts.csv frame.csv hours.csv; do
  same kitchen kitchen_again $file
done

# Without --out the plan stands beside us, under the picture's name.
"$bin/plan_panel" "$demo/cat.png" --columns 10 >/dev/null
[ -s cat-plan/index.html ] || fail "no cat-plan"

"$bin/plan_panel" --help >help
for word in columns rows pitch colours stock pieces-per-cell spares dither viewing-distance crop lock board method out replace; do
  grep -q -- "^  --$word" help || fail "--help says nothing of --$word"
done

for program in proof_read replan revise; do
  "$bin/$program" --help | grep -q "^usage: $program" || fail "$program --help"
done

# --- thin examples ---------------------------------------------------------------------------------------------------

"$bin/smallest_pipeline" "$demo/cat.png" smallest.png | grep -q "^72 x 96 cells in 16 colours" || fail "smallest_pipeline"
"$bin/own_component" "$demo/cat.png" own.png | grep -q "^8 shades" || fail "own_component"
for picture in smallest.png own.png; do
  "$bin/plan_panel" $picture --columns 10 --out look --replace >/dev/null || fail "$picture is no picture"
done
heart=$top/examples/heart
"$bin/takeoff_from_chart" "$heart/chart.csv" "$heart/palette.csv" "$heart/stock.csv" takeoff.csv | grep -q EUR ||
  fail "takeoff_from_chart"
[ "$(wc -l <takeoff.csv)" = 4 ] || fail "takeoff.csv has not three colours"
for program in smallest_pipeline own_component takeoff_from_chart; do
  status=0
  "$bin/$program" >/dev/null 2>usage || status=$?
  [ $status = 2 ] || fail "$program without arguments ends with $status"
  [ "$(wc -l <usage)" = 1 ] || fail "$program: $(cat usage)"
done
status=0
"$bin/smallest_pipeline" missing.png x.png 2>line || status=$?
[ $status = 1 ] || fail "a missing picture ends with $status"
grep -q "^smallest_pipeline: missing.png: there is no such file" line || fail "$(cat line)"
echo "all as expected"
