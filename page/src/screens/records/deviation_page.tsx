import { ask, type KeptDocument } from "../../api/client";
import { now } from "../../parts/moments";
import { nameOf } from "../../kept/name_of";
import { DocumentPage, NewPage } from "../../kept/page";
import { several } from "../../parts";
import { Notice } from "../../parts";
import { momentInFull, t } from "../../words";
import { DecideButton, ReleaseButton } from "./decide";

const FIELDS = ["from", "found", "firing", "pieces", "found_at"];

function textOf(document: KeptDocument, key: string): string {
  return document.values.find((value) => value.key === key)?.typed ?? "";
}

/** Something left what was laid down: decided, then released in one's own name. */
export function DeviationPage({ name }: { name: string }) {
  return (
    <DocumentPage
      kind="deviation"
      name={name}
      primary={(document, again) => {
        if (textOf(document, "released_at") !== "") return null;
        const decided = !["", "open"].includes(textOf(document, "decision"));
        return decided ? <><ReleaseButton name={name} onDone={again} /><DecideButton name={name} kind="plain" onDone={again} /></> : <DecideButton name={name} kind="primary" onDone={again} />;
      }}
      above={(document) => <State document={document} />}
    />
  );
}

function State({ document }: { document: KeptDocument }) {
  const released = textOf(document, "released_at");
  if (released !== "") return <Notice title={t("records.deviation.released", { at: momentInFull(released, document.zone), person: textOf(document, "released_by") })} />;
  return <Notice title={["", "open"].includes(textOf(document, "decision")) ? t("records.deviation.undecided") : t("records.deviation.unreleased")} />;
}

/** What left the instruction or a rule, as it was found. */
export function NewDeviation() {
  return (
    <NewPage
      kind="deviation"
      title={t("records.new.deviation")}
      only={FIELDS}
      start={{ found_at: now() }}
      nameFrom={(values) => nameOf([several(values["pieces"] ?? "")[0] ?? "", values["from"] ?? ""].join(" ")).slice(0, 40).replace(/-+$/, "")}
      send={({ name, set: { from, found, firing, pieces = "", found_at: at }, reason }) =>
        ask("/api/deviations", { method: "POST", body: { name, from, found, ...(firing ? { firing } : {}), pieces: several(pieces), ...(at ? { at } : {}), reason } }).then(() => ({ name, version: 1 }))
      }
    />
  );
}
