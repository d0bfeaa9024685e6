import { useState } from "preact/hooks";
import { paths, type Kind } from "../api/client";
import { AnswerView, Choice } from "../parts";
import { pathOf } from "../shell/routes";
import { useAnswer } from "../state/use_answer";
import { asTold, momentInFull, t } from "../words";
import { wordsOf, type Change, type Difference, type History, type Version } from "./history";

/** Every version: who, when, why, and what changed in words; and any two held against each other. */
export function Versions({ kind, name, shown }: { kind: Kind; name: string; shown: number }) {
  const history = useAnswer<History>(paths.history(kind, name));
  return (
    <section aria-labelledby="versions">
      <h2 id="versions">{t("kept.versions")}</h2>
      <AnswerView of={history}>
        {(answer) => (
          <>
            <ol class="versions" reversed>
              {[...answer.versions].reverse().map((version) => (
                <VersionView key={version.version} kind={kind} name={name} version={version} shown={version.version === shown} />
              ))}
            </ol>
            {answer.versions.length > 1 ? <Comparison kind={kind} name={name} versions={answer.versions} /> : null}
          </>
        )}
      </AnswerView>
    </section>
  );
}

function VersionView({ kind, name, version, shown }: { kind: Kind; name: string; version: Version; shown: boolean }) {
  return (
    <li class="version">
      <p class="version-head">
        <strong>{t("parts.version", { version: version.version })}</strong>{" "}
        {t("parts.at_by", { at: momentInFull(version.at, version.zone), person: version.person })}
      </p>
      {version.reason ? <p class="version-reason">{version.reason}</p> : null}
      <Changes changes={version.changes} none={version.version === 1 ? t("kept.first_version") : t("kept.nothing_changed")} />
      {shown ? null : <a class="button button-quiet" href={`${pathOf(kind, name)}?version=${version.version}`}>{t("kept.look_at", { version: version.version })}</a>}
    </li>
  );
}

export function Changes({ changes, none }: { changes: readonly (Change | string)[]; none: string }) {
  if (changes.length === 0) return <p class="field-help">{none}</p>;
  return (
    <ul class="changes">
      {changes.map((change) => (
        <li key={wordsOf(change)}>{asTold(wordsOf(change))}</li>
      ))}
    </ul>
  );
}

function Comparison({ kind, name, versions }: { kind: Kind; name: string; versions: readonly Version[] }) {
  const newest = versions.at(-1)?.version ?? 1;
  const [before, setBefore] = useState(Math.max(1, newest - 1));
  const [after, setAfter] = useState(newest);
  const options = versions.map(({ version }) => ({ value: String(version), label: t("parts.version", { version }) }));
  const difference = useAnswer<Difference>(before === after ? null : paths.difference(kind, name, before, after));
  return (
    <section class="comparison" aria-labelledby="comparison">
      <h3 id="comparison">{t("kept.compare")}</h3>
      <div class="side-by-side screen-only">
        <Choice label={t("kept.from")} options={options} value={String(before)} empty={null} onChoose={(value) => setBefore(Number(value))} />
        <Choice label={t("kept.to")} options={options} value={String(after)} empty={null} onChoose={(value) => setAfter(Number(value))} />
      </div>
      {before === after ? (
        <p class="field-help">{t("kept.same_version")}</p>
      ) : (
        <AnswerView of={difference}>{(answer) => <Changes changes={answer.changes} none={t("kept.nothing_changed")} />}</AnswerView>
      )}
    </section>
  );
}
