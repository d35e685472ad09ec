#!/bin/sh
# Makes books with plan_panel and tries them in headless Chromium: sh run.sh FOLDER-OF-THE-PROGRAMS TOP-FOLDER WORK-FOLDER
# What it needs from npm is pinned in package-lock.json and kept in the work folder, so that only the first run fetches.
set -eu
bin=$1
top=$2
work=$3
here="$top/tests/browser"

for tool in node npm chromium pdftocairo pdftotext; do
  command -v $tool >/dev/null && continue
  if [ -n "${HANDLAID_REQUIRE_BROWSER-}" ]; then
    echo "$tool is not installed, and HANDLAID_REQUIRE_BROWSER asks for it"
    exit 1
  fi
  echo "skipped: $tool is not installed (Debian: chromium nodejs npm poppler-utils)"
  exit 0
done

mkdir -p "$work/npm"
if ! cmp -s "$here/package-lock.json" "$work/npm/installed"; then
  cp "$here/package.json" "$here/package-lock.json" "$work/npm/"
  (cd "$work/npm" && PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD=1 npm ci --ignore-scripts --no-audit --no-fund --loglevel=error)
  cp "$here/package-lock.json" "$work/npm/installed"
fi

rm -rf "$work/plans"
mkdir -p "$work/plans"
cd "$work/plans"
plan() { "$bin/plan_panel" "$@" >log 2>&1 || { cat log; exit 1; }; }
cat_picture="$top/examples/demo/cat.png"
plan --job "$top/examples/demo/reading_corner.job" --out demo
plan "$cat_picture" --columns 300 --rows 400 --pitch 8 --stock "$top/examples/demo/felt_stock.csv" --colours 20 --out large
plan "$cat_picture" --columns 300 --rows 400 --pitch 8 --method strips --colours 20 --out large_strips
plan "$cat_picture" --columns 24 --rows 30 --method strips --colours 8 --out strips
# Names that would do harm where they were taken for markup.
printf 'name,colour,pieces,price EUR\n' >names.csv
printf '</script><script>window.harm=1</script>,#301810,50,5\n"<img src=x onerror=window.harm=1> ""6""",#b08050,50,5\n' >>names.csv
printf 'שלום 🌿,#f0e0c0,50,5\n' >>names.csv
plan "$cat_picture" --columns 12 --rows 16 --pitch 12 --stock names.csv --colours 3 \
  --title '</title></script><script>window.harm=1</script> "6" & שלום 🌿' --out names
"$bin/replan" --forms demo forms >/dev/null

node "$here/run.mjs" "$work/npm/" "$work/plans" "$bin/replan" "$(command -v chromium)"
