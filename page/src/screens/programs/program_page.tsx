import { useState } from "preact/hooks";
import { DocumentPage } from "../../kept/page";
import { PiecesMetView } from "../../kept/pieces_met";
import { ButtonLink } from "../../parts";
import { asked } from "../../shell/navigation";
import { t } from "../../words";
import { PieceChoice } from "./find_program";

export function ProgramPage({ name }: { name: string }) {
  const [piece, setPiece] = useState(asked.value.get("piece") ?? "");
  const firing = `/firing?${new URLSearchParams({ program: name, ...(piece ? { piece } : {}) }).toString()}`;
  return (
    <DocumentPage
      kind="program"
      name={name}
      primary={() => <ButtonLink kind="primary" to={firing}>{piece ? t("programs.rehearse_piece", { piece }) : t("programs.rehearse")}</ButtonLink>}
      above={() => (
        <div class="narrow screen-only">
          <PieceChoice value={piece} onChoose={setPiece} />
        </div>
      )}
      below={(document) => (
        <section class="section screen-only" aria-labelledby="pieces-fired">
          <h2 id="pieces-fired">{t("programs.pieces")}</h2>
          <PiecesMetView question={`/api/programs/${encodeURIComponent(name)}/pieces?version=${document.version}`} caption={t("programs.pieces_of", { version: document.version })} empty={t("programs.no_pieces")} />
        </section>
      )}
    />
  );
}
