import { ChangePage, NewPage } from "../../kept/page";
import { asked } from "../../shell/navigation";
import type { ScreenProps } from "../../shell/routes";
import { t } from "../../words";
import { ChartPage } from "./care/chart_page";
import { DuePage } from "./care/due_page";
import { ReportPage } from "./care/report_page";
import { CheckScreen } from "./check/check_screen";
import { FurnaceList } from "./furnace_list";
import { FurnacePage } from "./furnace_page";

/** Furnaces with what they show wrongly, what they can do and what is due; trays and supports beside them. */
export default function Furnaces({ rest }: ScreenProps) {
  const [name, part, ...more] = rest;
  if (name !== undefined && part === "check") return <CheckScreen furnace={name} rest={more} />;
  if (name !== undefined && part === "due") return <DuePage key={name} name={name} />;
  if (name !== undefined && part === "chart") return <ChartPage key={name} name={name} />;
  if (name !== undefined && part === "report") return <ReportPage key={name} name={name} />;
  if (name !== undefined) return asked.value.has("change") ? <ChangePage kind="furnace" name={name} /> : <FurnacePage name={name} />;
  return asked.value.has("new") ? <NewPage kind="furnace" title={t("furnaces.new_title")} lead={<p>{t("furnaces.new_lead")}</p>} /> : <FurnaceList />;
}
