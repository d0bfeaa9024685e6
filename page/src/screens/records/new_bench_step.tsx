import { ask } from "../../api/client";
import { NewPage } from "../../kept/page";
import { now } from "../../parts/moments";
import { nameOf } from "../../kept/name_of";
import { several, type Values } from "../../parts";
import { asked, go } from "../../shell/navigation";
import { pathOf } from "../../shell/routes";
import { t } from "../../words";

const FIELDS = ["work", "pieces", "lots", "note", "at"];

/** "grind-crown-16-20261128-0931": what, to what, when. */
function nameFrom(values: Values): string {
  const work = values["work"] ?? "";
  const piece = several(values["pieces"] ?? "")[0] ?? "";
  return work === "" || piece === "" ? "" : nameOf([work, piece, (values["at"] || now()).slice(0, 16)].join(" "));
}

/** What was done to pieces between firings: work, pieces, lots; now, unless said otherwise. */
export function NewBenchStep() {
  const pieces = asked.value.get("pieces") ?? "";
  const first = several(pieces)[0];
  return (
    <NewPage
      kind="bench-step"
      title={t("records.new.bench_step")}
      only={FIELDS}
      start={{ at: now() }}
      nameFrom={nameFrom}
      send={({ name, set: { work, pieces: done = "", lots = "", note = "", at = "" } }) =>
        ask("/api/bench-steps", { method: "POST", body: { name, work, pieces: several(done), lots: several(lots), note, at } }).then(() => ({ name, version: 1 }))
      }
      onKept={() => go(first ? pathOf("piece", first) : "/records/bench-step")}
    />
  );
}
