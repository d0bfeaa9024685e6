import { Empty, Heading } from "../../../parts";
import { pathOf } from "../../../shell/routes";
import { t } from "../../../words";
import { GUIDED, RECORDED } from "./answer";
import { ChooseCheck } from "./choose";
import { Guided } from "./guided";
import { Recorded } from "./recorded";

/** /furnaces/NAME/check chooses; …/check/KIND begins one, …/check/KIND/CHECK goes on with it. */
export function CheckScreen({ furnace, rest }: { furnace: string; rest: readonly string[] }) {
  const [of, name] = rest;
  if (of === undefined) return <ChooseCheck furnace={furnace} />;
  const guided = GUIDED.find((each) => each === of);
  if (guided) return <Guided furnace={furnace} kind={guided} name={name ?? null} />;
  const recorded = RECORDED.find((each) => each === of);
  if (recorded) return <Recorded key={`${recorded} ${name ?? ""}`} furnace={furnace} kind={recorded} name={name ?? null} />;
  return (
    <>
      <Heading>{t("check.unknown")}</Heading>
      <Empty title={t("check.unknown_says", { of })}><p><a class="name-link" href={`${pathOf("furnace", furnace)}/check`}>{t("check.choose")}</a></p></Empty>
    </>
  );
}
