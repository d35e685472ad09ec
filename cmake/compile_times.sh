#!/usr/bin/env bash
# How long each header takes to include: g++ -fsyntax-only, processor time, best of five, as a table in Markdown.
#   bash cmake/compile_times.sh [--write] [HEADER…]     headers as included, like handlaid/core/raster.hpp; none: all
# --write puts the table into DEVELOPERS.md between its two markers. Close other work first: it shows in the figures.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
CXX=${CXX:-g++}
write=
[ "${1-}" = --write ] && write=yes && shift

folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
eigen=${EIGEN:-/usr/include/eigen3}
stb=${STB:-/usr/include/stb}
export LC_ALL=C
TIMEFORMAT='%U %S'

# Milliseconds for a file with these lines.
milliseconds() {
  printf '%s\n' "$@" >"$folder/file.cpp"
  local best=0 spent
  for _ in 1 2 3 4 5; do
    spent=$({ time "$CXX" -std=c++20 -fsyntax-only -I"$root/include" -isystem "$eigen" -isystem "$stb" \
      "$folder/file.cpp" 1>&3 2>&3; } 3>"$folder/messages" 2>&1) || { cat "$folder/messages" >&2; exit 1; }
    spent=$(awk -v t="$spent" 'BEGIN { split(t, s, " "); printf "%.0f", 1000 * (s[1] + s[2]) }')
    if [ "$best" -eq 0 ] || [ "$spent" -lt "$best" ]; then best=$spent; fi
  done
  echo "$best"
}

ratio() { awk -v a="$1" -v b="$2" 'BEGIN { printf "%.2f", a / b }'; }
row() { # HEADER TIME REFERENCE LIMIT
  local r
  r=$(ratio "$2" "$3")
  awk -v h="$1" -v t="$2" -v r="$r" -v l="$4" \
    'BEGIN { printf "| %s | %d | %s | %s |%s\n", h, t, r, l, (l != "" && r > l + 0 ? " over |" : "") }'
}

core=$(milliseconds '#include <Eigen/Core>')
both=$(milliseconds '#include <Eigen/Dense>' '#define STB_IMAGE_IMPLEMENTATION' '#include <stb_image.h>')

if [ $# -eq 0 ]; then
  mapfile -t headers < <(cd "$root/include" && find . -name '*.hpp' | sed 's|^\./||' | sort)
else
  headers=("$@")
fi

{
  echo "$("$CXX" -dumpfullversion | sed "s|^|$(basename "$CXX") |"); \`<Eigen/Core>\` takes $core ms," \
    "\`<Eigen/Dense>\` with the implementation of stb_image $both ms. Ratios of \`handlaid.hpp\` are to the latter," \
    "all others to the former."
  echo
  echo "| header | ms | ratio | at most |"
  echo "| --- | ---: | ---: | ---: |"
  for header in "${headers[@]}"; do
    time=$(milliseconds "#include \"$header\"")
    case $header in
      handlaid.hpp) row "**$header**" "$time" "$both" 1.6 ;;
      handlaid/core/* | handlaid/colour/*) row "${header#handlaid/}" "$time" "$core" 0.3 ;;
      *) row "${header#handlaid/}" "$time" "$core" "" ;;
    esac
  done
} | tee "$folder/table"

if [ -n "$write" ]; then
  awk -v table="$folder/table" '
    /<!-- compile times: end -->/ { inside = 0 }
    !inside { print }
    /<!-- compile times: begin -->/ { inside = 1; print ""; while ((getline line < table) > 0) print line; print "" }
  ' "$root/DEVELOPERS.md" >"$folder/new"
  cp "$folder/new" "$root/DEVELOPERS.md"
fi
