import type { KeptDocument } from "../../api/types";
import { DocumentPage } from "../../kept/page";
import { newOf } from "../../kept/place";
import { several } from "../../parts";
import { ButtonLink, Empty } from "../../parts";
import { pathOf } from "../../shell/routes";
import { t } from "../../words";
import { HistoryView } from "./history_view";

export function piecesOf(document: KeptDocument): string[] {
  return several(document.values.find((value) => value.key === "pieces")?.typed ?? "");
}

/** A case: what it is about, its pieces, and what each of them went through. */
export function CasePage({ name }: { name: string }) {
  return (
    <DocumentPage
      kind="case"
      name={name}
      primary={(document) => <ButtonLink kind="primary" to={newOf("bench-step", { pieces: piecesOf(document).join(", ") })}>{t("records.new.bench_step")}</ButtonLink>}
      below={(document) => <Pieces document={document} />}
    />
  );
}

function Pieces({ document }: { document: KeptDocument }) {
  const pieces = piecesOf(document);
  return (
    <section class="section" aria-labelledby="pieces">
      <h2 id="pieces">{t("records.case.pieces")}</h2>
      {pieces.length === 0 ? <Empty title={t("records.case.no_pieces")}><p>{t("records.case.no_pieces_help")}</p></Empty> : null}
      {pieces.map((piece) => (
        <article key={piece} class="sheet">
          <h3>
            <a class="card-link" href={pathOf("piece", piece)}>{piece}</a>
          </h3>
          <HistoryView piece={piece} />
        </article>
      ))}
    </section>
  );
}
