# The programs and bad input: the exit code (2 for wrong use, 1 for failure), one line that says what, where and what to
# do, no half-written folder, nothing of the user's changed.
set -eu
plan_panel=$1/plan_panel
replan=$1/replan
top=$2
cat_png=$top/examples/demo/cat.png
wrong=0

# Check sums of everything here, names of folders too.
contents() { { find . -type f -exec cksum {} + && find . ! -type f; } | LC_ALL=C sort; }

complain() {
  echo "$*"
  wrong=$((wrong + 1))
}

# refuse CODE PART OPTION...: the run must end with CODE and one line on standard error that holds PART.
refuse() {
  code=$1 part=$2
  shift 2
  refuse_run "$code" "$part" "$plan_panel" "$@"
}

# refuse_run CODE PART PROGRAM OPTION...: the same for any program.
refuse_run() {
  code=$1 part=$2
  shift 2
  contents >../before
  status=0
  "$@" >../stdout 2>../stderr || status=$?
  [ "$status" = "$code" ] || complain "exit $status, not $code: $*: $(cat ../stderr)"
  [ "$(wc -l <../stderr)" = 1 ] || complain "not one line: $*: $(cat ../stderr)"
  grep -qF -- "$part" ../stderr || complain "no \"$part\": $*: $(cat ../stderr)"
  [ ! -s ../stdout ] || complain "something on standard output: $*"
  contents >../after
  cmp -s ../before ../after || complain "something was left behind or changed: $*: $(diff ../before ../after)"
}

# accept PART OPTION...: the run must succeed, silent on standard error, with PART in the summary.
accept() {
  part=$1
  shift
  "$plan_panel" "$@" --out ok --replace >../stdout 2>../stderr || complain "failed: $*: $(cat ../stderr)"
  [ ! -s ../stderr ] || complain "not silent: $*: $(cat ../stderr)"
  grep -qF -- "$part" ../stdout || complain "no \"$part\": $*: $(cat ../stdout)"
  [ -s ok/index.html ] || complain "no bench book: $*"
  rm -rf ok
}

mkdir work
cd work

# --- pictures -------------------------------------------------------------------------------------------------------

# Fully transparent, 16 x 16, made by hand.
printf '\211PNG\015\012\032\012\000\000\000\015IHDR\000\000\000\020\000\000\000\020\010\006\000\000\000\037\363\377a' >clear.png
printf '\000\000\000\022IDAT\170\332\143\140\030\005\243\140\024\214\002\010\000\000\004\020\000\001\257\105\210\054' >>clear.png
printf '\000\000\000\000IEND\256B`\202' >>clear.png
: >empty.jpg
echo "a shopping list" >text.jpg
head -c 100000 "$cat_png" >short.png
cp "$cat_png" sum.png
printf '\000' | dd of=sum.png bs=1 seek=120000 conv=notrunc 2>/dev/null
printf 'P6 100000 100000 255\n' >huge.ppm
printf 'P6 1 1 255\n\001\002\003' >one.ppm
{
  printf 'P5 1 10000 255\n'
  head -c 10000 /dev/zero
} >thin.pgm
printf 'GIF89a\001\000\001\000\000\000\000' >moving.gif
printf 'RIFF\044\000\000\000WEBPVP8 ' >small.webp
printf 'II*\000\010\000\000\000' >scan.tif
printf '\000\000\000\030ftypheic\000\000\000\000' >phone.heic
mkdir folder

refuse 1 "missing.jpg: there is no such file" missing.jpg
refuse 1 "folder: it is a folder" folder
refuse 1 "empty.jpg: " empty.jpg
refuse 1 "text.jpg: " text.jpg
refuse 1 "short.png: " short.png
refuse 1 "sum.png: " sum.png
refuse 1 "huge.ppm: it has 100000 x 100000 pixels" huge.ppm
refuse 1 "transparent everywhere" clear.png
refuse 2 "ground: it has no effect" one.ppm --ground '#ffffff'
refuse 2 "picture: 1 x 10000 pixels are too narrow" thin.pgm
for picture in moving.gif small.webp scan.tif phone.heic; do
  refuse 1 "$picture: " "$picture"
