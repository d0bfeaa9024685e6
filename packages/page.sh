# Sourced by run and test. build_page: page/dist made anew where it is not there or older than what it is made of; quiet where nothing is to be done.

page_is_fresh() {
  local built=build/page.built
  [[ -f $built && -f page/dist/index.html ]] || return 1
  # Folders count too: a file taken away changes its folder.
  [[ -z $(find page data/words/page -path page/node_modules -prune -o -path page/dist -prune -o -path page/generated -prune -o -path page -o -newer "$built" -print -quit) ]]
}

build_page() {
  local log=build/page.log start=$SECONDS
  [[ -f page/package.json ]] || return 0
  mkdir -p build
  exec 8>build/page.lock
  flock 8
  if ! page_is_fresh; then
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
    # Begun before the build: a file changed while it runs is newer than this.
    touch build/page.begun
    if ! (cd page && npm run --silent build) >"$log" 2>&1 </dev/null; then
      rm -f build/page.built
      tail -n 30 "$log" >&2
      echo "The page could not be built (whole text: $log)." >&2
      exit 4
    fi
    mv build/page.begun build/page.built
    echo "Built the page in $((SECONDS - start)) s." >&2
  fi
  exec 8>&-
}
