// The talk on one connection: requests read by the HTTP library, asked of the front, answered.
#pragma once

#include <functional>

#include "server/answering.h"
#include "server/connections.h"
#include "server/front.h"
#include "server/wire.h"

namespace heatwork::server {

/// Holds it until either end has had enough, has each request answered by `answering`, and tells of each answer.
void hold_talk(Wire& wire, Front& front, Answering& answering, const Limits& limits, const std::function<void(const Told&)>& tell);

}  // namespace heatwork::server
