// What the words of a command line ask for, read and checked, ready to be done.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "desk/calibrate.h"

namespace heatwork::cli {

/// Help that was asked for.
struct HelpRequest {
  std::string text;
};
struct VersionRequest {
  bool json = false;
};
struct DemoRequest {
  std::string folder = "heatwork-demo";
  bool json = false;
};
struct RehearseRequest {
  std::string file;
  bool json = false;
  bool traces = false;
  bool strip = true;
  bool fahrenheit = false;
  std::optional<std::string> picture;
};
struct CalculateRequest {
  std::string name;
  std::string file = "-";  ///< "-": standard input
  bool list = false;
  bool describe = false;
  bool json = false;
};
struct MaterialListRequest {
  bool json = false;
};
struct MaterialShowRequest {
  std::string name;
  bool json = false;
};
struct MaterialCalibrateRequest {
  desk::CalibrateAsked asked;
  bool json = false;
};
struct SchemaRequest {
  std::optional<std::string> noun;  ///< none: the kinds of file there are
  bool json = false;
};

using Request = std::variant<HelpRequest, VersionRequest, DemoRequest, RehearseRequest, CalculateRequest, MaterialListRequest,
                             MaterialShowRequest, MaterialCalibrateRequest, SchemaRequest>;

/// Errors: desk::Failure wrong_use with one sentence that says what is wrong and where help stands.
Request read_request(const std::vector<std::string>& words);

}  // namespace heatwork::cli
