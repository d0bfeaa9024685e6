import { t } from "../words";
import { Notice } from "./notice";

/** Why a writing call kept nothing, in the server's sentence. */
export function Wrong({ sentence }: { sentence: string | null }) {
  if (sentence === null) return null;
  return (
    <Notice kind="wrong" title={t("parts.kept_nothing")}>
      <p>{sentence}</p>
    </Notice>
  );
}
