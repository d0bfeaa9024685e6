import type { Draft } from "../state/drafts";
import { keepsNothing } from "../state/kept";
import { moment, t } from "../words";
import { Button } from "./button";

/** Since when it waits, of whom it is, and whether another tab goes on with the same. */
export function draftWords<T>(of: Draft<T>, at: string, when: (at: string) => string): string {
  if (keepsNothing.value) return t("parts.draft.no_room");
  const by = of.by.value;
  const waits = by ? t("parts.draft.waits_of", { person: by, at: when(at) }) : t("parts.draft.waits", { at: when(at) });
  return of.elsewhere.value ? `${waits} ${t("parts.draft.elsewhere", { at: when(of.elsewhere.value) })}` : waits;
}

/** Says that what is shown is a draft on this device, and not kept in the lab. */
export function DraftBar<T>({ of, onThrowAway }: { of: Draft<T>; onThrowAway?: () => void }) {
  const at = of.at.value;
  if (of.values.value === null || at === null) return null;
  return (
    <div class="notice notice-know draft-bar" role="status">
      <p>{draftWords(of, at, moment)}</p>
      {of.elsewhere.value ? (
        <Button kind="quiet" onPress={() => of.takeOther()}>
          {t("parts.draft.take_other")}
        </Button>
      ) : null}
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
