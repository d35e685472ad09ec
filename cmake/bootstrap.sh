#!/bin/sh
# From a bare system to a plan, or to a tested library. Works from any folder and may be run again at any time;
# once everything is installed it needs no network.
set -eu

usage() {
  cat <<'END'
usage: sh cmake/bootstrap.sh demo [PICTURE] [options…]
           Builds the programs and plans a panel: from PICTURE if there is one, otherwise the demo. Everything goes
           to plan_panel as it stands (see: demo --help). Without --out the plan is put into ./handlaid-plan.
       sh cmake/bootstrap.sh test
           Builds everything and runs the whole test suite.
Both first install what is missing, on systems with apt.
END
}

say() { printf '%s\n' "$*"; }
stop() {
  printf 'bootstrap: %s\n' "$*" >&2
  exit 1
}

root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build="$root/build/release"
packages="g++ cmake ninja-build libeigen3-dev libstb-dev libcli11-dev catch2 libbenchmark-dev libpng-dev liblcms2-dev nlohmann-json3-dev libcairo2-dev fonts-dejavu-core libxlsxwriter-dev libzip-dev libpugixml-dev poppler-utils qpdf tesseract-ocr"

# --- what is needed -------------------------------------------------------------------------------------------------

# Only the tests want a browser; Node.js may be here from elsewhere than apt.
want_browser() {
  packages="$packages chromium"
  command -v node >/dev/null || packages="$packages nodejs"
  command -v npm >/dev/null || packages="$packages npm"
}

has_package() { dpkg -s "$1" 2>/dev/null | grep -q '^Status: install ok installed$'; }

as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    stop "not root and no sudo here; as root, run: apt-get install $missing"
  fi
}

install_missing() {
  if ! command -v apt-get >/dev/null || ! command -v dpkg >/dev/null; then
    for tool in cmake ninja c++; do
      command -v $tool >/dev/null && continue
      say "There is no apt here. Please install, by the names of your system, what Debian calls:" >&2
      say "  $packages" >&2
      stop "$tool was not found"
    done
    return 0
  fi
  missing=
  for package in $packages; do
    has_package "$package" || missing="$missing${missing:+ }$package"
  done
  [ -n "$missing" ] || return 0
  say "Installing with apt: $missing"
  [ "$(id -u)" -eq 0 ] || say "This needs root: sudo may ask for your password."
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 update ||
    say "The list of packages could not be renewed; trying the one that is here."
  # shellcheck disable=SC2086 # one word a package
  as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300 install -y \
    --no-install-recommends $missing >/dev/null || stop "apt could not install: $missing"
}

# Says nothing unless it fails; then says everything.
quietly() {
  if ! "$@" >"$build.log" 2>&1; then
    cat "$build.log" >&2
    stop "failed: $*"
  fi
}

configure() {
  mkdir -p "$root/build"
  [ -d "$build" ] || say "Building (only the first time takes minutes) …"
  (cd "$root" && quietly cmake --preset release)
}

# --- the two commands -----------------------------------------------------------------------------------------------

# Check sums of all files in a folder, to see later whether anything there has changed.
contents() { (cd "$1" && find . -type f -exec cksum {} + | LC_ALL=C sort); }

plan_panel() { "$build/bin/plan_panel" "$@"; }

demo() {
  configure
  quietly cmake --build "$build" --target plan_panel

  out=
  given=
  next=
  for argument in "$@"; do
    [ -z "$next" ] || out=$argument
    next=
    case $argument in
      --help | -h)
        plan_panel "$@"
        return
        ;;
      --out) next=yes given=yes ;;
      --out=*) out=${argument#--out=} given=yes ;;
    esac
  done
  case ${1-} in
    "" | -*) set -- --job "$root/examples/demo/reading_corner.job" "$@" ;;
  esac

  if [ -n "$given" ]; then
    plan_panel "$@"
  else
    # A folder of an earlier run is replaced, unless anything in it was changed or added since.
    out=handlaid-plan
    note="$root/build/made-$(pwd | cksum | tr ' ' '-')"
    if [ -d "$out" ] && [ -f "$note" ] && [ "$(contents "$out")" = "$(cat "$note")" ]; then
      set -- "$@" --replace
    fi
    plan_panel "$@" --out "$out"
    contents "$out" >"$note"
  fi
  case $out in
    /*) ;;
    *) out=$(pwd)/$out ;;
  esac
  say ""
  say "The program for the next plan: $build/bin/plan_panel"
  say "Open this first: $out/index.html"
}

run_tests() {
  [ $# -eq 0 ] || stop "test takes no options"
  configure
  cmake --build "$build"
  ctest --test-dir "$build" --output-on-failure --no-tests=error -j "$(nproc 2>/dev/null || echo 2)"
}

command=${1-}
[ $# -eq 0 ] || shift
case $command in
  demo)
    install_missing
    demo "$@"
    ;;
  test)
    want_browser
    install_missing
    run_tests "$@"
    ;;
  help | --help | -h) usage ;;
  *)
    usage >&2
    exit 2
    ;;
esac
