// The mass of the tray, which decides how much heat the load takes; an unknown one is said.
import { Field } from "../../parts";
import { t } from "../../words";
import { namesOf } from "./bench";
import { useDesk } from "./desk_context";
import { useMistakeOf } from "./load_panel";
import { TRAY_MASS } from "./missing";

export function TrayMass() {
  const desk = useDesk();
  const { tray } = namesOf(desk.bench.value);
  const of = `tray ${tray}`;
  const mistake = useMistakeOf(of)("mass");
  if (!tray || !(of in desk.base.value)) return null;
  const { mass = "", ...others } = desk.values(of);
  return (
    <Field
      id={TRAY_MASS}
      label={t("firing.load.tray_mass")}
      value={mass}
      help={mass === "" ? t("firing.load.tray_mass_unknown") : t("firing.load.tray_mass_help")}
      mistake={mistake}
      onInput={(text) => desk.type(of, text.trim() === "" ? others : { ...others, mass: text }, `${of} mass`)}
    />
  );
}
