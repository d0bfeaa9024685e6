import type { Option } from "../../parts";
import { t } from "../../words";

/** Told to people; the server judges. */
export const LEAST_PASSWORD = 10;

export function roleOptions(): Option[] {
  return [
    { value: "look", label: t("setup.persons.role_look"), help: t("setup.persons.role_look_help") },
    { value: "fire", label: t("setup.persons.role_fire"), help: t("setup.persons.role_fire_help") },
    { value: "release", label: t("setup.persons.role_release"), help: t("setup.persons.role_release_help") },
  ];
}
