import { Component, type ComponentChildren, type ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import { Button, ButtonLink, Disclaimer, Empty, Heading, Loading, Notice } from "../parts";
import { session } from "../state/session";
import { t } from "../words";
import { DemoBanner, DemoLostBanner, OfflineBanner } from "./banners";
import { Header, Navigation } from "./header";
import { arrivals, segments } from "./navigation";
import { NoticeRegion } from "./notice_region";
import { PasswordPrompt } from "./password_prompt";
import { screens, type Screen, type ScreenProps } from "./routes";

export function App() {
  return (
    <>
      <a class="skip" href="#content">
        {t("shell.skip")}
      </a>
      <DemoBanner />
      <DemoLostBanner />
      <Header />
      <OfflineBanner />
      <main id="content" class="content" tabIndex={-1}>
        <Place />
      </main>
      <Navigation place="foot" />
      <NoticeRegion />
      <PasswordPrompt />
      <div class="printed-foot">
        {session.value?.demo || session.value?.lab.demo ? <p>{t("parts.invented")}</p> : null}
        <Disclaimer />
      </div>
    </>
  );
}

function Place() {
  const [first = "", ...rest] = segments.value;
  const screen = screens.find((one) => one.path === first);
  const arrival = arrivals.value;
  useEffect(() => {
    if (arrival > 0) requestAnimationFrame(() => document.getElementById("heading")?.focus({ preventScroll: true }));
  }, [arrival]);
  if (!screen) return <NotFound />;
  // Whoever is at the bench, and in which lab, sees a screen of his own: nothing of the one before is left in it.
  const whose = `${screen.path} ${session.value?.person ?? ""} ${session.value?.demo ? "demo" : "lab"}`;
  return (
    <Caught key={whose}>
      <Loaded screen={screen} rest={rest} />
    </Caught>
  );
}

function NotFound() {
  return (
    <>
      <Heading>{t("shell.not_found")}</Heading>
      <Empty title={t("shell.not_found_help")}>
        <ButtonLink to="/today">{t("shell.to_today")}</ButtonLink>
      </Empty>
    </>
  );
}

const loaded = new Map<string, ComponentType<ScreenProps>>();

function Loaded({ screen, rest }: { screen: Screen; rest: readonly string[] }) {
  const [View, setView] = useState<ComponentType<ScreenProps> | null>(() => loaded.get(screen.path) ?? null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    if (View) return;
    screen.load().then(
      (file) => {
        loaded.set(screen.path, file.default);
        setView(() => file.default);
      },
      () => setFailed(true),
    );
  }, [screen]);
  if (failed) return <ScreenFailed />;
  return View ? <View rest={rest} /> : <Loading />;
}

function ScreenFailed() {
  return (
    <>
      <Heading>{t("shell.screen_failed")}</Heading>
      <Notice kind="wrong">
        <p>{t("shell.screen_failed_help")}</p>
        <Button onPress={() => location.reload()}>{t("shell.load_again")}</Button>
      </Notice>
    </>
  );
}

/** A mistake of ours in one screen leaves the others standing, and what was typed is in its draft. */
class Caught extends Component<{ children: ComponentChildren }, { failed: boolean }> {
  override state = { failed: false };
  static override getDerivedStateFromError() {
    return { failed: true };
  }
  override render() {
    return this.state.failed ? <ScreenFailed /> : this.props.children;
  }
}
