"""Requests to a server of the demo lab, good and bad, in an order in which each finds what it needs: (operation, method, path, body, status)."""
import base64

# One dot, grey: the smallest picture there is.
DOT = base64.b64decode("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGM4AgAAzgDNxR7JvgAAAABJRU5ErkJggg==")
KINDS = ("program", "instruction", "furnace", "tray", "support", "material", "liquid", "piece", "firing", "alloy", "lot", "case", "bench-step",
         "check", "reference", "deviation", "person", "lock", "lab")
ONE_OF = {"program": "glaze-film", "instruction": "glaze-film-sheet", "furnace": "corner", "tray": "light", "support": "pins", "piece": "crown-16",
          "firing": "firing", "lot": "veneer-31-7", "case": "k-0417", "bench-step": "crown-16-built", "check": "corner-wire",
          "reference": "silver-wire-3", "deviation": "pump-slow", "lock": "program-glaze-film", "lab": "lab"}
TRAY = {"material": "alumina-fibre", "diameter": "6,9 cm", "thickness": "7.8 mm"}
NO_PHOTO = "0" * 64
# Asked for by tests of their own.
ELSEWHERE = {"make_demo_lab", "sign_in", "sign_out", "say_password", "keep_password", "keep_pin", "play_in_demo", "begin_job",
             "show_job", "job_events", "cancel_job", "picture_style"}

WIRE = {"wire.metal": "silver", "wire.gas": "vacuum", "wire.pressure": "47 mbar", "wire.vented_hot": "false", "wire.purity": "99.99 %",
        "wire.diameter": "0.23 mm", "wire.hold": "2 min", "wire.criterion": "edges rounded", "limit": "2 K"}
PROBE = {"probe.type": "S", "probe.use": "new", "probe.tolerance_class": "1"}
WIRES = [{"display": "961 \u00b0C", "melted": "whole"}, {"display": "979 \u00b0C", "melted": "melted"}, {"display": "971 \u00b0C", "melted": "whole"},
         {"display": "973 \u00b0C", "melted": "melted"}, {"display": "975 \u00b0C", "melted": "melted"}]


def reading():
    for kind in KINDS:
        yield "list_documents", "GET", f"/api/documents/{kind}", None, 200
        yield "form", "GET", f"/api/forms/{kind}", None, 200
    for kind, name in ONE_OF.items():
        yield "show_document", "GET", f"/api/documents/{kind}/{name}", None, 200
        yield "history_of_document", "GET", f"/api/documents/{kind}/{name}/history", None, 200
    yield "list_documents", "GET", "/api/documents/program?word=glaze&page=1", None, 200
    yield "list_documents", "GET", "/api/documents/case?state=closed", None, 200
    yield "list_documents", "GET", "/api/documents/case?page=900", None, 200
    yield "show_document", "GET", "/api/documents/program/glaze-film?version=1", None, 200
    yield "difference_of_versions", "GET", "/api/documents/program/glaze-film/difference?before=1&after=2", None, 200
    yield "today", "GET", "/api/today", None, 200
    yield "today", "GET", "/api/today?within=400+days", None, 200
    yield "due", "GET", "/api/due", None, 200
    yield "due", "GET", "/api/due?within=1+day&page=2", None, 200
    yield "trail", "GET", "/api/trail", None, 200
    yield "trail", "GET", "/api/trail?newest_first=true&kind=bench-step", None, 200
    for piece in ("crown-16", "bridge-24-26", "crown-14", "veneer-11"):
        yield "history_of_piece", "GET", f"/api/pieces/{piece}/history", None, 200
    yield "pieces_of_lot", "GET", "/api/lots/veneer-31-7/pieces", None, 200
    yield "pieces_of_furnace", "GET", "/api/furnaces/corner/pieces?from=2020-01-01&to=2999-01-01", None, 200
    yield "pieces_since_good_check", "GET", "/api/furnaces/corner/since-good-check", None, 200
    yield "pieces_since_good_check", "GET", "/api/furnaces/window/since-good-check?of=vacuum", None, 200
    yield "due_of_furnaces", "GET", "/api/furnaces/due", None, 200
    yield "due_of_furnace", "GET", "/api/furnaces/corner/due", None, 200
    yield "chart_of_furnace", "GET", "/api/furnaces/corner/chart?of=temperature", None, 200
    yield "chart_picture_of_furnace", "GET", "/api/furnaces/corner/chart.svg?of=temperature&language=de&units=fahrenheit", None, 200
    yield "report_of_furnace", "GET", "/api/furnaces/corner/report", None, 200
    yield "report_sheet_of_furnace", "GET", "/api/furnaces/corner/report.pdf?paper=letter&language=de", None, 200
    yield "pieces_of_program", "GET", "/api/programs/dentine-on-zirconia/pieces?version=1", None, 200
    yield "status_of_store", "GET", "/api/store", None, 200
    yield "show_lab", "GET", "/api/lab", None, 200
    yield "help", "GET", "/api/help/pores", None, 200
    yield "session", "GET", "/api/session", None, 200
    yield "health", "GET", "/health", None, 200
    yield "description", "GET", "/api/openapi.json", None, 200


