#!/usr/bin/env bash
# Tries the Linux binaries of a release folder: each alone in an empty folder that is all
# it sees, with no environment, network or other file. One for another processor runs by
# qemu-user, where that is installed.
set -euo pipefail

release=$(cd "$1" && pwd)
native=$(uname -m)
tried=0

(cd "$release" && sha256sum --quiet --check SHA256SUMS)

# try BINARY PROCESSOR runs the commands; its folder is the root of what they see.
try() {
	local root emulator=() see
	root=$(mktemp -d)
	cp "$release/$1" "$root/arrayodds"
	mkdir "$root/work"
	if [[ $2 != "$native" ]]; then
		# It must be static to be seen in the folder; else it stays outside.
		local path
		if path=$(command -v "qemu-$2-static"); then
			cp "$path" "$root/emulator"
			emulator=(/emulator)
		elif path=$(command -v "qemu-$2"); then
			if ldd "$path" >/dev/null 2>&1; then
				mkdir -p "$root/host"
				emulator=(outside "$path")
			else
				cp "$path" "$root/emulator"
				emulator=(/emulator)
			fi
		else
			echo "NOT TRIED: $1 is for $2, and qemu-user is not installed (Debian: apt-get install qemu-user)"
			rm -rf "$root"
			return
		fi
	fi
	if [[ ${emulator[0]:-} == outside ]]; then
		see="an empty environment and folder"
		run() { (cd "$root/work" && env -i "${emulator[1]}" "$root/arrayodds" "$@"); }
	elif unshare --user --map-root-user --net true 2>/dev/null; then
		see="an empty root and environment, without network"
		run() { unshare --user --map-root-user --net env -i "$(command -v chroot)" "$root" "${emulator[@]}" /arrayodds "$@"; }
	else
		see="an empty root and environment"
		run() { env -i "$(command -v chroot)" "$root" "${emulator[@]}" /arrayodds "$@"; }
	fi
	run --version
	run new site.toml >/dev/null
	run check site.toml >/dev/null
	run compare site.toml --accuracy "20 %" --json report.json --xlsx report.xlsx --sheet sheet.html >"$root/compare.txt"
	run desk site.toml >/dev/null
	run licences >"$root/licences.txt"
	run man >"$root/man.txt"
	local where=$root/work
	[[ -e $where/site.toml ]] || where=$root
	local name
	for name in site.toml site.html report.json report.xlsx sheet.html site-desk.html; do
		[[ -s $where/$name ]] || { echo "$1 wrote no $name" >&2; exit 1; }
	done
	grep -q 'Apache License' "$root/licences.txt"
	grep -q 'Apache License' "$where/site.html"
	grep -q 'WebAssembly' "$where/site-desk.html"
	cat "$where"/{report.json,site.html} | sha256sum >"$root/digits.txt"
	sums+=("$(cut -d' ' -f1 "$root/digits.txt") $1")
	echo "tried $1: $see${emulator[*]:+, by qemu-user}"
	tried=$((tried + 1))
	rm -rf "$root"
}

sums=()
for pair in arrayodds-linux-amd64:x86_64 arrayodds-linux-arm64:aarch64; do
	if [[ -e $release/${pair%:*} ]]; then
		try "${pair%:*}" "${pair#*:}"
	fi
done
((tried > 0)) || { echo "$release has no Linux binary that runs here; make release builds them" >&2; exit 1; }
# One seed, the same digits on every processor.
if [[ $(printf '%s\n' "${sums[@]}" | cut -d' ' -f1 | sort -u | wc -l) != 1 ]]; then
	echo "the figures differ:" >&2
	printf '%s\n' "${sums[@]}" >&2
	exit 1
fi
