# Sourced by run and test. ensure_packages LIST PURPOSE: installs what LIST names and this machine lacks, after saying so.
# Never waits for an answer where the input is no terminal. Ends 3 when the machine cannot give it.

ensure_packages() {
  local list=$1 purpose=$2 names missing log=build/setup.log
  names=$(sed -E 's/#.*//; s/^[[:space:]]*([^[:space:]]+).*/\1/; /^[[:space:]]*$/d' "$list")
  if ! command -v dpkg-query >/dev/null; then
    echo "This is no Debian: $purpose needs the equivalents of the packages in $list; the build goes on with what is there." >&2
    return 0
  fi
  # shellcheck disable=SC2086
  missing=$({ dpkg-query -W -f='${Package} ${db:Status-Status}\n' $names 2>/dev/null || true; } |
    awk -v names="$names" '$2 == "installed" {have[$1] = 1} END {n = split(names, name, /[ \n]+/); for (i = 1; i <= n; i++) if (!(name[i] in have)) print name[i]}')
  # A program that is here from elsewhere does as well: Debian's npm cannot even be installed beside another Node.
  local name lacking=
  for name in $missing; do command -v "${name/#nodejs/node}" >/dev/null || lacking+=$name$'\n'; done
  missing=$lacking
  [[ -z $missing ]] && return 0
  missing=$(tr '\n' ' ' <<<"$missing" | sed 's/ *$//')
  echo "First set-up: $purpose needs Debian packages that are not here: $missing" | fold -s -w 100 >&2

  local install="apt-get install -y -q --no-install-recommends $missing" as=()
  if ((EUID != 0)); then
    if command -v sudo >/dev/null && { sudo -n true 2>/dev/null || [[ -t 0 ]]; }; then
      as=(sudo)
    else
      printf 'They need the rights of root. Please have this line run, then start again:\n  %s\n' "$install" >&2
      exit 3
    fi
  fi
  mkdir -p build
  echo "Installing them and what they depend on (some minutes, once; the installer's own words go to $log) ..." >&2
  local quiet=(env DEBIAN_FRONTEND=noninteractive)
  # shellcheck disable=SC2086
  if ! "${as[@]}" "${quiet[@]}" $install >"$log" 2>&1 </dev/null &&
    ! { "${as[@]}" apt-get update -q >>"$log" 2>&1 </dev/null && "${as[@]}" "${quiet[@]}" $install >>"$log" 2>&1 </dev/null; }; then
    tail -n 5 "$log" >&2
    printf 'The packages could not be installed; the line was:\n  %s\n' "$install" >&2
    exit 3
  fi
}
