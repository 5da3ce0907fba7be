# Debian 12 packages, one list per use, and the one function that installs what is missing.
# Sourced by ../run and ../check; does nothing by itself.
# shellcheck shell=bash disable=SC2034

# To build and run the program.
k_build_packages=(
  g++ cmake ninja-build ccache pkg-config
  libsqlite3-dev nlohmann-json3-dev libfmt-dev libsodium-dev libexpected-dev
  libhowardhinnant-date-dev libboost-dev
  coinor-libcbc-dev libeigen3-dev
  libpango1.0-dev libcairo2-dev libqrcodegencpp-dev zlib1g-dev
  fontconfig fonts-noto-core  # what is printed is drawn with these
  tzdata
  nodejs npm ca-certificates)  # these build the page

# To test it as well.
k_check_packages=(
  "${k_build_packages[@]}"
  libgtest-dev librapidcheck-dev libbenchmark-dev clang-format-14 sqlite3 python3-scipy
  poppler-utils zbar-tools  # they read back what was printed
  chromium)

# For ./check --long beside these.
k_long_packages=(wrk)

# A package also counts as there when its program is: node and npm often come from elsewhere.
declare -A k_program_of=([g++]=g++ [cmake]=cmake [ninja-build]=ninja [ccache]=ccache [pkg-config]=pkg-config
  [clang-format-14]=clang-format-14 [nodejs]=node [npm]=npm [wrk]=wrk [chromium]=chromium)

# missing_packages NAME... prints those that are not there, on one line.
missing_packages() {
  local name missing=()
  local installed
  # shellcheck disable=SC2016 # the format is dpkg-query's, not the shell's
  installed=$(dpkg-query -W -f '${db:Status-Abbrev}|${Package}|\n' "$@" 2>/dev/null || true)
  for name in "$@"; do
    [[ $installed == *"ii |$name|"* ]] && continue
    [ -n "${k_program_of[$name]-}" ] && command -v "${k_program_of[$name]}" >/dev/null && continue
    missing+=("$name")
  done
  echo "${missing[*]-}"
}

# ensure_packages NAME... installs what is missing: as root, or through sudo when that asks no password.
# Otherwise it prints the exact line to type and exits 2. Only Debian and its kin are known here: elsewhere it says what
# is needed and lets the build find out.
ensure_packages() {
  if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
    echo "This system has no apt-get; what Debian 12 would need is: $*" >&2
    return 0
  fi
  local missing as_root=()
  missing=$(missing_packages "$@")
  [ -z "$missing" ] && return 0
  local -a names
  read -r -a names <<<"$missing"
  if [ "$(id -u)" != 0 ]; then
    if command -v sudo >/dev/null && sudo -n true 2>/dev/null; then
      as_root=(sudo -n)
    else
      echo "These packages are missing and need root to install. Please run:" >&2
      echo "  sudo apt-get update && sudo apt-get install -y --no-install-recommends $missing" >&2
      exit 2
    fi
  fi
  echo "installing: $missing"
  local log
  log=$(mktemp)
  if ! { timeout 300 "${as_root[@]}" apt-get update &&
    timeout 1500 "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
      apt-get install -y --no-install-recommends "${names[@]}"; } >"$log" 2>&1 </dev/null; then
    tail -n 40 "$log" >&2
    rm -f "$log"
    echo "apt-get could not install: $missing" >&2
    exit 2
  fi
  rm -f "$log"
}
