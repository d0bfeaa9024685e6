import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { paths, type StoreStatus } from "../../api/client";
import { AnswerView, Button, Notice } from "../../parts";
import { PasswordGate } from "../../shell/password_gate";
import { useAnswer } from "../../state/use_answer";
import { useJob, type Job, type Progress } from "../../state/use_job";
import { bytes, momentInFull, number, t } from "../../words";

interface Verified {
  altered: boolean;
  wrong: string[];
  head: string;
}

interface Copied {
  path: string;
  bytes: number;
  said: string[];
}

interface Exported {
  file: string;
  bytes: number;
  export_hash: string;
}

/** The store as it stands, a copy on wish, and the proof that nothing was altered. */
export function CopiesPart() {
  const store = useAnswer<StoreStatus>(paths.store());
  const copy = useJob<Copied>("back up");
  const proof = useJob<Verified>("verify");
  const whole = useJob<Exported>("export");
  const { is } = copy.now;
  useEffect(() => {
    if (is === "done") store.again();
  }, [is]);
  return (
    <>
      <h2>{t("setup.copies.title")}</h2>
      <p>{t("setup.copies.lead")}</p>
      <PasswordGate>
        {(ask) => (
          <>
            <JobView job={copy} name={t("setup.copies.back_up")} kind="primary" begin={() => ask(copy.begin)}>
              {(result) => (
                <>
                  <p>{t("setup.copies.backed_up")}</p>
                  <p class="hash">
                    {result.path} · {bytes(result.bytes)}
                  </p>
                  {result.said.map((one) => (
                    <p key={one}>{one}</p>
                  ))}
                </>
              )}
            </JobView>
            <JobView job={proof} name={t("setup.copies.verify")} kind="plain" begin={() => ask(proof.begin)}>
              {(result) => (
                <>
                  <p>{result.altered ? t("setup.copies.altered") : t("setup.copies.sound")}</p>
                  <ul>
                    {result.wrong.map((one) => (
                      <li key={one}>{one}</li>
                    ))}
                  </ul>
                </>
              )}
            </JobView>
            <JobView job={whole} name={t("setup.copies.export")} kind="plain" begin={() => ask(whole.begin)}>
              {(result) => (
                <>
                  <p>{t("setup.copies.exported")}</p>
                  <p class="hash">
                    {result.file} · {bytes(result.bytes)}
                  </p>
                  <p class="hash">{result.export_hash}</p>
                </>
              )}
            </JobView>
            <p class="field-help">{t("setup.copies.export_help")}</p>
          </>
        )}
      </PasswordGate>
      <AnswerView of={store}>{(answer) => <StoreView store={answer} />}</AnswerView>
    </>
  );
}

interface JobViewProps<T> {
  job: Job<T>;
  name: string;
  kind: "primary" | "plain";
  begin: () => void;
  children: (result: T) => ComponentChildren;
}

function JobView<T>({ job, name, kind, begin, children }: JobViewProps<T>) {
  const { now, cancel } = job;
  return (
    <section class="job" aria-live="polite">
      {now.is === "running" ? (
        <>
          <p>{t("setup.copies.running", { what: name })}</p>
          <ProgressView progress={now.progress} name={name} />
          <Button onPress={cancel}>{t("setup.copies.cancel")}</Button>
        </>
      ) : (
        <Button kind={kind} onPress={begin}>
          {name}
        </Button>
      )}
      {now.is === "done" ? <Notice title={t("setup.copies.done")}>{children(now.result)}</Notice> : null}
      {now.is === "cancelled" ? <Notice title={t("setup.copies.cancelled")} /> : null}
      {now.is === "failed" ? (
        <Notice kind="wrong" title={t("setup.copies.failed")}>
          <p>{now.sentence}</p>
        </Notice>
      ) : null}
    </section>
  );
}

function ProgressView({ progress, name }: { progress: Progress; name: string }) {
  const { done, all } = progress;
  const known = all > 0;
  return (
    <>
      <progress class="progress" aria-label={name} {...(known ? { value: done, max: all } : {})} />
      <p class="field-help">{known ? t("setup.copies.progress", { done: number(done), total: number(all) }) : ""}</p>
    </>
  );
}

function lastCopy(backups: StoreStatus["backups"]): string {
  if (!backups) return t("setup.copies.no_copies");
  const last = backups.newest_utc ? momentInFull(backups.newest_utc) : t("setup.copies.never");
  return backups.overdue ? `${last} (${t("setup.copies.overdue")})` : last;
}

function StoreView({ store }: { store: StoreStatus }) {
  const rows: [string, string][] = [
    [t("setup.copies.engine"), store.engine],
    [t("setup.copies.documents"), number(store.documents)],
    [t("setup.copies.versions"), number(store.versions)],
    [t("setup.copies.entries"), number(store.entries)],
    [t("setup.copies.size"), bytes(store.bytes)],
    [t("setup.copies.free"), bytes(store.free_bytes)],
    [t("setup.copies.copies"), lastCopy(store.backups)],
  ];
  return (
    <section class="section">
      <h3>{t("setup.copies.state")}</h3>
      {store.nearly_full ? (
        <Notice kind="wrong">
          <p>{t("setup.copies.nearly_full")}</p>
        </Notice>
      ) : null}
      <dl class="read-back">
        {rows.map(([label, value]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <h3>{t("setup.copies.head")}</h3>
      <p class="hash">{store.head}</p>
      <p class="field-help">{t("setup.copies.head_help")}</p>
    </section>
  );
}
