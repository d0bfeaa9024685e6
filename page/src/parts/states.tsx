import type { ComponentChildren } from "preact";
import { Refused, Unreachable } from "../api/client";
import type { Answered } from "../state/use_answer";
import { moment, t } from "../words";
import { Button, ButtonLink } from "./button";
import { Notice } from "./notice";

export function Loading({ what = t("parts.loading") }: { what?: string }) {
  return (
    <p class="state state-loading" role="status">
      {what}
    </p>
  );
}

/** Nothing there yet, and what to do about it. */
export function Empty({ title, children }: { title: string; children?: ComponentChildren }) {
  return (
    <div class="state state-empty">
      <p class="state-title">{title}</p>
      {children}
    </div>
  );
}

export function Failed({ error, again }: { error: Error; again?: () => void }) {
  if (error instanceof Refused && error.word === "no_store") return <NoStore sentence={error.message} />;
  const away = error instanceof Unreachable;
  return (
    <Notice kind="wrong" title={away ? t("parts.offline") : t("parts.error")}>
      <p>{away ? t("parts.offline_nothing") : error.message}</p>
      {again ? <Button onPress={again}>{t("parts.again")}</Button> : null}
    </Notice>
  );
}

/** A lab that has kept nothing yet is no error: it is where everybody begins. */
function NoStore({ sentence }: { sentence: string }) {
  return (
    <Empty title={t("parts.no_store")}>
      <p class="field-help">{sentence}</p>
      <ButtonLink to="/setup" kind="primary">
        {t("parts.to_setup")}
      </ButtonLink>
    </Empty>
  );
}

/** Loading, error and offline of a reading question; the answer, dated when it is an earlier one, is drawn by `children`. */
export function AnswerView<T>({ of, children }: { of: Answered<T>; children: (answer: T) => ComponentChildren }) {
  if (of.error) return <Failed error={of.error} again={of.again} />;
  if (of.answer === null) return of.loading ? <Loading /> : null;
  return (
    <>
      {of.old && of.at ? (
        <Notice>
          <p>{t("parts.old_answer", { at: moment(of.at) })}</p>
        </Notice>
      ) : null}
      {children(of.answer)}
    </>
  );
}
