import { useEffect, useRef } from "preact/hooks";
import { effect } from "@preact/signals";
import { inReach, lastHeard } from "../api/client";
import { Button } from "../parts";
import { goIntoDemo, remembered, session } from "../state/session";
import { kept } from "../state/kept";
import { moment, t } from "../words";
import { go } from "./navigation";
import { notify } from "./notices";
import { readSession } from "../state/session";

export function DemoBanner() {
  const now = session.value;
  if (!now?.demo) return null;
  const leave = () =>
    void goIntoDemo(false).then(
      () => go("/today"),
      (error: Error) => notify(error.message, "wrong"),
    );
  return (
    <div class="banner banner-demo">
      <p>
        <strong>{t("shell.demo.banner")}</strong> {t("shell.demo.says")}
      </p>
      <Button kind="quiet" onPress={leave}>
        {t("shell.demo.leave")}
      </Button>
    </div>
  );
}

export function OfflineBanner() {
  const was = useRef(true);
  useEffect(
    () =>
      effect(() => {
        const now = inReach.value;
        if (now && !was.current) {
          notify(t("shell.offline.back"));
          if (remembered.peek()) void readSession().catch(() => {});
        }
        was.current = now;
      }),
    [],
  );
  if (inReach.value) return null;
  const at = lastHeard.value ?? kept<string>("heard");
  return (
    <div class="banner banner-offline" role="status">
      <p>
        <strong>{t("shell.offline.banner")}</strong> {at ? t("shell.offline.since", { at: moment(at) }) : null} {t("shell.offline.says")}
      </p>
    </div>
  );
}