done
grep -q "HEI" ../stderr || complain "the format is not named: $(cat ../stderr)"
find "$top/tests/data" -name '*.jpg' | head -n 1 | while read -r jpeg; do
  size=$(wc -c <"$jpeg")
  for part in 10 50 95 99; do
    head -c $((size * part / 100)) "$jpeg" >cut.jpg
    refuse 1 "cut.jpg: " cut.jpg
  done
  rm cut.jpg
  [ $wrong = 0 ]
done || complain "of a JPEG cut short"
accept "1 x 1 cells" one.ppm
accept "1 x 10 cells" thin.pgm --columns 1 --rows 10
accept "16 x 16 cells" clear.png --ground '#4060a0'

# --- options --------------------------------------------------------------------------------------------------------

refuse 2 "PICTURE: nothing is given"
refuse 2 "see --help" "$cat_png" --colors 3
refuse 2 "see --help" "$cat_png" another.png
refuse 2 "see --help" "$cat_png" --columns
refuse 2 "--colours: 0 is out of range" "$cat_png" --colours 0
refuse 2 "--colours: 1000 is out of range" "$cat_png" --colours 1000
refuse 2 "--colours: \"many\" is not a whole number" "$cat_png" --colours many
refuse 2 "--columns: 0 is out of range" "$cat_png" --columns 0
refuse 2 "--columns: 1000000 is out of range" "$cat_png" --columns 1000000
refuse 2 "--rows: it is given 2 times" "$cat_png" --rows 3 --rows 4
refuse 2 "--pitch: \"nan\" is not a length" "$cat_png" --pitch nan
refuse 2 "--pitch: \"-11mm\" is not a length" "$cat_png" --pitch=-11mm
refuse 2 "--pitch: \"-11\" is not a length" "$cat_png" --pitch -11
refuse 2 "--pitch: nothing is given" "$cat_png" --pitch ""
refuse 2 "--board: \"800\" is not a width and a height" "$cat_png" --board 800
refuse 2 "board: 72 columns at 11 mm are 792 mm wide, the board 700 mm" "$cat_png" --columns 72 --rows 40 --pitch 11 --board 700x900
refuse 2 "crop: 0,0,452,300 is not inside the picture" "$cat_png" --crop 0,0,452,300
refuse 2 "--crop: \"cat\" is not a crop" "$cat_png" --crop cat
refuse 2 "crop: 3:4 does not have the shape of the panel" "$cat_png" --crop 3:4 --columns 72 --rows 72
refuse 2 "--threads" "$cat_png" --threads 0
refuse 2 "--lock: \"#12\" is not a colour" "$cat_png" --lock '#12'
refuse 2 "lock: 2 colours are locked and only 1" "$cat_png" --colours 1 --lock '#000000' --lock '#ffffff'
refuse 2 "lock: #000000 is locked twice" "$cat_png" --lock '#000000' --lock-exact '#000000'
refuse 2 "forbid: #000000 is locked or forbidden already" "$cat_png" --lock '#000000' --forbid '#000000'
refuse 2 "--least-distance: 101 % is out of range" "$cat_png" --least-distance '101 %'
refuse 2 "--least-distance: \"nan\" is not a share" "$cat_png" --least-distance nan
refuse 2 "--least-cells: 0 is out of range" "$cat_png" --least-cells 0
refuse 1 "nothing.png" "$cat_png" --importance nothing.png
refuse 2 "importance: it has 1 x 1 pixels, the picture 451 x 300" "$cat_png" --importance one.ppm
accept "were found that keep to the rules" "$cat_png" --least-distance 0.9

