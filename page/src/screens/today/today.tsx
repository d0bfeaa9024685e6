import { Heading } from "../../parts";
import { t } from "../../words";

export default function Today() {
  return <Heading>{t("today.title")}</Heading>;
}
