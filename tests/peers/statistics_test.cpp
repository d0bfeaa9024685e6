// Our statistics against R, a general-purpose program, where it is installed: run lengths, the curve of melting, the straight line.
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "../reference/evidence_row.h"
#include "metrology/control_chart.h"
#include "metrology/melt_curve.h"
#include "metrology/straight_line.h"

namespace heatwork::peers {
namespace {

using namespace metrology;
using reference::Evidence;

bool r_has(const std::string& package) {
  const std::string asked = "Rscript --vanilla -e 'quit(status = if (requireNamespace(\"" + package + "\", quietly = TRUE)) 0 else 1)'";
  return std::system((asked + " >/dev/null 2>&1").c_str()) == 0;
}

/// What R answers to a script that prints "name value" lines.
std::map<std::string, double> asked_of_r(const std::string& script) {
  std::map<std::string, double> answers;
  FILE* pipe = ::popen(("Rscript --vanilla -e '" + script + "' 2>/dev/null").c_str(), "r");
  std::string all;
  std::array<char, 4096> part{};
  while (pipe && std::fgets(part.data(), part.size(), pipe)) all += part.data();
  EXPECT_TRUE(pipe && ::pclose(pipe) == 0) << "R could not do: " << script;
  std::istringstream lines(all);
  std::string name;
  double value = 0;
  while (lines >> name >> value) answers[name] = value;
  return answers;
}

const char* const says = "say <- function(name, value) cat(name, format(value, digits = 15), \"\\n\"); ";

TEST(Statistics, RunLengthsAgreeWithR) {
  if (!r_has("spc")) GTEST_SKIP() << "Rscript with its package spc is not installed here";
  const auto r =
      asked_of_r(std::string(says) +
                 "library(spc); for (mu in c(0, 0.5, 1, 2, 3)) { say(paste0(\"c3_\", mu), xcusum.arl(0.5, 3, mu, sided = \"two\")); "
                 "say(paste0(\"c5_\", mu), xcusum.arl(0.5, 5, mu, sided = \"two\")); "
                 "say(paste0(\"f4_\", mu), xcusum.arl(0.5, 4, mu, hs = 2, sided = \"two\")); "
                 "say(paste0(\"e_\", mu), xewma.arl(0.2, 2.962, mu, sided = \"two\")) }");
  ASSERT_EQ(r.size(), 20U);
  Evidence row("R, package spc", "1");
  for (const auto& [text, mu] : std::map<std::string, double>{{"0", 0}, {"0.5", 0.5}, {"1", 1}, {"2", 2}, {"3", 3}}) {
    row.within_percent(average_run_length({ChartKind::cusum, 3, 0.5, 0.2, 0, true}, mu), r.at("c3_" + text), 0.05);
    row.within_percent(average_run_length({ChartKind::cusum, 5, 0.5, 0.2, 0, true}, mu), r.at("c5_" + text), 0.05);
    row.within_percent(average_run_length({ChartKind::cusum, 4, 0.5, 0.2, 2, true}, mu), r.at("f4_" + text), 0.05);
    row.within_percent(average_run_length({ChartKind::ewma, 2.962, 0.5, 0.2, 0, true}, mu), r.at("e_" + text), 0.05);
  }
}

const std::vector<MeltCount> firings = {{952, 9, 1}, {954, 8, 2}, {956, 11, 4}, {958, 10, 7}, {960, 9, 8}, {962, 7, 7}};

TEST(Statistics, TheMeltingCurveAgreesWithR) {
  if (!r_has("stats")) GTEST_SKIP() << "Rscript is not installed here";
  const auto r =
      asked_of_r(std::string(says) +
                 "t <- c(952, 954, 956, 958, 960, 962); n <- c(9, 8, 11, 10, 9, 7); m <- c(1, 2, 4, 7, 8, 7); "
                 "for (link in c(\"probit\", \"logit\")) { g <- glm(cbind(m, n - m) ~ t, family = binomial(link)); "
                 "say(paste0(link, \"_midpoint\"), -coef(g)[[1]] / coef(g)[[2]]); say(paste0(link, \"_slope\"), coef(g)[[2]]); "
                 "say(paste0(link, \"_slope_se\"), summary(g)$coefficients[2, 2]); say(paste0(link, \"_deviance\"), deviance(g)) }");
  ASSERT_EQ(r.size(), 8U);
  Evidence row("R, glm", "1");
  for (const auto& [link, name] : std::map<MeltLink, std::string>{{MeltLink::probit, "probit"}, {MeltLink::logit, "logit"}}) {
    const MeltCurve ours = fit_melt_curve(link, firings);
    row.within_percent(ours.midpoint_C, r.at(name + "_midpoint"), 1e-5);
    row.within_percent(ours.slope, r.at(name + "_slope"), 0.01);
    row.within_percent(ours.slope_se, r.at(name + "_slope_se"), 0.1);
    row.within_percent(ours.deviance, r.at(name + "_deviance"), 0.01);
  }
}

TEST(Statistics, TheThresholdAsASurvivalAgreesWithR) {
  if (!r_has("survival")) GTEST_SKIP() << "Rscript with its package survival is not installed here";
  // A wire that melted has its threshold below the display, one that did not above it: censored readings of a normal threshold.
  const auto r =
      asked_of_r(std::string(says) +
                 "library(survival); t <- c(952, 954, 956, 958, 960, 962); n <- c(9, 8, 11, 10, 9, 7); m <- c(1, 2, 4, 7, 8, 7); "
                 "low <- c(rep(rep(NA, 6), 1), t); high <- c(t, rep(NA, 6)); w <- c(m, n - m); keep <- w > 0; "
                 "s <- survreg(Surv(low, high, type = \"interval2\") ~ 1, weights = w, dist = \"gaussian\", subset = keep); "
                 "say(\"midpoint\", coef(s)[[1]]); say(\"spread\", s$scale)");
  ASSERT_EQ(r.size(), 2U);
  const MeltCurve ours = fit_melt_curve(MeltLink::probit, firings);
  Evidence row("R, package survival", "C");
  row.within_percent(ours.midpoint_C, r.at("midpoint"), 1e-4);
  row.in("K");
  row.within_percent(ours.spread_K, r.at("spread"), 0.1);
}

TEST(Statistics, TheLineAgreesWithR) {
  if (!r_has("stats")) GTEST_SKIP() << "Rscript is not installed here";
  const auto r = asked_of_r(std::string(says) +
                            "x <- c(700, 750, 800, 850, 900, 960); y <- c(2.1, 2.6, 3.4, 3.1, 4.4, 5.2); f <- lm(y ~ x); "
                            "p <- predict(f, data.frame(x = 820), se.fit = TRUE); say(\"slope\", coef(f)[[2]]); "
                            "say(\"slope_u\", summary(f)$coefficients[2, 2]); say(\"at\", p$fit[[1]]); say(\"at_u\", p$se.fit)");
  ASSERT_EQ(r.size(), 4U);
  const std::array<double, 6> x = {700, 750, 800, 850, 900, 960}, y = {2.1, 2.6, 3.4, 3.1, 4.4, 5.2};
  const StraightLine line = fit_straight_line(x, y, 0);
  const Predicted there = line_at(line, 820);
  Evidence row("R, lm", "1");
  row.within_percent(line.slope, r.at("slope"), 1e-6);
  row.within_percent(line.slope_u, r.at("slope_u"), 1e-6);
  row.within_percent(there.value, r.at("at"), 1e-6);
  row.within_percent(there.uncertainty, r.at("at_u"), 1e-5);
}

}  // namespace
}  // namespace heatwork::peers
