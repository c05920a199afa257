#!/usr/bin/env bash
# recompute_test.sh LOSTLINES PYTHON SOURCE: one document worked out by the executable and by
# tests/tools/recompute.py, which shares no code with it.
set -euo pipefail
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
document=$3/tests/whole/data/small_network.json
"$1" new "$scratch/archive" --by Test
"$1" import "$scratch/archive" "$document" --by Test >&2
"$1" analyse "$scratch/archive" --json >"$scratch/analysis.json"
"$2" "$3/tests/tools/recompute.py" "$document" "$scratch/analysis.json"
