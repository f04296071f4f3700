# What does this project need from Debian, and how does it get there? Sourced by examples/run and tests/run.

build_packages="build-essential cmake ninja-build pkg-config libboost-graph-dev libgraphviz-dev nlohmann-json3-dev libcli11-dev libmuparser-dev"
test_packages="libgtest-dev graphviz libigraph-dev python3 python3-jsonschema python3-networkx clang-format librsvg2-bin libxml2-utils cmark-gfm zsh fish mandoc parallel chromium nodejs assimp-testmodels strace"
perf_packages="libgtest-dev libbenchmark-dev libigraph-dev python3 python3-networkx graphviz"
fuzz_packages="clang libclang-rt-dev"
# Some builds of nodejs bring npm along, and then stand in the way of the package of that name.
command -v npm >/dev/null || test_packages+=" npm"

# install_missing PACKAGE...: asks apt-get for those that are not installed, and for nothing where all are.
install_missing() {
    if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
        echo "this is no Debian machine: going on in the hope that the counterparts of these packages are installed: $*" >&2
        return 0
    fi
    local missing=() package as_root=()
    for package in "$@"; do
        [[ $(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) == "install ok installed" ]] || missing+=("$package")
    done
    [[ ${#missing[@]} -eq 0 ]] && return 0
    if [[ $(id -u) -ne 0 ]]; then
        if ! command -v sudo >/dev/null; then
            echo "these packages are missing, and only root can install them (there is no sudo here): ${missing[*]}" >&2
            echo "as root: apt-get update && apt-get install ${missing[*]}" >&2
            return 1
        fi
        as_root=(sudo)
    fi
    echo "installing ${missing[*]}"
    local log
    log=$(mktemp)
    if ! { "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q update &&
        "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y install --no-install-recommends "${missing[@]}"; } >"$log" 2>&1; then
        cat "$log" >&2
        echo "apt-get could not install ${missing[*]}; its words are above" >&2
        rm -f "$log"
        return 1
    fi
    rm -f "$log"
}

# build FOLDER TARGET OPTION...: configures and builds, shows the words of the tools only where something fails.
build() {
    local folder=$1 target=$2 log
    shift 2
    log=$(mktemp)
    echo "configuring $folder"
    if ! cmake -S . -B "$folder" -G Ninja "$@" >"$log" 2>&1; then
        cat "$log" >&2
        rm -f "$log"
        return 1
    fi
    rm -f "$log"
    if [[ -t 1 ]]; then
        NINJA_STATUS="building $folder %f/%t " ninja -C "$folder" "$target"
    else
        echo "building $folder: this takes some minutes"
        ninja --quiet -C "$folder" "$target"
    fi
}
