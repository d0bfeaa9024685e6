# Sourced by run and test: configure once, build quietly with a short progress line, show the compiler's words only when it fails.

# configure_folder PRESET [CMAKE OPTIONS]: a build folder that belongs to another place or is half made is begun anew.
configure_folder() {
  local preset=$1 folder=build/$1 log
  shift
  log=$folder.configure.log
  if [[ -f $folder/CMakeCache.txt ]] && ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$PWD" "$folder/CMakeCache.txt"; then rm -rf "$folder"; fi
  mkdir -p build
  if ! cmake --preset "$preset" "$@" >"$log" 2>&1 </dev/null; then
    tail -n 20 "$log" >&2
    echo "The build could not be prepared (whole text: $log)." >&2
    exit 3
  fi
}

# The build that users run. Proofs are added to it by ./test and stay; ./run leaves them as they are.
configure_release() {
  if [[ ! -f build/release/build.ninja ]] || ! grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$PWD" build/release/CMakeCache.txt; then
    configure_folder release -DHEATWORK_TESTS=OFF
  fi
}

# Says once that something is being built; then a moving count on a terminal, nothing where output is kept.
show_progress() {
  local what=$1 line said=
  while IFS= read -r line; do
    [[ $line =~ ^([0-9]+/[0-9]+)\ (Building|Linking|Generating) ]] || continue
    if [[ -t 2 ]]; then
      printf '\rBuilding %s %s ' "$what" "${BASH_REMATCH[1]}" >&2
    elif [[ -z $said ]]; then
      echo "Building $what ..." >&2
    fi
    said=yes
  done
  [[ $said && -t 2 ]] && printf '\r\033[K' >&2
  return 0
}

# build_targets FOLDER WHAT TARGET...: quiet when nothing is to be done.
build_targets() {
  local folder=$1 what=$2 log=$1.build.log start=$SECONDS
  shift 2
  # Two builds at once in one folder would take files from under each other.
  exec 9>"$folder.lock"
  flock 9
  if ! NINJA_STATUS='%f/%t ' ninja -C "$folder" "$@" 2>&1 </dev/null | tee "$log" | show_progress "$what"; then
    grep -anE '(^|[ :])(fatal )?error:|^FAILED|undefined reference|^ninja: ' -A 4 "$log" | head -n 40 >&2 || true
    echo "$what could not be built (whole text: $log)." >&2
    exit 4
  fi
  exec 9>&-
  if grep -aqE '^[0-9]+/[0-9]+ (Building|Linking)' "$log"; then echo "Built $what in $((SECONDS - start)) s." >&2; fi
}
