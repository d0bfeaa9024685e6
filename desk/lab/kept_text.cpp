#include "desk/lab/kept_text.h"

#include "desk/rehearse_files.h"
#include "trade/mistake.h"
#include "trade/writer.h"

namespace heatwork::desk {
namespace {

template <class T>
KeptText read(trade::Noun noun, const std::shared_ptr<const trade::Source>& source) {
  trade::ReadingContext context;
  context.ambient_of_altitude = ambient_of_altitude;
  const T read = trade::read_noun<T>(source, context);
  return {noun, read.name, read.label, read.note, trade::write_noun(read)};
}

}  // namespace

KeptText kept_text(const std::shared_ptr<const trade::Source>& source) {
  const auto heading = trade::heading_of(source);
  if (!heading) throw trade::Mistake({}, source->name + ": this holds no `format` and no noun of a lab");
  return trade::with_type_of(heading->noun, [&]<class T>(std::type_identity<T>) { return read<T>(heading->noun, source); });
}

}  // namespace heatwork::desk
