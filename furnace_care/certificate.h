// When what furnaces are checked with is certified anew: by its certificate, the furnace maker, the lab, else common practice.
#pragma once

#include <optional>
#include <string>

#include "furnace_care/upkeep.h"
#include "trade/records.h"

namespace heatwork::furnace_care {

struct CertificateDue {
  int day = 0;  ///< days since 1970-01-01
  std::string sentence;
  SetBy by = SetBy::assumed;
  std::optional<UpkeepInterval> interval;  ///< that decides; none: the day stands on the certificate
};

/// How often such a thing is certified anew where neither it nor anybody says so; nothing for what does not change with time.
/// Standing with it. source: chosen-here
[[nodiscard]] std::optional<UpkeepInterval> usual_certificate_interval(trade::ReferenceOf of);

/// That the furnace maker or the lab sets for it, else the usual one; nothing where nobody says.
[[nodiscard]] std::optional<UpkeepInterval> certificate_interval(const trade::Reference& reference);

/// The sooner of the certificate's own last day and the interval that is set; the usual interval only where neither stands. Due `today`
/// where an interval stands and no day of a certificate. Nothing where nobody says when.
[[nodiscard]] std::optional<CertificateDue> certificate_due(const trade::Reference& reference, int today);

}  // namespace heatwork::furnace_care
