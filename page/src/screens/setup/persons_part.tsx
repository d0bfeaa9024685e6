import { useState } from "preact/hooks";
import { paths, type DocumentList, type DocumentRow } from "../../api/client";
import { AnswerView, Button, Dialog, Empty, Notice, Table } from "../../parts";
import { maySetUp, session } from "../../state/session";
import { useAnswer } from "../../state/use_answer";
import { t } from "../../words";
import { NewPersonForm } from "./new_person_form";
import { PersonDialog } from "./person_dialog";
import { roleOptions } from "./roles";

export function PersonsPart() {
  if (!session.value?.demo) return <Persons />;
  return (
    <>
      <h2>{t("setup.persons.title")}</h2>
      <Notice>
        <p>{t("setup.persons.not_in_demo")}</p>
      </Notice>
    </>
  );
}

/** Who works here, by code and role; what tells who a person is, is asked for one by one and kept on no device. */
function Persons() {
  const persons = useAnswer<DocumentList>(paths.persons());
  const [open, setOpen] = useState<{ code: string } | "new" | null>(null);
  const close = () => {
    setOpen(null);
    persons.again();
  };
  return (
    <>
      <h2>{t("setup.persons.title")}</h2>
      {maySetUp.value ? null : (
        <Notice>
          <p>{t("setup.not_allowed")}</p>
        </Notice>
      )}
      <AnswerView of={persons}>{({ rows }) => <PersonList rows={rows} open={(code) => setOpen({ code })} />}</AnswerView>
      {maySetUp.value ? (
        <div class="actions">
          <Button kind="primary" onPress={() => setOpen("new")}>
            {t("setup.persons.add")}
          </Button>
        </div>
      ) : null}
      {open === "new" ? (
        <Dialog title={t("setup.persons.add_title")} onClose={close}>
          <NewPersonForm first={persons.answer?.count === 0} onKept={close} />
        </Dialog>
      ) : null}
      {open && open !== "new" ? <PersonDialog code={open.code} onClose={close} /> : null}
    </>
  );
}

function PersonList({ rows, open }: { rows: readonly DocumentRow[]; open: (code: string) => void }) {
  if (rows.length === 0) {
    return (
      <Empty title={t("setup.persons.none")}>
        <p>{t("setup.persons.none_help")}</p>
      </Empty>
    );
  }
  const roles = new Map(roleOptions().map(({ value, label }) => [value, label]));
  return (
    <Table
      caption={t("setup.persons.title")}
      quiet
      rows={rows}
      keyOf={({ name }) => name}
      columns={[
        { key: "code", head: t("setup.persons.code"), names: true, cell: ({ name }) => name },
        { key: "role", head: t("setup.persons.role"), cell: ({ state }) => (state === "left" ? t("setup.persons.left") : (roles.get(state) ?? state)) },
        {
          key: "change",
          head: t("setup.persons.change"),
          // Whoever may not set up changes what is his own.
          cell: ({ name }) =>
            maySetUp.value || session.value?.person === name ? (
              <Button label={`${t("setup.persons.change")}: ${name}`} onPress={() => open(name)}>
                {t("setup.persons.change")}
              </Button>
            ) : null,
        },
      ]}
    />
  );
}
