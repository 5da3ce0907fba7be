#!/usr/bin/env bash
# The server under load: GET /api/v1/cellar of the demo cellar by 64 connections, alone and beside a hundred requests
# that are never finished. Prints requests a second and the 99th percentile of the time to answer. Then bodies that are too
# large and clients that are too slow (bench/serve_trouble.mjs).
#   bench/serve_load.sh [PROGRAM] [SECONDS]
# Needs wrk and node. Exit code 1 when an answer was not 200 or a half-open connection stood in the way.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
program=$(realpath "${1:-$here/build/release/undercroft}")
seconds=${2:-10}
folder=$(mktemp -d)
server=0 half_open=0
trap '[ "$half_open" = 0 ] || kill "$half_open" 2>/dev/null || true
      [ "$server" = 0 ] || kill "$server" 2>/dev/null || true
      wait 2>/dev/null || true
      rm -rf "$folder"' EXIT

"$program" demo --as-of 2026-03-14 --book "$folder/book" >/dev/null
UNDERCROFT_NOW=2026-03-14T18:00:00.000Z "$program" serve --book "$folder/book" --port 0 >"$folder/url" &
server=$!
for _ in $(seq 100); do [ -s "$folder/url" ] && break; sleep 0.1; done
url=$(head -n 1 "$folder/url")

# measure <name> <path>
measure() {
  wrk -t2 -c64 -d"${seconds}s" --latency "$url$2" >"$folder/out"
  local rate p99
  rate=$(sed -n 's/^Requests\/sec: *//p' "$folder/out")
  p99=$(sed -n 's/^ *99% *//p' "$folder/out")
  echo "figure: $1: $rate requests a second, 99 % within $p99"
  if grep -E 'Non-2xx|Socket errors' "$folder/out"; then return 1; fi
}

wrk -t1 -c1 -d1s "$url/api/v1/cellar" >/dev/null
measure "cellar, 64 connections" /api/v1/cellar
measure "tables, 64 connections" /api/v1/tables

# Begun again as they are dropped, so that there are always about a hundred.
# shellcheck disable=SC2016 # JavaScript's, not the shell's
node -e '
const net = require("node:net");
const { hostname, port } = new URL(process.argv[1]);
const open = () => {
  const socket = net.connect(port, hostname, () => socket.write(`GET /api/v1/book HTTP/1.1\r\nHost: ${hostname}:${port}\r\nX: `));
  const drip = setInterval(() => socket.write("x"), 1000);
  socket.on("error", () => {});
  socket.on("close", () => { clearInterval(drip); open(); });
};
for (let i = 0; i < 100; ++i) open();
' "$url" &
half_open=$!
sleep 1
measure "cellar, 64 connections beside 100 half-open ones" /api/v1/cellar
measure "tables, 64 connections beside 100 half-open ones" /api/v1/tables
kill "$half_open"
half_open=0
node "$here/bench/serve_trouble.mjs" "$url" "$server"
