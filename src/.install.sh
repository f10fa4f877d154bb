# Installs the Debian packages of a list that are not on this machine yet. Read by src/go and tests/run.
# shellcheck shell=sh

install_missing() {
    wanted=$(grep -v '^#' "$1")
    missing=""
    for package in $wanted; do
        case "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null || true)" in
            installed) ;;
            *) missing="$missing $package" ;;
        esac
    done
    [ -n "$missing" ] || return 0
    as_root=""
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null 2>&1 || { echo "greentag: these packages are missing and there is no sudo to install them:$missing" >&2; exit 69; }
        as_root="sudo"
    fi
    echo "greentag: installing$missing" >&2
    quiet=$(mktemp)
    # shellcheck disable=SC2086 # the list is meant to fall into words
    if ! { $as_root env DEBIAN_FRONTEND=noninteractive apt-get update -q &&
           $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $missing; } >"$quiet" 2>&1; then
        tail -n 20 "$quiet" >&2
        rm -f "$quiet"
        echo "greentag: the packages could not be installed; is the network up?" >&2
        exit 69
    fi
    rm -f "$quiet"
}
