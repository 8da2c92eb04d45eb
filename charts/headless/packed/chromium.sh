#!/bin/sh
# Starts the browser beside this file with the libraries and the fonts that came with it.
here=$(dirname "$(readlink -f "$0")")
export LD_LIBRARY_PATH="$here/al2023/lib${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}"
export FONTCONFIG_FILE="$here/fonts.conf"
exec "$here/chromium" "$@"
