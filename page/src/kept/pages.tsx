import { Button } from "../parts";
import { number, t } from "../words";

/** Which page of an answer of many rows is shown, and the way to the others. */
export function Pages({ page, pages, count, onGo }: { page: number; pages: number; count: number; onGo: (page: number) => void }) {
  if (pages <= 1) return null;
  return (
    <nav class="pages" aria-label={t("kept.pages")}>
      <Button onPress={() => onGo(page - 1)} disabled={page <= 1}>{t("kept.page_before")}</Button>
      <span role="status">{t("kept.page_of", { page: number(page), pages: number(pages), count: number(count) })}</span>
      <Button onPress={() => onGo(page + 1)} disabled={page >= pages}>{t("kept.page_after")}</Button>
    </nav>
  );
}
