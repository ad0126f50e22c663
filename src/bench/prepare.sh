#!/usr/bin/env bash
# prepare.sh DIR: fetches freely licensed music and the two peers, and leaves in DIR
#   *.wav (24 bit) and *.f64 (raw, interleaved) of at most four minutes each, and the program peer.
# Tools that are missing are installed with apt-get; music packages are only unpacked below DIR.
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
mkdir -p "$1" && cd "$1"

need=()
command -v ffmpeg >/dev/null || need+=(ffmpeg)
command -v gcc >/dev/null || need+=(gcc libc6-dev)
[ -e /usr/include/ebur128.h ] || need+=(libebur128-dev)
if [ "${#need[@]}" -gt 0 ]; then
  apt-get update -qq
  apt-get install -y -qq --no-install-recommends "${need[@]}" >/dev/null
fi
[ -x peer ] || gcc -O3 -march=native -o peer "$here/peer.c" -lebur128 -lm

# Six tracks at 44.1 kHz and six at 48 kHz, in the order of their names.
for package in wesnoth-1.16-music warzone2100-music; do
  [ -d "$package" ] && continue
  apt-get download -qq "$package"
  dpkg -x "$package"_*.deb "$package.part" && rm "$package"_*.deb && mv "$package.part" "$package"
done
n=0
while read -r file; do
  n=$((n + 1))
  name="$(printf 'track%02d' "$n")"
  [ -e "$name.f64" ] && continue
  rate="$(ffprobe -v error -show_entries stream=sample_rate -of csv=p=0 "$file" | head -1)"
  ffmpeg -nostdin -v error -y -i "$file" -t 240 -ac 2 -c:a pcm_s24le "$name.wav"
  ffmpeg -nostdin -v error -y -i "$name.wav" -f f64le "$name.f64.part"
  echo "$rate" > "$name.rate"
  mv "$name.f64.part" "$name.f64"
done < <(for package in wesnoth-1.16-music warzone2100-music; do
  find "$package" -size +2M \( -name '*.ogg' -o -name '*.opus' \) | LC_ALL=C sort | head -6
done)
# The first track pressed against a limiter as loud masters are.
if [ ! -e limited.f64 ]; then
  rate="$(cat track07.rate)"
  ffmpeg -nostdin -v error -y -i track07.wav -af "volume=12dB,alimiter=limit=0.97:level=0:attack=1:release=20" \
    -c:a pcm_s24le limited.wav
  ffmpeg -nostdin -v error -y -i limited.wav -f f64le limited.f64.part
  echo "$rate" > limited.rate
  mv limited.f64.part limited.f64
fi
