// The photo of the demo lab: drawn by us, so that it shows nobody's work.
#pragma once

#include <string>

namespace heatwork::desk {

/// A small grey picture of a rounded shape on a tray, as PNG. The same bytes every time.
std::string demo_photo();

}  // namespace heatwork::desk
