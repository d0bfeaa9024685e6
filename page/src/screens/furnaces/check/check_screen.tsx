import { Empty, Heading } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { t } from "../../../words";
import { KINDS } from "./answer";
import { ChooseCheck } from "./choose";
import { Guided } from "./guided";

/** /furnaces/NAME/check chooses; …/check/KIND begins one, …/check/KIND/CHECK goes on with it. */
export function CheckScreen({ furnace, rest }: { furnace: string; rest: readonly string[] }) {
  const [of, name] = rest;
  if (of === undefined) return <ChooseCheck furnace={furnace} />;
  const kind = KINDS.find((each) => each === of);
  if (kind) return <Guided furnace={furnace} kind={kind} name={name ?? null} />;
  return (
    <>
      <Heading>{t("check.unknown")}</Heading>
      <Empty title={t("check.unknown_says", { of })}><p><a class="name-link" href={`${pathOf("furnace", furnace)}/check`}>{t("check.choose")}</a></p></Empty>
    </>
  );
}
