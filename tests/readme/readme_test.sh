#!/bin/sh
# Compiles the C++ of a Markdown file, all blocks as one program: sh readme_test.sh FILE.md FOLDER COMPILER ARGUMENTS…
# A block with a line that ends in `// error: SENTENCE` must be refused with one error that says the sentence.
set -eu
markdown=$1
folder=$2
shift 2
mkdir -p "$folder"
cd "$folder"
rm -f prologue body block_* refused.cpp accepted.cpp

awk '/^```cpp$/ { inside = 1; name = sprintf("block_%02d", ++n); next } /^```$/ { inside = 0 } inside { print > name }' \
  "$markdown"
: >prologue
: >body
count=0
for block in block_*; do
  [ -f "$block" ] || { echo "$markdown holds no C++"; exit 1; }
  count=$((count + 1))
  if grep -q '// error: ' "$block"; then
    sentence=$(sed -n 's|.*// error: ||p' "$block")
    { cat prologue; echo 'void readme() {'; cat body "$block"; echo '}'; } >refused.cpp
    if "$@" -fsyntax-only refused.cpp 2>said; then
      cat "$block"
      echo "^ compiles, but should be refused"
      exit 1
    fi
    if [ "$(grep -c ': error: ' said)" -ne 1 ] || ! grep -qF "$sentence" said; then
      cat said "$block"
      echo "^ is not refused with one error that says: $sentence"
      exit 1
    fi
  else
    grep -E '^(#include|using namespace)' "$block" >>prologue || true
    grep -vE '^(#include|using namespace)' "$block" >>body || true
  fi
done
{ cat prologue; echo 'void readme() {'; cat body; echo '}'; } >accepted.cpp
"$@" -fsyntax-only accepted.cpp
echo "$count blocks do what they say"
