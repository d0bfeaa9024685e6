// The chamber before the start: cold or warm, how long since the last firing, the air of the room.
import { BigChoice, Field } from "../../parts";
import { t, units } from "../../words";
import { FIRING } from "./bench";
import { useDesk } from "./desk_context";
import { useMistakeOf } from "./load_panel";
import type { Kind } from "./steps";
import { withUnit } from "./typed_units";

export function ChamberFields() {
  const desk = useDesk();
  const mistake = useMistakeOf(FIRING);
  const values = desk.values(FIRING);
  const put = (key: string, text: string, one: string | null) => {
    const { [key]: _before, ...others } = desk.values(FIRING);
    desk.type(FIRING, text.trim() === "" ? others : { ...others, [key]: text }, one);
  };
  const field = (name: string, label: string, kind: Kind, help: string) => {
    const key = `chamber.${name}`;
    return (
      <Field
        label={label}
        value={values[key] ?? ""}
        help={help}
        mistake={mistake(key)}
        onInput={(text) => put(key, text, `${FIRING} ${key}`)}
        onDone={(text) => withUnit(text, kind, units.peek()) !== text && put(key, withUnit(text, kind, units.peek()), `${FIRING} ${key}`)}
      />
    );
  };
  return (
    <fieldset class="chamber">
      <legend>{t("firing.load.chamber")}</legend>
      <BigChoice
        label={t("firing.load.chamber_state")}
        hideLabel
        options={[
          { value: "false", label: t("firing.load.warm") },
          { value: "true", label: t("firing.load.cold") },
        ]}
        value={values["chamber.cold"] ?? "false"}
        onChoose={(value) => put("chamber.cold", value, null)}
      />
      <div class="load-choices">
        {field("since_last_firing", t("firing.load.since_last_firing"), "duration", t("firing.load.since_last_firing_help"))}
        {field("room_humidity", t("firing.load.humidity"), "share", t("firing.load.humidity_help"))}
        {field("room", t("firing.load.room"), "temperature", t("firing.load.room_help"))}
      </div>
    </fieldset>
  );
}
