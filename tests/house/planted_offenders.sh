#!/bin/sh
# Proves that the checks of the house can fail: each offence is planted alone in a small project, must
# be named in the output, and its innocent twin must pass.
#   planted_offenders.sh SOURCE_ROOT
set -eu
root=$1
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
failures=0
cases=0

# try TOOL FILE LINE WORD: plants LINE in FILE of a clean project. WORD empty: must pass.
try() {
  cases=$((cases + 1))
  rm -rf "$place/p"
  mkdir -p "$place/p/src/base" "$place/p/tests" "$place/p/$(dirname "$2")"
  echo 'int one() { return 1; }' >"$place/p/src/base/one.cpp"
  printf '@article{known2001,\n}\n' >"$place/p/REFERENCES.bib"
  printf '%b\n' "$3" >>"$place/p/$2"
  if out=$("$root/tools/$1" "$place/p" 2>&1); then code=0; else code=$?; fi
  if [ -z "$4" ]; then
    [ "$code" -eq 0 ] && return
    echo "$1 refuses what is allowed: $2: $3"
  else
    [ "$code" -eq 1 ] || [ "$code" -eq 123 ] && printf '%s' "$out" | grep -qF -- "$4" && return
    echo "$1 lets pass (or misnames): $2: $3"
  fi
  printf '%s\n' "$out" | sed 's/^/    /'
  failures=$((failures + 1))
}

climb='a floor above it'
try check_floors src/base/two.cpp '#include "huewright/colour/lab.h"' "$climb"
try check_floors src/colour/two.cpp '#include "huewright/base/result.h"' ''
try check_floors include/huewright/hair/two.h '#include <huewright/process/lift.h>' "$climb"
try check_floors include/huewright/process/two.h '#include <huewright/hair/tress.h>' ''
try check_floors src/plan/two.cpp '  #  include "huewright/wire/case.h"' "$climb"
try check_floors src/sheets/two.cpp '#include "huewright/wire/case.h"' ''
try check_floors src/plan/two.cpp '#include "huewright/photo/chart.h"' "$climb"
try check_floors apps/cli/two.cpp '#include "huewright/photo/chart.h"' ''
try check_floors src/wire/two.cpp '#include "huewright/photo/chart.h"' ''
try check_floors src/photo/two.cpp '#include "huewright/process/lift.h"' "$climb"
try check_floors src/hair/two.cpp '#include "../process/lift.h"' 'leaves its folder'
try check_floors src/hair/two.cpp '#include "src/base/secret.h"' 'private sources'
try check_floors src/hair/two.cpp '#include "huewright/attic/box.h"' 'no such floor'
try check_floors src/attic/two.cpp 'int two;' 'is no floor'
try check_floors src/process/two.cpp '#include <ctime>' 'hidden chance'
try check_floors src/process/two.cpp '#include <chrono>' ''
try check_floors src/process/two.cpp '  std::chrono::steady_clock::now();' 'hidden chance'
try check_floors src/wire/two.cpp '#include <fstream>' ''
try check_floors src/process/two.cpp '  auto file = std::fopen("x", "r");' 'hidden chance'
try check_floors src/process/two.cpp '  const double t = lift_time(3); // by time(minutes)' ''

long=$(awk 'BEGIN { for (i = 0; i < 500; ++i) printf "int x%d;\\n", i }')
try check_files src/base/two.cpp "$long" 'over 500 lines'
try check_files data/two.csv "$long" ''
try check_files src/base/two.cpp '#if'' 0' 'switched-off'
try check_files tests/two.cpp 'TEST(One, DISABLE''D_two)' 'switched-off'
try check_files tests/two.cpp 'GTEST_SKI''P();' 'switched-off'
try check_files tools/two '# TOD''O: later' 'switched-off'
try check_files apps/cli/two.cpp '// FIXM''E' 'switched-off'
try check_files apps/cli/two.cpp '// methods, and todos of a salon' ''
try check_files README.md 'see /wor''k/main' 'one machine'
try check_files data/two.meta.json '"from /tm''p/x.csv"' 'one machine'
try check_files docs/two.md 'as the seed docu''ment says' 'one machine'
try check_files scripts/two 'curl deb.debia''n.org' 'one machine'
try check_files README.md 'a working copy, a framework/plan' ''

try check_sources tests/two.cpp 'Source{"known2001", "table 1"}' ''
try check_sources tests/two.cpp 'Source{"unknown1999", "table 1"}' 'unknown1999'
try check_sources tests/two.cpp 'Source{\n    "unknown1999", "table 1"}' 'unknown1999'
try check_sources tests/two.cpp 'const Source kOne{"unknown1999", "p. 3"};' 'unknown1999'
try check_sources tests/two.cpp 'Source{"common practice, no source", ""}' ''
try check_sources include/huewright/base/two.h '/// @cite known2001, eq. 3' ''
try check_sources include/huewright/base/two.h '/// @cite unknown1999, eq. 3' 'unknown1999'
try check_sources src/base/two.cpp '// A law (bib: unknown1999, eq. 3).' 'unknown1999'
try check_sources REFERENCES.bib '@book{known2001,\n}' 'twice'

# The page of sources and the seal, on a project of one table.
table=$place/t
mkdir -p "$table/tools" "$table/data/hair" "$table/docs"
cp "$root/tools/sources_page" "$root/tools/seal_table" "$table/tools"
echo 'x_nm' >"$table/data/hair/one.csv"
echo '{"id": "hair/one", "columns": {"x_nm": {"unit": "nm"}}, "sha256": ""}' \
  >"$table/data/hair/one.meta.json"
expect() {
  cases=$((cases + 1))
  want=$1
  shift
  if "$@" >"$place/out" 2>&1; then code=0; else code=1; fi
  [ "$code" -eq "$want" ] || { echo "exit $code, not $want: $*"; failures=$((failures + 1)); }
}
expect 1 "$table/tools/sources_page" --check
expect 0 "$table/tools/seal_table"
expect 0 "$table/tools/sources_page" --check
expect 0 grep -q "sha256: $(sha256sum <"$table/data/hair/one.csv" | cut -d' ' -f1)" \
  "$table/docs/SOURCES.md"
sed -i 's/"nm"/"um"/' "$table/data/hair/one.meta.json"
expect 1 "$table/tools/sources_page" --check

[ "$failures" -eq 0 ] || { echo "$failures of $cases planted cases went wrong"; exit 1; }
echo "$cases planted cases behaved"