# An option without effect is refused, never dropped.
refuse 2 "dither-strength: it has no effect without a dither" "$cat_png" --dither-strength 0.5
refuse 2 "dither-strength: it has no effect" "$cat_png" --dither none --dither-strength 0.5
refuse 2 "spares-confidence: it has no effect without spares" "$cat_png" --spares 0 --spares-confidence 0.9
refuse 2 "strip-trim: it has no effect" "$cat_png" --strip-trim 20
refuse 2 "course-pitch: it has no effect" "$cat_png" --pitch 11 --course-pitch 1.1cm
refuse 2 "ground: it has no effect" "$cat_png" --ground '#ffffff'
refuse 2 "clear-tolerance: it has no effect" "$cat_png" --clear-tolerance 0.1
refuse 2 "clear-colour: it has no effect" "$cat_png" --clear-colour '#0000ff'

# More colours than there are is no error: fewer, with a line that says so.
accept "Asked for 999 colours; the picture has only 1." one.ppm --colours 999

# --- stock ----------------------------------------------------------------------------------------------------------

stock() { printf "$@" >stock.csv; }
head='name,colour,pieces,price EUR\n'
stock 'name,pieces,price EUR\nrust,50,4.95\n'
refuse 1 "stock.csv, line 1" "$cat_png" --stock stock.csv
grep -q 'colour' ../stderr || complain "the missing column is not named: $(cat ../stderr)"
stock "$head"'rust,red,50,4.95\n'
refuse 1 "stock.csv, line 2, column 6" "$cat_png" --stock stock.csv
stock "$head"'rust,#c04020,50,4.95\nrust,#c04020,50,5.95\n'
refuse 1 "stock.csv, line 3" "$cat_png" --stock stock.csv
stock "$head"'rust,#c04020,-50,4.95\n'
refuse 1 "stock.csv, line 2" "$cat_png" --stock stock.csv
stock ''
refuse 1 "stock.csv" "$cat_png" --stock stock.csv
refuse 1 "stock.csv" "$cat_png" --stock "$cat_png/stock.csv"
refuse 1 "nothing.csv: " "$cat_png" --stock nothing.csv
stock "$head"'rust,#c04020,50,4.95\nchalk,#f0f0f0,50,4.95\n'
refuse 2 "colours: 3 are more than the 2 of the stock" "$cat_png" --stock stock.csv --colours 3
refuse 2 "lock: the stock has no coal" "$cat_png" --stock stock.csv --lock coal
refuse 2 "fitter: it has no effect with a stock" "$cat_png" --stock stock.csv --fitter kmeans
refuse 2 "stock: its packs hold pieces, and strips are painted; give a stock of paints" "$cat_png" --stock stock.csv --method strips
# A byte-order mark, CR LF, a quoted comma: all as spreadsheets write them.
stock '\357\273\277name,colour,pieces,price EUR\r\n"rust, deep",#c04020,50,4.95\r\nchalk,#f0f0f0,50,4.95\r\n'
accept "EUR" "$cat_png" --stock stock.csv --lock "rust, deep"

# --- job file -------------------------------------------------------------------------------------------------------

printf 'picture = cat.png\ncolumsn = 72\n' >my.job
refuse 1 'my.job, line 2: there is no word "columsn"; did you mean "columns"?' --job my.job
printf 'columns = 72\ncolumns = 73\n' >my.job
refuse 1 'my.job, line 2: "columns" stands in line 1 already' --job my.job
printf 'columns = 72\nrows = nan\n' >my.job
refuse 1 'my.job, line 2, column 8: rows: "nan" is not a whole number' --job my.job
printf 'dither-strength = 0.5\n' >my.job
refuse 1 'my.job, line 1: dither-strength: it has no effect' --job my.job "$cat_png"
refuse 1 "line 1, column 1: there are bytes that are no text" --job "$cat_png"
refuse 1 "missing.job: " --job missing.job
printf 'columns = 72\n' >my.job
refuse 2 "PICTURE: nothing is given" --job my.job
printf 'picture = missing.png\n' >my.job
refuse 1 "missing.png: there is no such file" --job my.job

