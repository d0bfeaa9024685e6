import { useEffect, useRef } from "preact/hooks";
import { effect } from "@preact/signals";
import { inReach, lastHeard } from "../api/client";
import { Button } from "../parts";
import { demoLost, readSession, sayDemoLost, session } from "../state/session";
import { kept } from "../state/kept";
import { moment, t } from "../words";
import { DemoButton } from "./demo_button";
import { notify } from "./notices";

export function DemoBanner() {
  const now = session.value;
  if (!now?.demo) return null;
  return (
    <aside class="banner banner-demo" aria-label={t("shell.demo.banner")}>
      <p>
        <strong>{t("shell.demo.banner")}</strong> {t("shell.demo.says")} <span class="wide-only">{t("shell.demo.meant")}</span>
      </p>
      <DemoButton label={t("shell.demo.leave")} demo={false} kind="quiet" />
    </aside>
  );
}

/** The session ended, and the demo lab with it: said, not slipped past; the way back is one press. */
export function DemoLostBanner() {
  if (!demoLost.value) return null;
  return (
    <aside class="banner banner-demo-lost" aria-label={t("shell.demo.lost")}>
      <p role="status">
        <strong>{t("shell.demo.lost")}</strong> {t("shell.demo.lost_says")}
      </p>
      <DemoButton label={t("shell.demo.enter_again")} demo kind="plain" />
      <Button kind="quiet" onPress={() => sayDemoLost(false)}>{t("shell.demo.stay")}</Button>
    </aside>
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
          // A server that began anew knows neither the session nor its token.
          void readSession().catch(() => {});
        }
        was.current = now;
      }),
    [],
  );
  if (inReach.value) return null;
  const at = lastHeard.value ?? kept<string>("heard");
  return (
    <aside class="banner banner-offline" aria-label={t("shell.offline.banner")}>
      <p role="status">
        <strong>{t("shell.offline.banner")}</strong> {at ? t("shell.offline.since", { at: moment(at) }) : null} {t("shell.offline.says")}
      </p>
    </aside>
  );
}
