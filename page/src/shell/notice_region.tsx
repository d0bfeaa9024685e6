import { t } from "../words";
import { notices, takeAway } from "./notices";

export function NoticeRegion() {
  return (
    <div class="notices" aria-live="polite" role="status">
      {notices.value.map((notice) => (
        <div key={notice.id} class={`toast toast-${notice.kind}`}>
          <p>{notice.text}</p>
          <button type="button" class="button button-quiet" aria-label={t("shell.close_notice")} onClick={() => takeAway(notice.id)}>
            {t("parts.close")}
          </button>
        </div>
      ))}
    </div>
  );
}
