#include "verdict/explanation.h"

#include <algorithm>

namespace heatwork::verdict {
namespace {

constexpr std::string_view chosen_here = "A choice of ours for want of a published value (chosen-here).";
constexpr std::string_view field_memory = "Memory of the field: textbook and handbook values as they are remembered (field-memory).";

}  // namespace

Explanation explanation_of(Aspect aspect) {
  switch (aspect) {
    case Aspect::units:
    case Aspect::panel:
    case Aspect::instruction:
    case Aspect::entry:
      return {"judgement", "", chosen_here};
    case Aspect::frame:
      return {
          "frame-sag", "(frame-sag.2) w = 5 q L^4 / (384 I)",
          "A. M. Brown, M. F. Ashby, Acta Metall. 28 (1980) 1085-1101 (brown-ashby-1980), from memory; the margin is a choice of ours."};
    case Aspect::refiring:
      return {"judgement", "",
              "S. Nagasawa et al., Biomed. Mater. Eng. 11 (2001) 185 (nagasawa-2001): pores persist through further firings."};
    case Aspect::zirconia:
      return {"zirconia", "(zirconia.2) rho = rho0 + (1 - rho0) / (1 + exp(-(ln Theta - a) / b))^nu, not beyond the cap",
              "H. Su, D. L. Johnson, J. Am. Ceram. Soc. 79 (1996) 3211-3217 (su-johnson-1996)."};
    case Aspect::chamber:
      return {"chamber", "", field_memory};
    case Aspect::furnace:
      return {"chamber", "(chamber.2) tau dS/dt = T - S, display = S + error", "Sensor with one lag (textbook); error by a melt test."};
    case Aspect::water:
      return {"drying", "(drying.3) m'' = g B a(w)", "F. P. Incropera et al., Fundamentals of Heat and Mass Transfer (incropera)."};
    case Aspect::burst:
      return {"drying", "(drying.10) index = dp / strength", chosen_here};
    case Aspect::organics:
      return {"judgement", "", field_memory};
    case Aspect::heat:
      return {"load", "(load.1) every node C dT/dt = conducted + face, every mass C dT/dt = sum of exchanges, every wet layer dw/dt = -m''",
              "F. P. Incropera et al., Fundamentals of Heat and Mass Transfer (incropera)."};
    case Aspect::vacuum:
      return {"vacuum", "(vacuum.1) p = p_u + (p_0 - p_u) exp(-t / tau), tau = V / S for a pump of constant speed S and limit p_u",
              field_memory};
    case Aspect::pores:
      return {"pores", "(pores.1) da/dt = -(a / (4 eta)) (2 gamma / a + p - p_g) / (1 - phi)",
              "J. K. Mackenzie, R. Shuttleworth, Proc. Phys. Soc. B 62 (1949) 833-852 (mackenzie-shuttleworth-1949)."};
    case Aspect::degree_of_firing:
      return {"comparison", "(comparison.3) Q_maker(T_chamber + dT) = Q_here, -150 K <= dT <= +150 K",
              "J. Frenkel, J. Phys. USSR 9 (1945) 385 (frenkel-1945)."};
    case Aspect::gloss_and_edges:
      return {"gloss-and-edges", "(gloss-and-edges.5) e = gamma S", "S. E. Orchard, Appl. Sci. Res. A 11 (1962) 451-464 (orchard-1962)."};
    case Aspect::sag:
      return {"gloss-and-edges", "(gloss-and-edges.6) w' = rho g L^4 / (2 eta h^2), w = rho g L^4 S / (2 h^2)",
              "Bending of a beam, with viscosity in place of stiffness (textbook)."};
    case Aspect::crystals:
      return {"crystallisation", "(crystallisation.1) X = 1 - exp(-z^n), dz/dt = k(T)",
              "M. Avrami, J. Chem. Phys. 7 (1939) 1103 (avrami-1939)."};
    case Aspect::leucite:
      return {"crystallisation", "(crystallisation.11) minutes = integral of dt while T_low < T < T_high", field_memory};
    case Aspect::cooling:
      return {"cooling-stress", "(cooling-stress.9) d eps = alpha_s(T) dT + (alpha_l - alpha_s(Tf)) dTf",
              "A. Q. Tool, J. Am. Ceram. Soc. 29 (1946) 240 (tool-1946)."};
  }
  return {};
}

std::string help_key_of(Aspect aspect) {
  std::string key = "help." + std::string(word(aspect));
  std::replace(key.begin(), key.end(), ' ', '_');
  return key;
}

}  // namespace heatwork::verdict
