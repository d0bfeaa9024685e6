import type { Draft } from "../state/drafts";
import { keepsNothing } from "../state/kept";
import { moment, t } from "../words";
import { Button } from "./button";

/** Says that what is shown is a draft on this device, and not kept in the lab. */
export function DraftBar<T>({ of, onThrowAway }: { of: Draft<T>; onThrowAway?: () => void }) {
  const at = of.at.value;
  if (of.values.value === null || at === null) return null;
  return (
    <div class="notice notice-know draft-bar" role="status">
      <p>{keepsNothing.value ? t("parts.draft.no_room") : t("parts.draft.waits", { at: moment(at) })}</p>
      <Button
        kind="quiet"
        onPress={() => {
          of.end();
          onThrowAway?.();
        }}
      >
        {t("parts.draft.throw_away")}
      </Button>
    </div>
  );
}
