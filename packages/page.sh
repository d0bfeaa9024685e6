# Sourced by run and test. build_page: page/dist made anew where it is not there or was made of other files; quiet where nothing is to be done.

# What the page is made of, as one hash of all its files.
page_sources() {
  find page data/words/page \( -path page/node_modules -o -path page/dist -o -path page/generated \) -prune -o -type f -print0 |
    LC_ALL=C sort -z | xargs -0 sha256sum | sha256sum
}

build_page() {
  local log=build/page.log start=$SECONDS
  [[ -f page/package.json ]] || return 0
  mkdir -p build
  exec 8>build/page.lock
  flock 8
  local sources
  sources=$(page_sources)
  if [[ ! -f page/dist/index.html ]] || ! cmp -s build/page.built - <<<"$sources"; then
    ensure_node "building the page"
    if ! cmp -s page/package-lock.json build/page.brought || [[ ! -d page/node_modules ]]; then
      echo "Bringing what the page is built with, by npm (once) ..." >&2
      rm -f build/page.brought
      if ! npm_brings page "$log"; then
        echo "What the page is built with could not be brought (whole text: $log)." >&2
        exit 3
      fi
      cp page/package-lock.json build/page.brought
    fi
    echo "Building the page ..." >&2
    rm -f build/page.built
    if ! (cd page && npm run --silent build) >"$log" 2>&1 </dev/null; then
      tail -n 30 "$log" >&2
      echo "The page could not be built (whole text: $log)." >&2
      exit 4
    fi
    echo "$sources" >build/page.built
    echo "Built the page in $((SECONDS - start)) s." >&2
  fi
  exec 8>&-
}
