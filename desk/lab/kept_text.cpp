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
  switch (heading->noun) {
    case trade::Noun::program:
      return read<trade::Program>(heading->noun, source);
    case trade::Noun::instruction:
      return read<trade::Instruction>(heading->noun, source);
    case trade::Noun::furnace:
      return read<trade::Furnace>(heading->noun, source);
    case trade::Noun::tray:
      return read<trade::Tray>(heading->noun, source);
    case trade::Noun::support:
      return read<trade::Support>(heading->noun, source);
    case trade::Noun::material:
      return read<trade::Material>(heading->noun, source);
    case trade::Noun::liquid:
      return read<trade::Liquid>(heading->noun, source);
    case trade::Noun::piece:
      return read<trade::Piece>(heading->noun, source);
    case trade::Noun::firing:
      return read<trade::Firing>(heading->noun, source);
  }
  throw trade::Mistake({}, source->name + ": this kind of file cannot be kept");
}

}  // namespace heatwork::desk
