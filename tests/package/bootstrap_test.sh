#!/bin/sh
# Tests cmake/bootstrap.sh with made-up tools in place of apt, cmake and plan_panel: sh bootstrap_test.sh SCRIPT FOLDER
set -eu
script=$1
folder=$2

rm -rf "$folder"
mkdir -p "$folder/a root/cmake" "$folder/tools" "$folder/no apt" "$folder/somewhere else"
cp "$script" "$folder/a root/cmake/bootstrap.sh"
here="$folder/somewhere else"
log="$folder/log"
user=0

fail() {
  printf 'FAILED: %s\n--- said\n%s\n--- log\n' "$1" "$said"
  cat "$log"
  exit 1
}
tool() {
  cat >"$folder/$1"
  chmod +x "$folder/$1"
}

# The made-up tools. What is "installed" is a line in a file; each call that changes something is a line in the log.
tool tools/dpkg <<'END'
#!/bin/sh
grep -qx "$2" "$FOLDER/installed" || exit 1
echo "Status: install ok installed"
END
tool tools/apt-get <<'END'
#!/bin/sh
echo "apt-get $*" >>"$FOLDER/log"
take=
for word in "$@"; do
  [ -n "$take" ] && echo "$word" >>"$FOLDER/installed"
  [ "$word" = --no-install-recommends ] && take=yes
done
exit 0
END
tool tools/id <<'END'
#!/bin/sh
echo "$USER_ID"
END
tool tools/sudo <<'END'
#!/bin/sh
echo sudo >>"$FOLDER/log"
"$@"
END
tool tools/cmake <<'END'
#!/bin/sh
echo "cmake $*" >>"$FOLDER/log"
[ "$1" = --build ] || exit 0
mkdir -p "$2/bin"
cp "$FOLDER/plan_panel" "$2/bin/plan_panel"
END
tool tools/ctest <<'END'
#!/bin/sh
echo "ctest $*" >>"$FOLDER/log"
END
tool plan_panel <<'END'
#!/bin/sh
echo "plan_panel $*" >>"$FOLDER/log"
out= replace= next=
for word in "$@"; do
  [ -z "$next" ] || out=$word
  next=
  case $word in --out) next=yes ;; --out=*) out=${word#--out=} ;; --replace) replace=yes ;; esac
done
[ -n "$out" ] || exit 0
[ ! -d "$out" ] || [ -n "$replace" ] || { echo "$out is not empty" >&2; exit 1; }
rm -rf "$out"
mkdir -p "$out/pages"
echo "$*" | sed 's/ --replace//' >"$out/index.html"
echo page >"$out/pages/1.html"
END

# run ARGUMENTS…: calls the script from another folder; sets `said` and `code`.
run() {
  : >"$log"
  code=0
  said=$(cd "$here" && FOLDER="$folder" USER_ID="$user" PATH="$folder/tools:$PATH" sh "../a root/cmake/bootstrap.sh" \
    "$@" 2>&1 </dev/null) || code=$?
}
logged() { grep -q -e "$1" "$log" || fail "not logged: $1"; }
unlogged() { if grep -q -e "$1" "$log"; then fail "logged: $1"; fi; }
ended() { [ "$code" -eq "$1" ] || fail "ended with $code instead of $1"; }
told() { case $said in *"$1"*) ;; *) fail "not said: $1" ;; esac; }

# What is missing is installed, and only that.
printf '%s\n' g++ cmake >"$folder/installed"
run test
ended 0
told "Installing with apt: ninja-build libeigen3-dev"
logged "apt-get .*update"
logged "apt-get .*install.* ninja-build .*catch2"
logged "apt-get .*install.* chromium"
unlogged "apt-get .*install.* cmake"
unlogged sudo
logged "cmake --preset release"
logged "ctest .*--no-tests=error"

# Installed once, apt is never asked again.
run test
ended 0
unlogged apt-get

# Only someone else than root needs sudo.
user=1000
printf '%s\n' g++ >"$folder/installed"
run test
ended 0
told "sudo may ask"
logged sudo
run test
ended 0
unlogged sudo
user=0

# Only the tests want a browser, and Node.js by apt only where there is none.
tool tools/node </dev/null
tool tools/npm </dev/null
printf '%s\n' g++ >"$folder/installed"
run demo --help
ended 0
logged "apt-get .*install"
unlogged chromium
run test
ended 0
logged "apt-get .*install.* chromium$\|apt-get .*install.* chromium "
unlogged "nodejs\|npm"

# The demo: with the job of the demo, into a folder where the user stands.
run demo
ended 0
logged "plan_panel --job $folder/a root/examples/demo/reading_corner.job --out handlaid-plan$"
[ -f "$here/handlaid-plan/index.html" ] || fail "no plan where the user stands"
[ "$(printf '%s\n' "$said" | tail -n 1)" = "Open this first: $here/handlaid-plan/index.html" ] || fail "the end names no file"

# A second run replaces what the first one made …
run demo --columns 40
ended 0
logged "--columns 40 --replace --out handlaid-plan$"
run demo --columns 40
ended 0

# … but nothing that was changed or added since, and no folder that was there before.
echo mine >"$here/handlaid-plan/notes.txt"
run demo
ended 1
told "not empty"
[ -f "$here/handlaid-plan/notes.txt" ] || fail "the user's file is gone"
rm "$here/handlaid-plan/notes.txt"
run demo
ended 0
echo changed >>"$here/handlaid-plan/pages/1.html"
run demo
ended 1
rm -r "$here/handlaid-plan"
mkdir "$here/handlaid-plan"
echo old >"$here/handlaid-plan/old"
run demo
ended 1
[ -f "$here/handlaid-plan/old" ] || fail "a folder that was there before is gone"
rm -r "$here/handlaid-plan"

# The user's own picture, folder and options are passed on as they stand.
run demo "my cat.png" --columns 40
ended 0
logged "plan_panel my cat.png --columns 40 --out handlaid-plan$"
unlogged --job
run demo cat.png --out there
ended 0
logged "plan_panel cat.png --out there$"
told "Open this first: $here/there/index.html"
[ -d "$here/there" ] || fail "--out does not start where the user stands"
run demo cat.png --out there
ended 1
run demo cat.png --columns 40 "--out=$folder/over there"
told "Open this first: $folder/over there/index.html"
run demo cat.png --out
logged "plan_panel cat.png --out$"
run demo --help
ended 0
logged "plan_panel --help$"

# Wrong use.
run
ended 2
run bake
ended 2
run test now
ended 1

# Without apt: what is needed is listed; with the tools there, the work goes on.
for name in sh dirname cat cp grep find cksum sort tr mkdir env nproc sed rm; do
  ln -s "$(command -v $name)" "$folder/no apt/$name"
done
without_apt() {
  : >"$log"
  code=0
  said=$(cd "$here" && FOLDER="$folder" USER_ID=0 PATH="$folder/no apt" sh "$folder/a root/cmake/bootstrap.sh" test 2>&1) ||
    code=$?
}
without_apt
ended 1
told "libeigen3-dev"
told "cmake was not found"
for name in cmake ctest id; do cp "$folder/tools/$name" "$folder/no apt/$name"; done
for name in ninja c++; do cp "$folder/tools/id" "$folder/no apt/$name"; done
without_apt
ended 0
logged ctest

echo "bootstrap.sh does what it says"
