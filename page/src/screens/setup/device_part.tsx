import { BigChoice } from "../../parts";
import { chosenHere } from "../../words/choice";
import { choose, t, type Language, type Shade, type Units } from "../../words";

/** What holds in this browser only. */
export function DevicePart() {
  const { language, units, shade } = chosenHere.value;
  return (
    <>
      <h2>{t("setup.device.title")}</h2>
      <p>{t("setup.device.lead")}</p>
      <div class="form">
        <BigChoice
          label={t("setup.device.language")}
          value={language ?? ""}
          onChoose={(value) => void choose({ language: (value || undefined) as Language | undefined })}
          options={[
            { value: "", label: t("setup.device.as_lab") },
            { value: "en", label: t("setup.lab.english") },
            { value: "de", label: t("setup.lab.german") },
          ]}
        />
        <BigChoice
          label={t("setup.device.units")}
          value={units ?? ""}
          onChoose={(value) => void choose({ units: (value || undefined) as Units | undefined })}
          options={[
            { value: "", label: t("setup.device.as_lab") },
            { value: "celsius", label: t("setup.lab.celsius") },
            { value: "fahrenheit", label: t("setup.lab.fahrenheit") },
          ]}
        />
        <BigChoice
          label={t("setup.device.shade")}
          value={shade ?? ""}
          onChoose={(value) => void choose({ shade: (value || undefined) as Shade | undefined })}
          options={[
            { value: "", label: t("setup.device.as_device") },
            { value: "light", label: t("setup.device.light") },
            { value: "dark", label: t("setup.device.dark") },
          ]}
        />
      </div>
    </>
  );
}
