import { Heading } from "../../parts";
import { t } from "../../words";

export default function Setup() {
  return <Heading>{t("setup.title")}</Heading>;
}
