// The verbs there are: each function declares one group of them, with what each does.
#pragma once

#include "cli/verb.h"
#include "trade/noun.h"

namespace heatwork::cli {

/// All of those below.
void add_all(Verb& heatwork);

void add_version(Verb& heatwork);
void add_rehearse(Verb& heatwork);
void add_demo(Verb& heatwork);
void add_calculate(Verb& heatwork);
void add_material(Verb& heatwork);
void add_schema(Verb& heatwork);
/// The manual page, and what a shell completes by.
void add_manual(Verb& heatwork);
/// The page at the bench.
void add_serve(Verb& heatwork);
/// One group a kind of file that a lab keeps, but for materials.
void add_nouns(Verb& heatwork);
/// Into the group that add_material makes.
void add_keeping_of_materials(Verb& material);
void add_store(Verb& heatwork);
/// Of the group "case": start, end, interrupted, call-off, step, photo, photo-out, history.
void add_case_work(Verb& group);

// What a group of one kind of file can do beside adding, showing, listing and finding.
void add_person_work(Verb& person);
/// Password and PIN, into the same group.
void add_signing_in(Verb& person);
void add_deviation_work(Verb& deviation);
/// What falls due, and the trail.
void add_store_questions(Verb& store);
/// Which pieces met a lot, a furnace, a program; nothing for other kinds.
void add_questions(trade::Noun noun, Verb& group);
/// The group "check" of furnaces: temperature, thermocouple, map, and those of the functions below.
void add_furnace_checks(Verb& furnace);
/// Into the group "check": vacuum, heat-up.
void add_furnace_records(Verb& check);
/// Into it chart, due and report.
void add_furnace_charts(Verb& check);
void add_furnace_dues(Verb& check);
void add_furnace_reports(Verb& check);

}  // namespace heatwork::cli