def writing():
    yield "rehearse", "POST", "/api/rehearse", {"firing": "metal-ceramic-firing", "edit": 1, "set": {"program": {"heating[1].hold": "80 s"}}}, 200
    yield "rehearse", "POST", "/api/rehearse", {"firing": "metal-ceramic-firing", "edit": 2, "set": {"program": {"heating[1].hold": "80 sheep"}}}, 200
    yield "keep_firing", "POST", "/api/firings", {"firing": "metal-ceramic-firing", "name": "metal-again", "reason": "once more"}, 200
    yield "keep_rehearsal", "POST", "/api/firings/metal-again/rehearsal", {"reason": "again"}, 200
    yield "check_new_document", "POST", "/api/documents/tray/check", {"name": "broad", "set": {**TRAY, "mass": "12 grams"}}, 200
    yield "check_new_document", "POST", "/api/documents/tray/check", {"name": "light", "from": 1, "set": {"mass": "12 g"}}, 200
    yield "check_new_document", "POST", "/api/documents/tray/check", {"text": "[tray]"}, 200
    yield "add_document", "POST", "/api/documents/tray", {"name": "broad", "set": TRAY, "reason": "bought"}, 200
    yield "check_changed_document", "POST", "/api/documents/tray/broad/check", {"from": 1, "set": {"diameter": "warm"}, "unset": ["mass"]}, 200
    yield "change_document", "PUT", "/api/documents/tray/broad", {"from": 1, "set": {"mass": "0.0117 kg"}, "unset": [], "reason": "weighed"}, 200
    yield "lock_document", "PUT", "/api/documents/tray/broad/lock", {"locked": True, "reason": "weighed twice"}, 200
    yield "lock_document", "PUT", "/api/documents/tray/broad/lock", {"locked": False, "reason": "weigh again"}, 200
    yield "set_lab", "PUT", "/api/lab", {"name": "Demo lab at the river", "units": "celsius", "reason": "set up"}, 200
    yield "record_bench_step", "POST", "/api/bench-steps", {"name": "veneer-cleaned", "work": "clean", "pieces": ["veneer-11"], "note": "steam"}, 200
    yield "record_bench_step", "POST", "/api/bench-steps", {"name": "inlay-built", "work": "build-up", "pieces": ["inlay-36"], "lots": ["veneer-31-7"]}, 200
    yield "interrupt_firing", "POST", "/api/firings/crystallise-firing/interrupted", {"what": "mains cut"}, 200
    yield ("end_firing", "POST", "/api/firings/crystallise-firing/end",
           {"pieces": [{"piece": "crown-14", "outcome": "as wanted", "looked_like": "-3 K", "seen": "even"}], "highest_display": "843 \u00b0C",
            "hold": "3 min", "lowest_pressure": "53 mbar", "duration": "17 min"}, 200)
    yield "start_firing", "POST", "/api/firings/glaze-firing/start", {"read_back": "743 on the panel"}, 200
    yield "keep_photo", "POST", "/api/firings/glaze-firing/photos?of=a+dot", DOT, 200
    yield "call_off_firing", "POST", "/api/firings/stain-firing/called-off", {"reason": "the inlay goes back"}, 200
    yield ("open_deviation", "POST", "/api/deviations",
           {"name": "late", "from": "lab rule", "found": "late", "firing": "firing", "pieces": ["crown-16"], "reason": "seen today"}, 200)
    yield "decide_deviation", "PUT", "/api/deviations/late/decision", {"decision": "use as it is", "reason": "fits", "trial": "one tab"}, 200
    yield "release_deviation", "PUT", "/api/deviations/late/release", {"reason": "fits"}, 200
    due = "/api/furnaces/corner/due"
    yield "set_interval_of_every_furnace", "PUT", "/api/furnaces/due", {"work": "vacuum test", "every_days": "19"}, 200
    yield "set_interval_of_furnace", "PUT", due, {"work": "muffle", "after_hours": "870", "by": "furnace maker", "stated_in": "page 31", "reason": "read"}, 200
    yield "set_interval_of_furnace", "PUT", due, {"work": "wipe the door", "every_days": "10", "after_firings": "60"}, 200
    yield "mark_upkeep_done", "POST", f"{due}/done", {"work": "wipe the door"}, 200
    yield "set_interval_of_furnace", "PUT", due, {"work": "wipe the door", "as_before": True}, 200
    checks = "/api/furnaces/corner/checks"
    yield "check_furnace", "POST", f"{checks}/temperature", {}, 200
    yield "check_furnace", "POST", f"{checks}/temperature", {"answers": WIRE, "trials": WIRES}, 200
    yield "keep_furnace_check", "POST", f"{checks}/temperature/kept", {"answers": WIRE, "trials": WIRES[:1], "name": "wire-now"}, 200
    yield "keep_furnace_check", "POST", f"{checks}/temperature/kept", {"go_on": "wire-now", "from": 1, "trials": WIRES[1:2]}, 200
    yield "keep_furnace_check", "POST", f"{checks}/temperature/kept", {"go_on": "wire-now", "from": 2, "unset": ["trials[2]"]}, 200
    yield "keep_furnace_check", "POST", f"{checks}/temperature/kept", {"go_on": "wire-now", "from": 3, "trials": WIRES[1:]}, 200
    yield "keep_furnace_check", "POST", f"{checks}/temperature/kept", {"go_on": "wire-now", "from": 4, "decision": "corrected", "reason": "keyed in"}, 200
    yield "check_furnace", "POST", f"{checks}/temperature", {"go_on": "wire-now"}, 200
    yield "check_furnace", "POST", f"{checks}/thermocouple", {"answers": PROBE, "more_follows": True}, 200
    yield "keep_furnace_check", "POST", f"{checks}/temperature/kept", {"answers": WIRE, "trials": WIRES[:1], "name": "wire-lost"}, 200
    yield "keep_furnace_check", "POST", f"{checks}/temperature/kept", {"go_on": "wire-lost", "from": 1, "answers": {"wire.gas": "air"}}, 200
    yield "give_up_check", "POST", "/api/checks/wire-lost/given-up", {"from": 2, "reason": "the wire was lost"}, 200
    yield ("keep_furnace_check", "POST", f"{checks}/thermocouple/kept",
           {"answers": PROBE, "compared": [{"display": "803 \u00b0C", "probe": "799 \u00b0C"}, {"display": "957 \u00b0C", "emf": "9.13 mV", "cold_junction": "24 \u00b0C"}]}, 200)
    yield "check_furnace", "POST", f"{checks}/chamber-map", {"tabs": [{"where": "middle", "looked_like": "0 K"}]}, 200
    yield ("keep_furnace_check", "POST", f"{checks}/chamber-map/kept",
           {"tabs": [{"where": where, "looked_like": "-3 K"} for where in ("middle", "front", "back", "left", "right")]}, 200)
    pumped = [f"{6 * at} s, {40 + round(930 * 0.73 ** at)} mbar" for at in range(30)]
    yield ("keep_furnace_check", "POST", f"{checks}/vacuum/kept",
           {"answers": {"vacuum.gauge": "absolute", "vacuum.pump_warm": "yes", "vacuum.room": "21 \u00b0C"}, "pump_down": pumped,
            "rise": [f"{30 * at} s, {42 + 4 * at} mbar" for at in range(24)]}, 200)
    yield "check_furnace", "POST", f"{checks}/vacuum", {"answers": {"vacuum.gauge": "absolute"}, "pump_down": pumped, "cannot_be_shut": True}, 200
    run = [f"{10 * at} s, {round(1573 - 1163 * 0.983 ** at)} \u00b0C" for at in range(40)]
    yield ("keep_furnace_check", "POST", f"{checks}/heating/kept",
           {"answers": {"heating_run.mains": "229 V", "heating_run.room": "22 \u00b0C", "heating_run.capped": "no"}, "run": run}, 200)


