import { DocumentPage } from "../../kept/page";
import { newOf } from "../../kept/place";
import { ButtonLink } from "../../parts";
import { t } from "../../words";
import { HistoryView } from "./history_view";

/** A piece: its history first, its walls and layers after. */
export function PiecePage({ name }: { name: string }) {
  return (
    <DocumentPage
      kind="piece"
      name={name}
      primary={() => <ButtonLink kind="primary" to={`/firing?${new URLSearchParams({ piece: name }).toString()}`}>{t("records.piece.fire")}</ButtonLink>}
      above={() => (
        <section class="section" aria-labelledby="history">
          <h2 id="history">{t("records.history.title")}</h2>
          <HistoryView piece={name} />
          <div class="actions screen-only">
            <ButtonLink to={newOf("bench-step", { pieces: name })}>{t("records.new.bench_step")}</ButtonLink>
          </div>
        </section>
      )}
    />
  );
}
