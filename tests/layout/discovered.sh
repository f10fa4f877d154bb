#!/bin/sh
# discovered.sh UNIT BUILD: as many CTest entries as the unit binary has cases, and no name that cannot be a filter.
set -eu
cases=$("$1" --count | sed -n 's/.*number of registered test cases[^:]*: *//p' | tr -cd '0-9\n' | tail -n 1)
[ -n "$cases" ] || cases=$("$1" --count | tail -n 1 | tr -cd '0-9')
names=$("$1" --list-test-cases | grep -v '^\[doctest\]\|^===' | grep -c '[];[]' || true)
[ "$names" -eq 0 ] || { echo "$names test names hold ; or brackets" >&2; exit 1; }
listed=$("$1" --list-test-cases | grep -v '^\[doctest\]\|^===' | sort -u | wc -l)
entries=$(ctest --test-dir "$2" -N -L fast | grep -c 'Test *#' || true)
echo "cases $cases, distinct names $listed, entries $entries (one of them this test)"
[ "$listed" -eq "$cases" ] || { echo "two test cases share a name" >&2; exit 1; }
[ "$entries" -eq "$((cases + 1))" ] || { echo "CTest does not run every case" >&2; exit 1; }
