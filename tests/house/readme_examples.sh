#!/bin/sh
# Runs every shell example of README.md that calls the program, against the program just built. An
# example with NAME in it is run for the first heads of cases/; the test `cases` runs all of them.
# Exit 0, or 3 (a refusal stands), is right.
#   readme_examples.sh SOURCE_ROOT PROGRAM
set -eu
cd "$1"
program=$2
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT

awk -v place="$place" '
/^```sh$/ { inside = 1; text = ""; next }
/^```$/ {
  if (inside && text ~ /build\/release\/huewright/) printf "%s", text > (place "/" ++count ".sh")
  inside = 0
}
inside { text = text $0 "\n" }
END { if (count < 1) exit 1 }' README.md || { echo "README.md has no example to run"; exit 1; }

run() {
  result=0
  sed -e "s#build/release/huewright#$program#g" -e "s#NAME#$2#g" -e "s#\([ =]\)out/#\1$place/#g" "$1" >"$place/now"
  sh -eu "$place/now" >"$place/said" 2>&1 || result=$?
  [ "$result" -eq 0 ] || [ "$result" -eq 3 ] && [ -s "$place/said" ] && return
  echo "exit $result from this example of README.md:"
  cat "$place/now" "$place/said"
  exit 1
}
runs=0
for example in "$place"/*.sh; do
  if grep -q NAME "$example"; then
    for head in cases/0[1-3]-*.json; do
      run "$example" "$(basename "$head" .json)"
      runs=$((runs + 1))
    done
  else
    run "$example" none
    runs=$((runs + 1))
  fi
done
echo "$runs examples ran"
