#!/bin/sh
# completions.sh GREENTAG: the scripts are accepted by their shells, and bash offers what the program has.
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
for shell in bash zsh fish; do "$1" completion "$shell" >"$folder/$shell"; done
bash -n "$folder/bash"
zsh -n "$folder/zsh"
fish --no-execute "$folder/fish"

offered() { # offered WORD...: what bash offers for the last of the words
    bash -c '
        source "$1"; shift
        COMP_WORDS=(greentag "$@"); COMP_CWORD=$#
        _greentag; printf "%s\n" "${COMPREPLY[@]}"' bash "$folder/bash" "$@"
}
expect() { # expect WANTED WORD...
    wanted=$1
    shift
    offered "$@" | grep -qx -- "$wanted" || { echo "bash does not offer '$wanted' after: $*" >&2; exit 1; }
}
expect study st
expect retire crew re
expect --minutes study --m
expect 2020 crew add --edition 20
expect never --color n
expect zsh completion z
if offered library --minu | grep -q .; then
    echo "bash offers an option of another verb" >&2
    exit 1
fi
