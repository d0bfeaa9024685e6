/** A new firing of some pieces. */
export function pathOfNew(pieces: readonly string[]): string {
  const asked = new URLSearchParams(pieces.map((piece) => ["piece", piece]));
  return pieces.length ? `/firing/new?${asked.toString()}` : "/firing/new";
}
