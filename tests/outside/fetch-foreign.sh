#!/usr/bin/env bash
# Fetches music files that others wrote from Debian packages into a cache folder, for the checks against the world.
# They are never copied into the repository. Usage: fetch-foreign.sh; the folder is LEDGERLINE_FOREIGN, by default
# node_modules/.cache/ledgerline-foreign. Without apt (a user's own machine) it says so and the checks are skipped.
set -euo pipefail
cd "$(dirname "$0")/../.."
folder=${LEDGERLINE_FOREIGN:-node_modules/.cache/ledgerline-foreign}
packages=(openttd-openmsx planetblupi-music-midi)

if ! command -v apt-get >/dev/null || ! command -v dpkg >/dev/null; then
  echo "no apt-get here: the files of ${packages[*]} are left out" >&2
  exit 0
fi
mkdir -p "$folder"
folder=$(cd "$folder" && pwd)
for package in "${packages[@]}"; do
  [ -d "$folder/$package" ] && continue
  work=$(mktemp -d)
  if (cd "$work" && apt-get download -qq "$package" >/dev/null 2>&1) && dpkg -x "$work"/*.deb "$work/files"; then
    mv "$work/files" "$folder/$package"
  else
    echo "$package cannot be fetched: its files are left out" >&2
  fi
  rm -rf "$work"
done
