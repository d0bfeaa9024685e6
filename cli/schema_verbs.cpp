#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cli/output.h"
#include "cli/verbs.h"
#include "desk/schema.h"

namespace heatwork::cli {
namespace {

struct SchemaRequest {
  std::vector<std::string> noun;  ///< its words; empty: the kinds of file there are
  bool json = false;
};

int answer(const SchemaRequest& request) {
  std::string noun;
  for (const auto& word : request.noun) noun += (noun.empty() ? "" : " ") + word;
  put_result(request.noun.empty() ? desk::nouns_as_text() : desk::schema_text(noun));
  return done;
}

}  // namespace

void add_schema(Verb& heatwork) {
  Verb schema = heatwork.verb("schema", "What the files of a lab may hold, as JSON Schema", "schema furnace");
  schema.under(Heading::looking_up);
  const auto asked = std::make_shared<SchemaRequest>();
  schema.values("NOUN", asked->noun, "program, furnace, piece ...; nothing: the kinds of file there are", Need::optional);
  schema.json(asked->json, "a schema is JSON as it is; taken so that every verb knows it");
  schema.does([asked] { return answer(*asked); });
}

}  // namespace heatwork::cli
