import { useEffect, useState } from "preact/hooks";
import { documents, isAborted, type DocumentRow, type Kind } from "../../api/client";
import { Empty, Failed, Heading, Loading } from "../../parts";
import { asked, go } from "../../shell/navigation";
import { pathOf } from "../../shell/routes";
import { counted, t, type PlainWord } from "../../words";

const KINDS = ["case", "piece", "firing", "program", "lot", "furnace", "instruction", "material", "tray", "reference"] as const satisfies readonly Kind[];
const WORDS: Record<(typeof KINDS)[number], PlainWord> = {
  case: "shell.kind.case",
  piece: "shell.kind.piece",
  firing: "shell.kind.firing",
  program: "shell.kind.program",
  lot: "shell.kind.lot",
  furnace: "shell.kind.furnace",
  instruction: "shell.kind.instruction",
  material: "shell.kind.material",
  tray: "shell.kind.tray",
  reference: "shell.kind.reference",
};

type Found = { kind: (typeof KINDS)[number]; rows: DocumentRow[]; count: number }[];

function useSearch(word: string): { found: Found | null; error: Error | null; again: () => void } {
  const [turn, setTurn] = useState(0);
  const [now, set] = useState<{ word: string; found: Found | null; error: Error | null }>({ word, found: null, error: null });
  useEffect(() => {
    if (word === "") return;
    const stop = new AbortController();
    Promise.all(
      KINDS.map((kind) => documents.list(kind, { word }, stop.signal).then(({ rows, count }) => ({ kind, rows, count }))),
    ).then(
      (found) => set({ word, found: found.filter(({ rows }) => rows.length > 0), error: null }),
      (error: unknown) => isAborted(error) || set({ word, found: null, error: error instanceof Error ? error : new Error(String(error)) }),
    );
    return () => stop.abort();
  }, [word, turn]);
  const again = () => {
    set({ word, found: null, error: null });
    setTurn(turn + 1);
  };
  return { ...(now.word === word ? now : { found: null, error: null }), again };
}

/** A scanned label opens what goes by exactly that name, where one thing does. */
function exactHit(found: Found, word: string): { kind: Kind; name: string } | null {
  const hits = found.flatMap(({ kind, rows }) => rows.filter((row) => row.name.toLowerCase() === word.toLowerCase()).map((row) => ({ kind, name: row.name })));
  return hits.length === 1 && hits[0] ? hits[0] : null;
}

export default function Search() {
  const word = asked.value.get("word") ?? "";
  const { found, error, again } = useSearch(word);
  useEffect(() => {
    const hit = found ? exactHit(found, word) : null;
    if (hit) go(pathOf(hit.kind, hit.name), true);
  }, [found]);
  if (word === "") {
    return (
      <>
        <Heading>{t("shell.screen.search")}</Heading>
        <Empty title={t("shell.search.empty")} />
      </>
    );
  }
  return (
    <>
      <Heading>{t("shell.search.title", { word })}</Heading>
      {error ? <Failed error={error} again={again} /> : found ? <Hits found={found} word={word} /> : <Loading />}
    </>
  );
}

function Hits({ found, word }: { found: Found; word: string }) {
  if (found.length === 0) {
    return (
      <Empty title={t("shell.search.nothing", { word })}>
        <p>{t("shell.search.nothing_help")}</p>
      </Empty>
    );
  }
  return (
    <>
      {found.map(({ kind, rows, count }) => (
        <section key={kind} class="section">
          <h2>
            {t(WORDS[kind])} <small>{counted("shell.search.hits", count)}</small>
          </h2>
          <ul class="rows">
            {rows.map((row) => (
              <li key={row.name}>
                <a class="row-link" href={pathOf(kind, row.name)}>
                  <strong>{row.name}</strong> <span>{row.label}</span>
                </a>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}
