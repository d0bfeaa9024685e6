#include <memory>

#include "cli/interrupt.h"
#include "cli/output.h"
#include "cli/verbs.h"
#include "server/serve.h"

namespace heatwork::cli {

void add_serve(Verb& heatwork) {
  Verb serve = heatwork.verb("serve", "Open the page at the bench in a browser", "serve --port 8110");
  serve.under(Heading::firing_work);
  const auto words = std::make_shared<server::ServeWords>();
  serve.number("--port", "N", words->port, 0, 65535, "where it listens; 8110 where not given, 0: any free");
  serve.store(words->lab);
  serve.does([words] {
    const WatchForStop watch;
    server::serve(*words, {[](const std::string& line) { put_result(line); }, [](const std::string& line) { put_note(line); },
                           [&watch] { return watch.asked(); }});
    return done;
  });
}

}  // namespace heatwork::cli
