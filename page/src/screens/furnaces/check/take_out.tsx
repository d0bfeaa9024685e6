import { Button } from "../../../parts";
import { t } from "../../../words";
import type { CheckNow } from "./use_check";

/** A reading as it was told; a kept one may be taken out again while its check goes on. */
export function TakeOut({ now, at, of }: { now: CheckNow; at: number; of: string }) {
  if (now.takeOut === null) return <>{of}</>;
  return (
    <span class="check-reading">
      {of}
      <Button kind="quiet" busy={now.busy} label={t("check.take_out_of", { reading: of })} onPress={() => now.takeOut?.(at)}>{t("check.take_out")}</Button>
    </span>
  );
}
