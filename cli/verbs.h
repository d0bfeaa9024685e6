// What each verb does: one desk call, its answer written out, the exit code.
#pragma once

#include "cli/request.h"

namespace heatwork::cli {

inline constexpr int done = 0;
inline constexpr int fault_expected = 1;

int answer(const HelpRequest& request);
int answer(const VersionRequest& request);
int answer(const DemoRequest& request);
int answer(const RehearseRequest& request);
int answer(const CalculateRequest& request);
int answer(const MaterialListRequest& request);
int answer(const MaterialShowRequest& request);
int answer(const MaterialCalibrateRequest& request);
int answer(const SchemaRequest& request);

}  // namespace heatwork::cli
