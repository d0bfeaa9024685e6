import { ChangePage, NewPage } from "../../kept/page";
import { asked } from "../../shell/navigation";
import type { ScreenProps } from "../../shell/routes";
import { t } from "../../words";
import { FindProgram } from "./find_program";
import { NewBegin } from "./new_begin";
import { ProgramPage } from "./program_page";

/** Find a program, look at one, change it, begin a new one. */
export default function Programs({ rest }: ScreenProps) {
  const [name] = rest;
  if (name !== undefined) return asked.value.has("change") ? <ChangePage kind="program" name={name} /> : <ProgramPage name={name} />;
  if (!asked.value.has("new")) return <FindProgram />;
  if (asked.value.has("begin")) return <NewBegin />;
  return <NewPage kind="program" title={t("programs.new_title")} lead={<p>{t("programs.new_lead")}</p>} />;
}