# --- contradictions of the workshop ---------------------------------------------------------------------------------

# The kitchen shelf with some of its words changed: refuse_shelf CODE PART WORD=VALUE..., an empty value taking a word out.
kitchen=$top/examples/kitchen
cp "$kitchen/cup.png" "$kitchen/paint_stock.csv" .
shelf() {
  cp "$kitchen/kitchen_shelf.job" shelf.job
  for change in "$@"; do
    word=${change%%=*} value=${change#*=}
    sed -i "/^$word = /d" shelf.job
    [ -z "$value" ] || printf '%s = %s\n' "$word" "$value" >>changed
  done
  # Words before the first heading stand under none.
  [ ! -e changed ] || { cat changed shelf.job | sed '/^\[/d' >shelf.new && mv shelf.new shelf.job && rm changed; }
}
refuse_shelf() {
  code=$1 part=$2
  shift 2
  shelf "$@"
  refuse "$code" "$part" --job shelf.job --out shelf
}

# Pitch and cells against the board: columns, rows, courses of another height.
refuse_shelf 2 "board: 54 columns at 10 mm are 540 mm wide, the board 500 mm; give at most 50 columns, a pitch of at most 9.2 mm, or a board of 540 mm" "board=500 x 360 mm"
refuse_shelf 2 "board: 36 rows at 10 mm are 360 mm high, the board 300 mm; give at most 30 rows" "board=540 x 300 mm"
refuse_shelf 2 "board: 36 rows at 12 mm are 432 mm high, the board 360 mm" "board=540 x 360 mm" "course-pitch=12 mm"
refuse_shelf 2 "board: 54 columns at 1/2 in are 27 in wide, the board 21 in" "units=inch" "pitch=1/2 in" "board=21 x 14 in"

# The frame and the sheets against the board.
refuse_shelf 2 "timber-length: 500 mm is less than the 540 mm of the longest rail; take timber of 540 mm or longer" "timber-length=500 mm"
refuse_shelf 2 "timber-width: two rails of 180 mm leave no room in a board of 540 mm by 360 mm; take timber narrower than 180 mm" "timber-width=180 mm"
refuse_shelf 2 "sheet: 20 x 12 mm is too small for a board of 540 x 360 mm; take sheets of 27 x 18 mm or larger" "sheet=20 x 12 mm"
refuse_shelf 2 "humidity-high: the dampest air, 70 %, is drier than the driest, 80 %; make it 80 % or more" "humidity-low=80 %"

# The wire, and words that belong to another way of hanging.
refuse_shelf 2 "wire-rise: 20 mm over a span of 516 mm pulls with over twice the weight of the panel; let it rise at least 67 mm, better 149 mm" "wire-rise=20 mm"
refuse_shelf 2 "wire-span: 600 mm on a panel 540 mm wide; make it 540 mm or less" "wire-span=600 mm"
refuse_shelf 1 "wire-rise: it has no effect without a wire" "hanging=hooks" "wire-rise=80 mm"
refuse_shelf 1 "hanging-points: it has no effect with a wire" "hanging-points=3"
shelf "wire-rise=67 mm"
accept "36 strips" --job shelf.job

# Strips: width, overlap, fastened edge, the roll.
refuse_shelf 2 "strip-width: 20 mm is not the 10 mm between courses and the 6 mm of overlap; make it 16 mm" "strip-width=20 mm"
refuse_shelf 2 "strip-width: 8 mm is less than the 10 mm between courses and leaves the board bare; make it 10 mm or more" "overlap=" "strip-width=8 mm"
refuse_shelf 2 "fastened-edge: 16 mm of a strip that is 16 mm wide leave nothing to cut; make it 8 mm or less" "fastened-edge=16 mm"
refuse_shelf 2 "roll-width: 30 mm is less than the 32 mm of a strip before folding; take a roll of 32 mm or wider" "roll-width=30 mm"
refuse_shelf 2 "roll-length: 500 mm is less than the 555 mm of the longest strip; take a roll of 555 mm or longer" "roll-length=500 mm"
refuse_shelf 2 "pieces-per-cell: 200 pieces in a pitch of 10 mm are under 0.1 mm wide; ask for at most 100 pieces" "pieces-per-cell=200"

# Paint, batches and the bench.
refuse_shelf 1 "spreading-rate: 0 is out of range; give 0.5 to 50 m2 a litre" "spreading-rate=0"
refuse_shelf 1 "primer-rate: 0.4 is out of range; give 0.5 to 50 m2 a litre" "primer-rate=0.4"
refuse_shelf 1 "strips-per-batch: 0 is out of range; give 1 to 10000 strips" "strips-per-batch=0"
refuse_shelf 1 "coats: 0 is out of range; give 1 to 20" "coats=0"
refuse_shelf 1 "hours-a-day: 0 is out of range; give 0.1 to 24 hours" "hours-a-day=0"
refuse_shelf 2 "bench-strips: the bench holds 18 strips, a batch has 24; make batches of 18 or fewer, or room for more" "strips-per-batch=24"
refuse_shelf 2 "sittings: 1 for each coat, and sections that touch take at least 2; give 2 or more" "sittings=1"

# Blades against the pitch, the arbor and the hand.
refuse_shelf 2 "blade-thickness: 5 mm leaves no room between cuts that are 5 mm apart; take blades under 5 mm" "blade-thickness=5 mm"
refuse_shelf 2 "blade-thickness: 12 mm leaves no room between cuts that are 10 mm apart" "pieces-per-cell=1" "blade-thickness=12 mm"
refuse_shelf 1 "blade-thickness: it has no effect without a spacer" "spacer=" "most-blades=" "blade-thickness=12 mm"
refuse_shelf 2 "arbor-length: 5 mm is less than the 5.4 mm of two blades and the gap between them; take an arbor of 5.4 mm or longer" "arbor-length=5 mm"
refuse_shelf 2 "newtons-of-hand: 20 N are the force for fewer than two blades of 12 N each; it takes 24 N" "newtons-of-hand=20"
refuse_shelf 2 "spacer: no stack of them comes within 0.5 mm of the gap of 4.6 mm between two blades; add spacers or thin shims that make 4.6 mm together" "spacer=3 mm x 9"

# Loss and confidence, which only pieces have.
refuse 2 "--spares: 1 is out of range; give a share from 0 to 0.5" "$cat_png" --spares 1
refuse 2 "--spares-confidence: 1 is out of range; give a share from 0.5 to 0.9999" "$cat_png" --spares-confidence 1
refuse_shelf 1 "spares: 100 % is out of range; give a share from 0 to 0.5" "spares=100 %"

# Words of the other method, in a file with the place; under the heading of another section.
refuse_shelf 1 "overlap: it has no effect with the method pieces; leave it out, or use the method strips" "method=pieces"
refuse_shelf 1 "shelf.job, line 1: least-spares: it has no effect with the method strips; leave it out, or use the method pieces" "least-spares=3"
printf '[paint]\ncoats = 2\ncolumns = 54\n' >my.job
refuse 1 'my.job, line 3: "columns" stands under [paint], its place is under [board]; move it there' --job my.job
printf '[pant]\ncoats = 2\n' >my.job
refuse 1 'my.job, line 1: there is no section "[pant]"; did you mean "[paint]"?' --job my.job

# A stock without enough of a colour and no way to buy, lots of colours that it has not, and another unit.
stock 'name,colour,pieces,price EUR,in hand\nrust,#c04020,,,100\nchalk,#f0f0f0,50,4.95,\n'
refuse 1 'stock colour "rust": ' "$cat_png" --stock stock.csv --columns 30
grep -qE 'rust": [0-9]+ pieces are needed, 100 are in hand and no pack is on sale; .* have [0-9]+ more in hand' ../stderr ||
  complain "not both sides: $(cat ../stderr)"
stock 'name,colour,ml,price EUR,in hand\nsteam,#f4efe6,,,1\nnight,#17100d,125,6.90,\n'
refuse_shelf 1 'stock colour "steam": ' "stock=stock.csv" "colours="
grep -qE 'steam": [0-9]+ ml are needed, 1 are in hand and no pack is on sale; .* have [0-9]+ more in hand' ../stderr ||
  complain "not both sides: $(cat ../stderr)"
refuse_shelf 2 'lot: the stock has no "steem"; did you mean "steam"?' "lot=steem: 17/3"
refuse_shelf 1 'lot: "steam 17/3" is not a colour and its lot; write it like' "lot=steam 17/3"
stock 'name,colour,g,price EUR\nrust,#c04020,50,4.95\nchalk,#f0f0f0,50,4.95\n'
refuse 1 "stock: its packs are measured in g, what is needed in pieces; say how many g a piece takes" "$cat_png" --stock stock.csv
refuse 2 "stock: its packs hold g, and strips are painted; give a stock of paints" "$cat_png" --stock stock.csv --method strips
rm shelf.job cup.png paint_stock.csv

# --- the middle of the job: progress and pieces in hand -------------------------------------------------------------

cp -r "$top/examples/heart" heart
printf 'pieces-per-cell = 2\npitch = 11 mm\nstock = stock.csv\n' >heart/plan.job
heart=heart
again() { refuse_run 1 "$1" "$replan" "$heart" "$2" "$3" again; }
printf 'chart,0123456789abcdef\ncourse,minutes\n' >other.csv
again "other.csv, line 1, column 7: it belongs to another chart, \"0123456789abcdef\"; give the file of the chart " other.csv other.csv
mark=$(sed -n 's/.*give the file of the chart \([0-9a-f]*\).*/\1/p' ../stderr)
colours=$(($(wc -l <"$heart/palette.csv") - 1))
progress() {
  printf "chart,$mark\ncourse,minutes\n" >progress.csv
  printf "$@" >>progress.csv
}
in_hand() {
  printf "chart,$mark\nnumber,pieces\n" >in_hand.csv
  for number in $(seq "$colours"); do echo "$number,3"; done >>in_hand.csv
}
in_hand
progress '1,5\n2,4.5\n'
again "in_hand.csv" progress.csv missing/in_hand.csv
again 'in_hand.csv, line 2' in_hand.csv in_hand.csv
progress '1,5\n1,4\n'
again "progress.csv, line 4, column 1: course: 1 stands in line 3 too; keep one of them" progress.csv in_hand.csv
progress '999,5\n'
again 'progress.csv, line 3, column 1: course: "999" is out of range; give a course of the chart, 1 to ' progress.csv in_hand.csv
progress '1,-5\n'
again "progress.csv, line 3, column 3: minutes: " progress.csv in_hand.csv
progress '1,nan\n'
again "progress.csv, line 3, column 3: minutes: " progress.csv in_hand.csv
progress '1,0\n'
again "no time at all; leave it empty where it was not timed" progress.csv in_hand.csv
progress '1,5,6\n'
again "progress.csv, line 3" progress.csv in_hand.csv
progress '"1,5\n'
again "progress.csv, line 3" progress.csv in_hand.csv
progress '1,5\377\n'
again "progress.csv, line 3" progress.csv in_hand.csv
printf 'course,minutes\n1,5\n' >progress.csv
again "progress.csv, line 1, column 1: the fingerprint of the chart is missing; the first line is chart,$mark" progress.csv in_hand.csv
: >progress.csv
again "progress.csv: it is empty; its first line is chart,$mark" progress.csv in_hand.csv
progress '1,5\n'
sed -i "3s/.*/1,-3/" in_hand.csv
again "in_hand.csv, line 3, column 3: pieces: " progress.csv in_hand.csv
in_hand
sed -i '$d' in_hand.csv
again "in_hand.csv: colour $colours is missing; count every colour" progress.csv in_hand.csv
in_hand
echo "1,4" >>in_hand.csv
again "number: 1 stands there twice; keep one of them" progress.csv in_hand.csv
in_hand
sed -i '2s/.*/number,grams/' in_hand.csv
again 'in_hand.csv, line 2' progress.csv in_hand.csv
in_hand
head -n 1 "$heart/stock.csv" >stock.csv
refuse_run 1 "stock.csv" "$replan" "$heart" progress.csv in_hand.csv stock.csv again
head -c 105 "$heart/chart.csv" >chart.csv
cp chart.csv "$heart/chart.csv"
again "chart.csv, line" progress.csv in_hand.csv
rm "$heart/chart.csv"
again "chart.csv" progress.csv in_hand.csv

# --- output ---------------------------------------------------------------------------------------------------------

echo mine >file
mkdir full empty
echo mine >full/letter.txt
refuse 1 "file: it is a file" "$cat_png" --out file
refuse 1 "file: it is a file" "$cat_png" --out file --replace
refuse 1 "file/plan" "$cat_png" --out file/plan
refuse 1 "nowhere/plan" "$cat_png" --out nowhere/plan
refuse 1 "/proc/plan" "$cat_png" --out /proc/plan
refuse 1 "full: the folder is there and has files in it" "$cat_png" --out full
refuse 1 'full: it holds "letter.txt"' "$cat_png" --out full --replace
refuse 1 "has no name of its own" "$cat_png" --out .
"$plan_panel" "$cat_png" --out empty >/dev/null 2>../stderr || complain "an empty folder was refused: $(cat ../stderr)"
"$plan_panel" "$cat_png" --out empty --method strips --replace >/dev/null || complain "a plan was not replaced"
"$plan_panel" "$cat_png" --out empty --replace >/dev/null || complain "a plan of strips was not replaced"
[ ! -e empty/strips.csv ] || complain "files of the replaced plan are left"
refuse 1 "empty: the folder is there and has files in it" "$cat_png" --out empty

# A disk that takes no more than 64 kB a file: as good as full.
contents >../before
status=0
(trap '' XFSZ && ulimit -f 128 && exec "$plan_panel" "$cat_png" --out big) >../stdout 2>../stderr || status=$?
[ $status = 1 ] || complain "exit $status on a full disk: $(cat ../stderr)"
[ "$(wc -l <../stderr)" = 1 ] || complain "not one line on a full disk: $(cat ../stderr)"
contents >../after
cmp -s ../before ../after || complain "a full disk left something behind: $(diff ../before ../after)"

# A summary that cannot be shown is a failure; the plan stands.
if [ -e /dev/full ]; then
  status=0
  "$plan_panel" "$cat_png" --out shown >/dev/full 2>../stderr || status=$?
  [ $status = 1 ] || complain "exit $status where the summary could not be shown"
  [ -s shown/index.html ] || complain "no plan where the summary could not be shown"
fi

# Stopped half-way: either all is there or nothing.
"$plan_panel" "$cat_png" --columns 2000 --rows 1300 --pitch 1 --out stopped >/dev/null 2>&1 &
sleep 0.3
kill -TERM $! 2>/dev/null || true
wait $! || true
for left in stopped.part* stopped.old*; do
  [ ! -e "$left" ] || complain "stopping left $left"
done
[ ! -e stopped ] || [ -s stopped/index.html ] || complain "stopping left half a plan"

[ $wrong = 0 ] || {
  echo "$wrong wrong"
  exit 1
}
echo "all refused as they should be"
