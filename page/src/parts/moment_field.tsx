import { t } from "../words";
import { DayField } from "./day_field";
import { fromLocal, toLocal } from "./moments";

export interface MomentFieldProps {
  id: string;
  label: string;
  help: string;
  /** UTC, "2026-11-25T17:11:04Z". */
  value: string;
  mistake: string | undefined;
  required: boolean;
  onChange: (text: string) => void;
}

/** A moment, typed in the time of this device and kept in UTC. */
export function MomentField({ help, value, onChange, ...said }: MomentFieldProps) {
  return <DayField {...said} withTime help={`${help} · ${t("parts.form.device_time")}`} value={toLocal(value) || value} onInput={(text) => onChange(fromLocal(text) || text)} />;
}
