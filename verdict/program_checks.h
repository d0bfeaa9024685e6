// The checks a careful ceramist makes of a program before the start: rules that need no rehearsal, or little of it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "verdict/bench.h"

namespace heatwork::verdict {

/// A finding on a broken rule without a number: its level, and whose rule it is, from the limits.
Finding broken_rule(const Bench& bench, Aspect aspect, std::string_view rule, std::string sentence, std::string change);

/// One finding an aspect and piece: that of the gravest level, with the sentences of all that are not sound, the gravest first.
std::vector<Finding> merged(std::vector<Finding> findings);

/// What a firing is for, as judged from its pieces: the green layers, else all layers.
std::vector<const trade::Material*> materials_fired(const trade::ResolvedFiring& request, const trade::Piece& piece);
/// True where a layer of the piece goes in wet.
bool goes_in_wet(const trade::Piece& piece);
/// True where wet powder is mixed with a liquid whose drying is not computed.
bool liquid_not_computed(const trade::ResolvedFiring& request, const trade::Piece& piece);
/// Highest temperature of the heating stages; the entry where there is none. [C]
double top_C(const trade::Program& program);
/// The heating stage that goes highest, the last of those that do; nullptr where there is none.
const trade::HeatingStage* hottest_stage(const trade::Program& program);
/// What to do where the furnace lacks power: the rate it can do at the top, or a slower one.
std::string way_to_power(const Bench& bench);

// Each adds its findings to the bench; `merged` makes one of them.
void judge_units(Bench& bench);
void judge_panel(Bench& bench);
void judge_maximum(Bench& bench);
/// The sentence why the program cannot be run, and the rates beyond the furnace's power that made it so.
void judge_impossible(Bench& bench);
/// Where the display reaches the top later than the asked line, and the hold is counted from that line.
void judge_hold_start(Bench& bench);
void judge_instruction(Bench& bench);
void judge_chamber(Bench& bench);
void judge_entry(Bench& bench);
/// Drying time where the water is not computed.
void judge_drying(Bench& bench);
void judge_glaze_vacuum(Bench& bench);
void judge_cooling(Bench& bench);

}  // namespace heatwork::verdict
