import { useState } from "preact/hooks";
import { Button } from "../parts";
import { goIntoDemo, session } from "../state/session";
import { t } from "../words";
import { go } from "./navigation";
import { notify } from "./notices";

/** Into the demo lab, or out of it; making it for the first time takes some seconds. */
export function DemoButton({ label, demo, kind = "plain" }: { label: string; demo: boolean; kind?: "plain" | "quiet" }) {
  const [busy, setBusy] = useState(false);
  const press = () => {
    setBusy(true);
    goIntoDemo(demo).then(
      () => go(demo || session.value?.lab.kept ? "/today" : "/setup"),
      (error: Error) => {
        setBusy(false);
        notify(error.message, "wrong");
      },
    );
  };
  return (
    <Button kind={kind} busy={busy} onPress={press}>
      {busy && demo ? t("shell.demo.making") : label}
    </Button>
  );
}
