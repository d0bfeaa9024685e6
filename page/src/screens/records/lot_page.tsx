import { DocumentPage } from "../../kept/page";
import { PiecesMetView } from "../../kept/pieces_met";
import { t } from "../../words";

/** A jar, bottle or packet, and the pieces that met it. */
export function LotPage({ name }: { name: string }) {
  return (
    <DocumentPage
      kind="lot"
      name={name}
      below={() => (
        <section class="section" aria-labelledby="met">
          <h2 id="met">{t("records.lot.pieces")}</h2>
          <PiecesMetView question={`/api/lots/${encodeURIComponent(name)}/pieces`} caption={t("records.lot.pieces")} empty={t("records.lot.no_pieces")} />
        </section>
      )}
    />
  );
}
