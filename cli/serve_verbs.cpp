#include <memory>

#include "cli/answer.h"
#include "cli/interrupt.h"
#include "cli/output.h"
#include "cli/verbs.h"
#include "server/serve.h"

namespace heatwork::cli {
namespace {

struct ServeRequest {
  server::ServeWords words;
  bool routes = false, json = false;
};

int answer(const ServeRequest& request) {
  if (request.routes) return show(server::routes_table(), request.json);
  const WatchForStop watch;
  server::ServeHooks hooks;
  hooks.ready = [](const std::string& line) { put_result(line); };
  hooks.note = hooks.log = [](const std::string& line) { put_note(line); };
  hooks.stop = [&watch] { return watch.asked(); };
  server::serve(request.words, hooks);
  return done;
}

}  // namespace

void add_serve(Verb& heatwork) {
  Verb serve =
      heatwork.verb("serve", "Open the page at the bench in a browser", "serve --port 8110\n  heatwork serve --listen 192.168.1.20");
  serve.under(Heading::firing_work);
  const auto request = std::make_shared<ServeRequest>();
  server::ServeWords& words = request->words;
  serve.number("--port", "N", words.port, 0, 65535, "where it listens; 8110 where not given, 0: any free");
  serve.option("--listen", "ADDRESS", words.listen, "of this machine in the lab's network; else for this machine alone");
  serve.option("--name", "NAME", words.names, "another name by which browsers ask for this machine");
  serve.option("--certificate", "FILE", words.certificate, "the lab's own, PEM; else one is made where it is needed");
  serve.option("--key", "FILE", words.key, "of that certificate, PEM");
  serve.flag("--tls", words.tls, "encrypted for this machine alone too");
  serve.flag("--routes", request->routes, "only print every address, and who may use it");
  serve.store(words.lab);
  serve.json(request->json, "the addresses of --routes as JSON");
  serve.does([request] { return answer(*request); },
             [request] { return request->json && !request->routes ? "--json goes with --routes" : ""; });
}

}  // namespace heatwork::cli
