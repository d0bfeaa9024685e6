import type { ComponentType } from "preact";
import { Heading } from "../../parts";
import type { ScreenProps } from "../../shell/routes";
import { session } from "../../state/session";
import { t, type PlainWord } from "../../words";
import { AboutPart } from "./about_part";
import { CopiesPart } from "./copies_part";
import { DevicePart } from "./device_part";
import { FirstRun } from "./first_run";
import { LabPart } from "./lab_part";
import { PersonsPart } from "./persons_part";

const PARTS = [
  { path: "lab", word: "setup.part.lab", View: LabPart },
  { path: "persons", word: "setup.part.persons", View: PersonsPart },
  { path: "device", word: "setup.part.device", View: DevicePart },
  { path: "copies", word: "setup.part.copies", View: CopiesPart },
  { path: "about", word: "setup.part.about", View: AboutPart },
] as const satisfies readonly { path: string; word: PlainWord; View: ComponentType }[];

/** A guided sequence as long as the lab has no name; afterwards the settings, part by part. */
export default function Setup({ rest }: ScreenProps) {
  const now = session.value;
  const [wanted = ""] = rest;
  if (wanted === "first" || (wanted === "" && now && !now.lab.kept && !now.demo)) return <FirstRun wanted={rest[1]} />;
  const part = PARTS.find(({ path }) => path === wanted) ?? PARTS[0];
  return (
    <>
      <Heading>{t("setup.title")}</Heading>
      <div class="setup">
        <nav class="setup-parts" aria-label={t("setup.sections")}>
          {PARTS.map(({ path, word }) => (
            <a key={path} class="setup-part" href={`/setup/${path}`} aria-current={path === part.path ? "page" : undefined}>
              {t(word)}
            </a>
          ))}
        </nav>
        <div class="setup-body" key={part.path}>
          <part.View />
        </div>
      </div>
    </>
  );
}