def of_persons():
    """Last: from the first person on roles are in force."""
    yield ("add_person", "POST", "/api/persons",
           {"code": "CODE", "role": "release", "may_set_up": True, "name": "Mara Example", "contact": "bench 2", "reason": "first"}, 200)
    yield "add_person", "POST", "/api/persons", {"code": "kim", "role": "fire", "name": "Kim Example", "reason": "second"}, 200
    yield "show_person", "GET", "/api/persons/kim", None, 200
    yield "show_document", "GET", "/api/documents/person/kim", None, 200
    yield "change_person", "PUT", "/api/persons/kim", {"role": "release", "may_set_up": False, "reason": "passed"}, 200
    yield "change_personal_data", "PUT", "/api/persons/kim/personal", {"contact": "bench 1", "reason": "moved"}, 200
    yield "forget_person", "DELETE", "/api/persons/kim/personal", {"reason": "asked for it"}, 200
    yield "show_person", "GET", "/api/persons/kim", None, 200


def bad():
    yield "list_documents", "GET", "/api/documents/progam", None, 404
    yield "rehearse", "POST", "/api/rehearse", {"firing": "none", "edit": 1}, 404
    yield "keep_firing", "POST", "/api/firings", {"firing": "metal-ceramic-firing", "set": {"program": {"entry": "warm"}}, "reason": "x"}, 422
    yield "keep_rehearsal", "POST", "/api/firings/none/rehearsal", {}, 404
    yield "help", "GET", "/api/help/luck", None, 404
    yield "list_documents", "GET", "/api/documents/program?page=0", None, 422
    yield "list_documents", "GET", "/api/documents/program?word=a&wrod=b", None, 422
    yield "form", "GET", "/api/forms/%2e%2e%2fx", None, 404
    yield "show_document", "GET", "/api/documents/program/glaze-fim", None, 404
    yield "show_document", "GET", "/api/documents/program/a%2Fb", None, 422
    yield "show_document", "GET", "/api/documents/program/glaze-film?version=9", None, 404
    yield "history_of_document", "GET", "/api/documents/program/none", None, 404
    yield "difference_of_versions", "GET", "/api/documents/program/glaze-film/difference?before=1", None, 422
    yield "today", "GET", "/api/today?within=soon", None, 422
    yield "due", "GET", "/api/due?until=2026-02-31", None, 422
    yield "trail", "GET", "/api/trail?kind=thing", None, 422
    yield "history_of_piece", "GET", "/api/pieces/none/history", None, 404
    yield "pieces_of_lot", "GET", "/api/lots/none/pieces", None, 404
    yield "pieces_of_furnace", "GET", "/api/furnaces/corner/pieces?from=yesterday", None, 422
    yield "pieces_since_good_check", "GET", "/api/furnaces/corner/since-good-check?of=weather", None, 422
    yield "pieces_of_program", "GET", "/api/programs/none/pieces", None, 404
    yield "photo", "GET", f"/api/photos/{NO_PHOTO}", None, 404
    yield "photo", "GET", "/api/photos/..", None, 404
    yield "show_person", "GET", "/api/persons/nobody", None, 404
    yield "add_document", "POST", "/api/documents/tray", {"name": "light", "set": TRAY}, 409
    yield "add_document", "POST", "/api/documents/tray", {"name": "a/b", "set": TRAY}, 422
    yield "add_document", "POST", "/api/documents/tray", {"name": "other", "set": {"mass": "heavy", "diametre": "1 mm"}}, 422
    yield "add_document", "POST", "/api/documents/tray", {"name": "other", "sett": TRAY}, 422
    yield "add_document", "POST", "/api/documents/tray", {"name": "other", "set": {"mass": 12}}, 422
    yield "add_document", "POST", "/api/documents/tray", {"text": "format = 1\n[program]\nname = \"x\"\n"}, 422
    yield "add_document", "POST", "/api/documents/person", {"name": "x", "set": {}}, 400
    yield "add_document", "POST", "/api/documents/tray", [1], 400
    yield "add_document", "POST", "/api/documents/tray", None, 400
    yield "check_new_document", "POST", "/api/documents/tray/check", {"name": "x", "text": "y"}, 422
    yield "check_changed_document", "POST", "/api/documents/tray/none/check", {"from": 1, "set": {"mass": "1 g"}}, 404
    yield "change_document", "PUT", "/api/documents/program/glaze-film", {"from": 1, "set": {"note": "x"}, "reason": "y"}, 403
    yield "change_document", "PUT", "/api/documents/program/stain-film", {"from": 1, "set": {"heating[1].to": "warm"}, "reason": "y"}, 422
    yield "change_document", "PUT", "/api/documents/case/k-0417", {"from": 1, "set": {"next_step": "glaze"}, "reason": "y"}, 409
    yield "change_document", "PUT", "/api/documents/case/k-0417", {"set": {"next_step": "glaze"}, "reason": "y"}, 422
    yield "lock_document", "PUT", "/api/documents/program/glaze-film/lock", {"locked": "yes", "reason": "x"}, 422
    yield "lock_document", "PUT", "/api/documents/program/glaze-film/lock", {"locked": True, "reason": "x"}, 422
    yield "start_firing", "POST", "/api/firings/none/start", {}, 404
    yield "start_firing", "POST", "/api/firings/firing/start", {}, 409
    yield "end_firing", "POST", "/api/firings/glaze-firing/end", {"pieces": []}, 422
    yield "end_firing", "POST", "/api/firings/glaze-firing/end", {"pieces": [{"piece": "veneer-11", "outcome": "lovely"}]}, 422
    yield "interrupt_firing", "POST", "/api/firings/firing/interrupted", {"what": "x"}, 409
    yield "call_off_firing", "POST", "/api/firings/firing/called-off", {"reason": "x"}, 409
    yield "keep_photo", "POST", "/api/firings/glaze-firing/photos", b"no picture", 422
    yield "keep_photo", "POST", "/api/firings/none/photos", DOT, 404
    yield "record_bench_step", "POST", "/api/bench-steps", {"name": "s", "work": "dance", "pieces": ["crown-14"]}, 422
    yield "record_bench_step", "POST", "/api/bench-steps", {"name": "s", "work": "clean", "pieces": ["none"]}, 404
    yield "open_deviation", "POST", "/api/deviations", {"name": "pump-slow", "from": "a", "found": "b"}, 409
    yield "decide_deviation", "PUT", "/api/deviations/none/decision", {"decision": "reject", "reason": "x"}, 404
    yield "decide_deviation", "PUT", "/api/deviations/pump-slow/decision", {"decision": "maybe", "reason": "x"}, 422
    yield "release_deviation", "PUT", "/api/deviations/pump-slow/release", {"reason": "x"}, 409
    yield "give_up_check", "POST", "/api/checks/none/given-up", {"reason": "lost"}, 404
    yield "give_up_check", "POST", "/api/checks/corner-wire/given-up", {"reason": " "}, 422
    yield "give_up_check", "POST", "/api/checks/corner-wire/given-up", {"reason": "lost"}, 409
    yield "due_of_furnace", "GET", "/api/furnaces/none/due", None, 404
    yield "due_of_furnaces", "GET", "/api/furnaces/due?until=now", None, 422
    yield "set_interval_of_every_furnace", "PUT", "/api/furnaces/due", {"work": "vacuum test"}, 422
    yield "set_interval_of_furnace", "PUT", "/api/furnaces/corner/due", {"work": "vacum test", "every_days": "3"}, 422
    yield "set_interval_of_furnace", "PUT", "/api/furnaces/corner/due", {"work": "vacuum test", "every_days": 3}, 422
    yield "set_interval_of_furnace", "PUT", "/api/furnaces/corner/due", {"work": "vacuum test", "every_days": "often"}, 422
    yield "set_interval_of_furnace", "PUT", "/api/furnaces/corner/due", {"work": "vacuum test", "every_days": "3", "from": 1}, 409
    yield "mark_upkeep_done", "POST", "/api/furnaces/corner/due/done", {"work": "vacuum test"}, 422
    yield "mark_upkeep_done", "POST", "/api/furnaces/corner/due/done", {"work": "pump service", "on": "2999-01-01"}, 422
    yield "chart_of_furnace", "GET", "/api/furnaces/corner/chart?limit=wide", None, 422
    yield "chart_picture_of_furnace", "GET", "/api/furnaces/corner/chart.svg?language=fr", None, 422
    yield "chart_picture_of_furnace", "GET", "/api/furnaces/corner/chart.svg?units=reaumur", None, 422
    yield "report_of_furnace", "GET", "/api/furnaces/none/report", None, 404
    yield "report_sheet_of_furnace", "GET", "/api/furnaces/corner/report.pdf?paper=napkin", None, 422
    yield "check_furnace", "POST", "/api/furnaces/none/checks/temperature", {}, 404
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/luck", {}, 404
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/temperature", {"answers": {"wire.gas": "soup"}}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/temperature", {"answers": {"good": "true"}}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/temperature", {"answers": WIRE, "trials": [{"display": "700 \u00b0C", "melted": "melted"}]}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/temperature", {"answers": WIRE, "trials": [{"display": "960 \u00b0C", "molten": "no"}]}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/temperature", {"decision": "left"}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/chamber-map", {"tabs": [{"where": "roof", "looked_like": "1 K"}]}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/vacuum", {"pump_down": ["0 s, 900 mbar", "soon"]}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/vacuum", {"trials": []}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/vacuum", {}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/heating", {}, 422
    yield "check_furnace", "POST", "/api/furnaces/corner/checks/heating", {"run": ["0 s, 420 \u00b0C"], "run_table": "time;display"}, 422
    yield "keep_furnace_check", "POST", "/api/furnaces/corner/checks/temperature/kept", {"go_on": "corner-wire", "trials": []}, 422
    yield "keep_furnace_check", "POST", "/api/furnaces/window/checks/temperature/kept", {"go_on": "corner-wire", "from": 1}, 409
    yield "set_lab", "PUT", "/api/lab", {"units": "kelvin", "reason": "x"}, 422
    yield "set_lab", "PUT", "/api/lab", {"nmae": "x"}, 422
    yield "add_person", "POST", "/api/persons", {"code": "x y", "role": "fire"}, 422
    yield "add_person", "POST", "/api/persons", {"code": "xy", "role": "boss"}, 422
    yield "change_person", "PUT", "/api/persons/nobody", {"role": "fire", "reason": "x"}, 404
    yield "change_personal_data", "PUT", "/api/persons/nobody/personal", {"name": "x"}, 404
    yield "forget_person", "DELETE", "/api/persons/nobody/personal", {}, 422
    yield "make_demo_lab", "POST", "/api/demo", {"anew": "yes"}, 422
