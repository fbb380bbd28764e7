#!/bin/sh
# Writes the demo's printed parts again, beside this script. The files are committed; run this
# after a change to meshes.c and commit both.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"${CC:-cc}" -std=c17 -O1 -Wall -Wextra -Wconversion -Wshadow -Werror -o "$work/meshes" "$here/meshes.c" -lm
"$work/meshes" "$here"
