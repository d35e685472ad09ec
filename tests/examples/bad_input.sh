# plan_panel and bad input: the exit code (2 for wrong use, 1 for failure), one line that says what, where and what to
# do, no half-written folder, nothing of the user's changed.
set -eu
plan_panel=$1/plan_panel
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
  contents >../before
  status=0
  "$plan_panel" "$@" >../stdout 2>../stderr || status=$?
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
refuse 2 "spares: it has no effect with the method strips" "$cat_png" --method strips --spares 0.1
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
refuse 2 "stock: its packs hold pieces, and strips are painted" "$cat_png" --stock stock.csv --method strips
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
