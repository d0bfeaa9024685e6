import { useState } from "preact/hooks";
import { Button, Field, Tick } from "../../../parts";
import { notify } from "../../../shell/notices";
import { t } from "../../../words";
import type { Answers } from "./answer";

/** What a check that is not kept yet offers to this form. */
export interface ToKeep {
  busy: boolean;
  typed: (key: string) => string;
  type: (key: string, text: string) => void;
  back: (() => void) | null;
  keep: (more: { answers: Answers }) => Promise<boolean>;
}

const TYPED = ["after_repair", "next", "note"] as const;

/** Puts a finished check into the lab's records; what else may be said of it stands folded. */
export function KeepForm({ now }: { now: ToKeep }) {
  const [asLeft, setAsLeft] = useState(false);
  const keep = (event: Event) => {
    event.preventDefault();
    const said = TYPED.flatMap((key) => (now.typed(key).trim() ? [[key, now.typed(key).trim()] as const] : []));
    const answers = { ...Object.fromEntries(said), ...(asLeft ? { as_left: "true" } : {}) };
    void now.keep({ answers }).then((kept) => kept && notify(t("check.keep.kept")));
  };
  const field = (key: (typeof TYPED)[number]) => ({ value: now.typed(key), onInput: (text: string) => now.type(key, text) });
  return (
    <form class="check-form" onSubmit={keep}>
      <p>{t("check.keep.not_yet")}</p>
      <div class="check-actions">
        <Button kind="primary" submit busy={now.busy}>{t("check.keep.do")}</Button>
        {now.back ? <Button onPress={now.back}>{t("parts.back")}</Button> : null}
      </div>
      <details class="fold">
        <summary>{t("check.keep.more")}</summary>
        <Tick label={t("check.keep.as_left")} help={t("check.keep.as_left_help")} checked={asLeft} onChange={setAsLeft} />
        <Field label={t("check.keep.after_repair")} help={t("check.keep.after_repair_help")} {...field("after_repair")} />
        <Field label={t("check.keep.next")} kind="date" {...field("next")} />
        <Field label={t("check.keep.note")} lines={2} {...field("note")} />
      </details>
    </form>
  );
}
